import type { Span } from '../base/span';
import type { TextEdit } from '../base/textEdit';
import { holdsDelimiter } from './dialect';
import type { CsvDocument } from './document';
import { closingQuote, quoteCell, quoted } from './quote';
import { difference } from './difference';

/**
 * Writes a value into a cell: replaces what differs. A quoted cell stays quoted, another is quoted only where it must
 * be. Throws a RangeError where there is no such cell, also where the record is too short for it.
 */
export function setCell(document: CsvDocument, row: number, column: number, value: string): TextEdit[] {
  if (document.value(row, column) === value) return [];
  const span = document.span(row, column);
  const before = document.source(row, column);
  const alone = document.cellCount(row) === 1;
  const after = before.startsWith('"')
    ? quoted(value) + before.slice((closingQuote(before) ?? before.length) + 1)
    : written(document, value, { row, offset: span.start, alone });
  return [difference(span.start, before, after)];
}

/**
 * Puts a record before record `row`, behind the last where `row` is `rowCount`. It gets the line end of the record it
 * follows, or the file's first, or \n; a file without a final line end stays so. Nothing goes before the header: `row` is
 * 0 only for an empty file, of which the record becomes the header. Throws a RangeError for another row or no values.
 */
export function insertRow(document: CsvDocument, row: number, values: readonly string[]): TextEdit[] {
  const { rowCount, length, delimiter } = document;
  if (values.length === 0) throw new RangeError('a record without cells');
  if (!(row >= Math.min(1, rowCount) && row <= rowCount)) throw new RangeError(`no place for a record ${row} among ${rowCount} records`);
  const offset = row < rowCount ? document.rowSpan(row).start : length;
  const alone = values.length === 1;
  const cells = values.map((value, column) => written(document, value, { row, offset: column === 0 ? offset : undefined, alone }));
  const record = cells.join(delimiter);
  if (rowCount === 0) return [insertion(offset, record + '\n')];
  const lineEnd = document.lineEnd(row - 1);
  return [insertion(offset, lineEnd ? record + lineEnd : (document.lineEnd(0) || '\n') + record)];
}

/**
 * Takes a record away, with its line end, or with the line end before it where it is the last and has none. Throws a
 * RangeError for the header and where there is no such record.
 */
export function deleteRow(document: CsvDocument, row: number): TextEdit[] {
  if (row === 0) throw new RangeError('record 0 is the header');
  const { start, end } = document.rowSpan(row);
  const lineEnd = document.lineEnd(row);
  const before = document.rowSpan(row - 1);
  // A blank line is nothing but its line end, so it would go with it.
  if (lineEnd === '') return [removal({ start: isEmpty(before) ? start : before.end, end })];
  // \r before the record and \n behind it would become one line end of two.
  const joins = document.lineEnd(row - 1) === '\r' && row + 1 < document.rowCount && isBlankLineFeed(document, row + 1);
  if (!joins) return [removal({ start, end: end + lineEnd.length })];
  // Nor may the \n that is left then come behind a \r: the two around the record become the one line end that is wanted.
  const joinsBefore = lineEnd === '\n' && isEmpty(before) && row > 1 && document.lineEnd(row - 2) === '\r';
  return [removal({ start: joinsBefore ? start : before.end, end })];
}

/**
 * Puts a cell into every record, before the header's cell `column` or behind its last. A record that is too short for
 * that gets an empty one at its end and stays as short as it was; a blank line is left alone, but not in a file of one
 * column. Throws a RangeError for a column with a gap before it.
 */
export function insertColumn(document: CsvDocument, column: number, values: (row: number) => string): TextEdit[] {
  const { rowCount, delimiter } = document;
  if (rowCount === 0) return [];
  const headers = document.cellCount(0);
  if (!(column >= 0 && column <= headers)) throw new RangeError(`no place for a cell ${column} among ${headers}`);
  const edits: TextEdit[] = [];
  for (let row = 0; row < rowCount; row++) {
    const cells = document.cellCount(row);
    if (headers > 1 && cells === 1 && document.value(row, 0) === '') continue;
    if (column < cells) {
      const offset = document.span(row, column).start;
      edits.push(insertion(offset, written(document, values(row), { row, offset, alone: false }) + delimiter));
    } else {
      const value = column === cells ? values(row) : '';
      edits.push(insertion(document.rowSpan(row).end, delimiter + written(document, value, { row, offset: undefined, alone: false })));
    }
  }
  return edits;
}

interface Place {
  readonly row: number;
  /** Where the cell begins; undefined where it can't be the beginning of the text. */
  readonly offset: number | undefined;
  /** Whether it is the only cell of its record. */
  readonly alone: boolean;
}

/** A new cell as it is written, quoted where it would be read as something else. */
function written({ delimiter }: CsvDocument, value: string, { row, offset, alone }: Place): string {
  const emptyRecord = alone && value === '';
  const changesDelimiter = row === 0 && holdsDelimiter(value);
  const readsAsMark = offset === 0 && value.startsWith('\uFEFF');
  return emptyRecord || changesDelimiter || readsAsMark ? quoted(value) : quoteCell(value, delimiter);
}

function isBlankLineFeed(document: CsvDocument, row: number): boolean {
  return isEmpty(document.rowSpan(row)) && document.lineEnd(row) === '\n';
}

function isEmpty({ start, end }: Span): boolean {
  return start === end;
}

function insertion(offset: number, text: string): TextEdit {
  return { start: offset, end: offset, text };
}

function removal({ start, end }: Span): TextEdit {
  return { start, end, text: '' };
}
