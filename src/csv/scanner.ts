import { asciiOf } from '../base/ascii';
import { holdOne } from '../base/held';
import type { CsvBlock, CsvIssue } from './block';
import type { Delimiter } from './dialect';

/** How many records a block holds when a text is cut anew; one that grows by edits may hold twice as many. */
export const blockRows = 64;

/** As many issues as are worth telling. */
export const mostIssues = 100;

const quotationMark = 34;
const lineFeed = 10;
const carriageReturn = 13;

/**
 * Cuts a text into blocks of records. A quotation mark opens a quoted cell only where the cell begins; it closes before
 * a delimiter, a line end (\r\n, \n or \r) or the end of the text, blanks between them allowed; any other is text.
 */
export class BlockScanner {
  /** Where the next block begins; it may be set back to scan again. */
  position = 0;
  private issues: CsvIssue[] = [];
  private text = '';
  private codes: Uint8Array = new Uint8Array();
  private firstCell = 0;
  private readonly delimiterCode: number;

  constructor(delimiter: Delimiter) {
    this.delimiterCode = delimiter.charCodeAt(0);
  }

  /** Turns to a text, the first cell of which begins at `firstCell`: at 1 behind a byte order mark, else at 0. */
  open(text: string, firstCell: number, codes: Uint8Array = asciiOf(text)): void {
    this.text = text;
    this.codes = codes;
    this.firstCell = firstCell;
    this.position = 0;
  }

  isDone(): boolean {
    return this.position >= this.text.length;
  }

  /** The next records, at most `mostRows`, as a block. */
  next(mostRows: number): CsvBlock {
    const { text, codes, delimiterCode } = this;
    const { length } = codes;
    const highestEnd = Math.max(delimiterCode, carriageReturn);
    const from = this.position;
    let edges = notedEdges;
    if (notedRows.length <= mostRows) notedRows = new Uint32Array(mostRows + 1);
    let rows = 0;
    let count = 0;
    let at = from === 0 ? this.firstCell : from;
    this.issues = [];
    while (at < length && rows < mostRows) {
      edges[count++] = at - from;
      let code = delimiterCode;
      while (code === delimiterCode) {
        // Room for the edge behind this cell, and for the first one of the next record.
        if (count + 2 > edges.length) {
          edges = doubled(edges);
          if (count < mostNoted) notedEdges = edges;
        }
        if (at < length && codes[at] === quotationMark) at = this.endOfQuoted(at);
        code = lineFeed;
        while (at < length) {
          code = codes[at] as number;
          if (code <= highestEnd && (code === delimiterCode || code === lineFeed || code === carriageReturn)) break;
          at++;
        }
        at++;
        edges[count++] = at - from;
      }
      if (code === carriageReturn && at < length && codes[at] === lineFeed) at++;
      notedRows[++rows] = count;
    }
    this.position = Math.min(at, length);
    // In one piece: of ten thousand small files two for each take noticeably longer.
    const marks = new Uint32Array(count + rows + 1);
    marks.set(edges.subarray(0, count));
    marks.set(notedRows.subarray(0, rows + 1), count);
    return {
      text: text.slice(from, this.position),
      codes: codes.subarray(from, this.position),
      rowCount: rows,
      edges: marks.subarray(0, count),
      rowEdges: marks.subarray(count),
      issues: this.issues,
    };
  }

  /** All the records that are left, in one block where they are few. */
  rest(): CsvBlock[] {
    if (this.isDone()) return [];
    const from = this.position;
    const blocks = [this.next(2 * blockRows)];
    if (this.isDone()) return blocks;
    this.position = from;
    blocks.length = 0;
    while (!this.isDone()) blocks.push(this.next(blockRows));
    return blocks;
  }

  /** The end of the cell whose opening mark stands at `open`, blanks behind the closing mark included. */
  private endOfQuoted(open: number): number {
    const { text } = this;
    let firstLone = -1;
    let mark = text.indexOf('"', open + 1);
    while (mark !== -1) {
      if (text.charCodeAt(mark + 1) === quotationMark) {
        mark = text.indexOf('"', mark + 2);
        continue;
      }
      const end = this.endOfBlanks(mark + 1);
      if (this.endsCell(end)) {
        if (firstLone !== -1) this.report('text-after-quote', firstLone);
        return end;
      }
      if (firstLone === -1) firstLone = mark;
      mark = text.indexOf('"', end);
    }
    this.report('unclosed-quote', open);
    if (firstLone !== -1) this.report('text-after-quote', firstLone);
    return text.length;
  }

  private endOfBlanks(from: number): number {
    let at = from;
    while (!this.endsCell(at) && this.text.charAt(at).trim() === '') at++;
    return at;
  }

  private endsCell(at: number): boolean {
    if (at >= this.text.length) return true;
    const code = this.codes[at];
    return code === this.delimiterCode || code === lineFeed || code === carriageReturn;
  }

  private report(kind: CsvIssue['kind'], mark: number): void {
    if (this.issues.length === mostIssues) return;
    const start = mark - this.position;
    this.issues.push({ kind, span: { start, end: start + 1 } });
  }
}

/** Where the edges of a block are noted while it is cut, one block after the other; a folder of many small files would have it made for each. */
let notedEdges = new Uint32Array(512);

/** The same of how many edges there are before each record; the first place is always 0. */
let notedRows = new Uint32Array(2 * blockRows + 1);

/** For a block of more cells (a line of nothing but delimiters) the place goes away with it. */
const mostNoted = 32_768;

function doubled(array: Uint32Array<ArrayBuffer>): Uint32Array<ArrayBuffer> {
  const larger = new Uint32Array(2 * array.length);
  larger.set(array);
  return larger;
}

holdOne(new BlockScanner(','));
