import type { Span } from '../base/span';
import { cellsIn, cellSpan as spanInBlock, recordSpan } from '../csv/block';
import type { Records } from '../records/records';
import type { SheetFile } from '../records/sheetFile';
import type { Row } from '../records/row';
import type { RowPlace } from './found';
import type { Place } from './problem';

/** The place's span in its file as it is now. Without a header, or where the row has no such cell: the row's key. */
export function placeOf({ row, header }: RowPlace, records: Records): Place | undefined {
  const file = records.file(row.path);
  if (file === undefined || file.blocked !== undefined) return undefined;
  return { file: file.path, span: spanOf(file, row, header) };
}

/** The column in which the row's sheet has lengths: in millimetres or in inches. */
export function lengthHeaderOf({ block }: Row): 'length_mm' | 'length_in' {
  return block.file.header.columnOf.has('length_in') ? 'length_in' : 'length_mm';
}

export function spanOf(file: SheetFile, row: Row, header: string | undefined): Span {
  const key = header ?? file.schema.key ?? 'time';
  const column = file.header.columnOf.get(key) ?? file.header.columnOf.get(file.schema.key ?? 'time');
  return cellSpan(file, row, column);
}

/** The cell's span; the whole row's where the row has no such cell. */
export function cellSpan(file: SheetFile, row: Row, column: number | undefined): Span {
  const { csv, ordinal } = row.block;
  const start = file.doc.blockStarts[ordinal] as number;
  const within = column === undefined || column >= cellsIn(csv, row.index) ? recordSpan(csv, row.index) : spanInBlock(csv, (csv.rowEdges[row.index] as number) + column);
  return { start: start + within.start, end: start + within.end };
}
