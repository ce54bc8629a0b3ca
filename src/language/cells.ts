import type { Span } from '../base/span';
import { closingQuote } from '../csv/quote';
import type { Plan } from '../planner/plan';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { Field } from '../schema/descriptor';

/** A cell of a sheet that can be read. */
export interface Cell {
  readonly file: SheetFile;
  /** 0 is the header. */
  readonly record: number;
  readonly column: number;
  /** The header above it; its own text in the header row. '' where the row is longer than the header. */
  readonly header: string;
  /** Undefined in a column that the sheet doesn't know, or that stands there twice. */
  readonly field: Field | undefined;
  /** Undefined in the header row, for a blank line, and behind the last line. */
  readonly row: Row | undefined;
  /** Without its quoting. */
  readonly text: string;
  /** With its quotation marks. */
  readonly span: Span;
}

/**
 * The cell that holds an offset or ends there; behind a final line end an empty one that isn't written yet. Undefined where the
 * file isn't there, can't be read, or the offset is outside of it.
 */
export function cellAt(plan: Plan, path: string, offset: number): Cell | undefined {
  const file = plan.records.file(path);
  if (file === undefined || file.blocked !== undefined || !(offset >= 0 && offset <= file.doc.length)) return undefined;
  const { row: record, column } = file.doc.at(offset);
  const isWritten = record < file.doc.rowCount;
  const known = file.header.columns[column];
  return {
    file,
    record,
    column,
    header: record === 0 && isWritten ? file.doc.value(0, column) : (known?.header ?? ''),
    field: known?.field,
    row: isWritten && record > 0 ? file.rowAt(record) : undefined,
    text: isWritten ? file.doc.value(record, column) : '',
    span: isWritten ? file.doc.span(record, column) : { start: offset, end: offset },
  };
}

/** A cell's text as it is written and its span, both without the quotation marks around it and the blanks behind them. Throws a RangeError where there is no such cell. */
export function insideOf({ doc }: SheetFile, record: number, column: number): { readonly source: string; readonly span: Span } {
  const source = doc.source(record, column);
  const { start, end } = doc.span(record, column);
  const close = source.startsWith('"') ? closingQuote(source) : undefined;
  return close === undefined ? { source, span: { start, end } } : { source: source.slice(1, close), span: { start: start + 1, end: start + close } };
}
