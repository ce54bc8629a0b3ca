import type { Span } from '../base/span';
import { applyEdits, type TextEdit } from '../base/textEdit';
import { cellSource, cellSpan, cellsIn, cellValue, recordSpan, type CsvBlock, type CsvIssue } from './block';
import { readDialect, type Delimiter, type Dialect } from './dialect';
import { rescan } from './rescan';
import { BlockScanner, mostIssues } from './scanner';
import { lastAtMost } from './search';

/**
 * A sheet as text: every cell with its place, and not a character lost. Offsets count UTF-16 units from the beginning of
 * the text; record 0 is the header. Immutable; what an edit doesn't touch is shared with the document before.
 */
export class CsvDocument {
  /** Whole records that tile the text: the header alone, then about 64 each. None for an empty text. */
  readonly blocks: readonly CsvBlock[];
  /** The offset at which each block begins. */
  readonly blockStarts: Uint32Array;
  /** The number of each block's first record. */
  readonly blockRows: Uint32Array;
  /** At most the first 100, in the order of the text. */
  readonly issues: readonly CsvIssue[];
  readonly length: number;
  readonly rowCount: number;
  private readonly dialect: Dialect;
  private joined: string | undefined;

  private constructor(blocks: readonly CsvBlock[], dialect: Dialect) {
    this.blocks = blocks;
    this.dialect = dialect;
    this.blockStarts = new Uint32Array(blocks.length);
    this.blockRows = new Uint32Array(blocks.length);
    const issues: CsvIssue[] = [];
    let start = 0;
    let row = 0;
    for (let index = 0; index < blocks.length; index++) {
      const block = blocks[index] as CsvBlock;
      this.blockStarts[index] = start;
      this.blockRows[index] = row;
      if (block.issues.length > 0 && issues.length < mostIssues) issues.push(...block.issues.map((issue) => moved(issue, start)));
      start += block.text.length;
      row += block.rowCount;
    }
    this.issues = issues.slice(0, mostIssues);
    this.length = start;
    this.rowCount = row;
  }

  /** `codes`: its characters as `asciiOf` has them, where they are there already. */
  static parse(text: string, codes?: Uint8Array): CsvDocument {
    const dialect = readDialect(text);
    const scanner = new BlockScanner(dialect.delimiter);
    scanner.open(text, dialect.hasBom ? 1 : 0, codes);
    const header = scanner.isDone() ? [] : [scanner.next(1)];
    const document = new CsvDocument([...header, ...scanner.rest()], dialect);
    document.joined = text;
    return document;
  }

  get delimiter(): Delimiter {
    return this.dialect.delimiter;
  }

  /** Whether the text begins with a byte order mark (U+FEFF); it is no part of the first cell. */
  get hasBom(): boolean {
    return this.dialect.hasBom;
  }

  text(): string {
    return (this.joined ??= this.blocks.map((block) => block.text).join(''));
  }

  /** The document after the edits; equals `parse` of the new text but for where its blocks begin. */
  edit(edits: readonly TextEdit[]): CsvDocument {
    if (edits.length === 0) return this;
    const { blocks, blockStarts, length, dialect } = this;
    const after = blocks.length > 0 ? rescan({ blocks, blockStarts, length, dialect }, edits) : undefined;
    return after ? new CsvDocument(after.blocks, after.dialect) : CsvDocument.parse(applyEdits(this.text(), edits));
  }

  /** How many cells a record has, at least one. Throws a RangeError where there is no such record. */
  cellCount(row: number): number {
    const { block, record } = this.locate(row);
    return cellsIn(block, record);
  }

  /** The cell with its quotation marks. Throws a RangeError where there is no such cell. */
  span(row: number, column: number): Span {
    const { block, start, cell } = this.locateCell(row, column);
    return movedSpan(cellSpan(block, cell), start);
  }

  /** The cell without its quoting. Throws a RangeError where there is no such cell. */
  value(row: number, column: number): string {
    const { block, cell } = this.locateCell(row, column);
    return cellValue(block, cell);
  }

  /** The cell as it is written. Throws a RangeError where there is no such cell. */
  source(row: number, column: number): string {
    const { block, cell } = this.locateCell(row, column);
    return cellSource(block, cell);
  }

  /** The record without its line end. Throws a RangeError where there is no such record. */
  rowSpan(row: number): Span {
    const { block, start, record } = this.locate(row);
    return movedSpan(recordSpan(block, record), start);
  }

  /** The line end behind a record: '\n', '\r\n' or '\r'; '' for a last record without one. Throws a RangeError where there is no such record. */
  lineEnd(row: number): string {
    const { block, record } = this.locate(row);
    return block.text.slice(recordSpan(block, record).end, block.edges[block.rowEdges[record + 1] as number]);
  }

  /**
   * The cell that holds an offset or ends there. A line end belongs to the last cell before it, a byte order mark to the
   * first cell. Behind a final line end it is column 0 of record `rowCount`, which isn't there yet. Throws a RangeError
   * outside the text.
   */
  at(offset: number): { readonly row: number; readonly column: number } {
    if (!(offset >= 0 && offset <= this.length)) throw new RangeError(`offset ${offset} outside a text of length ${this.length}`);
    const index = lastAtMost(this.blockStarts, offset);
    const block = this.blocks[index];
    const within = offset - (this.blockStarts[index] ?? 0);
    const lastEdge = block?.edges.at(-1);
    if (!block || lastEdge === undefined || (within === block.text.length && within >= lastEdge)) return { row: this.rowCount, column: 0 };
    const edge = Math.max(0, lastAtMost(block.edges, within));
    const record = lastAtMost(block.rowEdges, edge);
    const column = Math.min(edge - (block.rowEdges[record] as number), cellsIn(block, record) - 1);
    return { row: (this.blockRows[index] as number) + record, column };
  }

  private locate(row: number): { block: CsvBlock; start: number; record: number } {
    const index = lastAtMost(this.blockRows, row);
    const block = this.blocks[index];
    const record = row - (this.blockRows[index] ?? 0);
    if (block?.rowEdges[record + 1] === undefined) throw new RangeError(`record ${row} in a sheet of ${this.rowCount} records`);
    return { block, start: this.blockStarts[index] as number, record };
  }

  private locateCell(row: number, column: number): { block: CsvBlock; start: number; cell: number } {
    const { block, start, record } = this.locate(row);
    const count = cellsIn(block, record);
    if (!(column >= 0 && column < count)) throw new RangeError(`cell ${column} in record ${row}, which has ${count}`);
    return { block, start, cell: (block.rowEdges[record] as number) + column };
  }
}

function moved({ kind, span }: CsvIssue, by: number): CsvIssue {
  return { kind, span: movedSpan(span, by) };
}

function movedSpan({ start, end }: Span, by: number): Span {
  return { start: start + by, end: end + by };
}
