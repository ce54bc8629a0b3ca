import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { parseDay } from '../base/moment';
import type { Span } from '../base/span';
import { insertRow, setCell } from '../csv/edits';
import type { Records } from '../records/records';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { dateReadings } from '../schema/timeReadings';
import { addColumns } from './columns/missing';
import type { Fix } from './problem';

type Month = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12;

export interface CellWanted {
  readonly row: Row;
  readonly header: string;
  readonly value: string;
  readonly title: Message;
  readonly safe?: boolean;
}

/** Writes one cell of a row; nothing where the file has no such column or can't be read. */
export function setCellFix({ row, header, value, title, safe = false }: CellWanted, records: Records): readonly Fix[] {
  const file = records.file(row.path);
  const column = file?.header.columnOf.get(header);
  if (file === undefined || column === undefined || file.blocked !== undefined || !row.wellFormed) return [];
  return [{ title, safe, edits: [{ file: file.path, edits: setCell(file.doc, file.recordOf(row), column, value) }] }];
}

/** Writes a cell of the header or of a row by its column. Of several dates that a text may mean, each is told in words too. */
export function suggestionFix(file: SheetFile, record: number, { column, value, safe }: { readonly column: number; readonly value: string; readonly safe: boolean }): Fix {
  return { title: changeTo(value, file.doc.value(record, column)), safe, edits: [{ file: file.path, edits: setCell(file.doc, record, column, value) }] };
}

function changeTo(value: string, before: string): Message {
  const days = dateReadings(before.trim()).filter((reading) => parseDay(reading.replace('~', '').slice(0, 10)) !== undefined);
  const [, month, day] = /^~?\d{4}-(\d\d)-(\d\d)/.exec(value) ?? [];
  if (days.length < 2 || month === undefined || day === undefined) return say('fix.change-to', value);
  return say(`fix.change-to.month.${Number(month) as Month}`, Number(day), value);
}

export function addColumnFix(file: SheetFile, header: string): Fix {
  return { title: say('fix.add-column', header), safe: false, edits: [{ file: file.path, edits: addColumns(file.doc, [header]) }] };
}

/** Takes out the empty lines above the header. */
export function takeOutFix(file: SheetFile, { start, end }: Span): Fix {
  return { title: say('fix.take-out-empty'), safe: true, edits: [{ file: file.path, edits: [{ start, end, text: '' }] }] };
}

/** Adds a row with nothing but its key to a register that is there. */
export function addRowFix(records: Records, sheet: string, id: string): readonly Fix[] {
  const file = records.file(`${sheet}.csv`);
  const column = file?.header.columnOf.get(file.schema.key ?? '');
  if (file === undefined || column === undefined || file.blocked !== undefined) return [];
  const cells = file.header.columns.map((_, i) => (i === column ? id : ''));
  return [{ title: say('fix.add-row', id, file.path), safe: false, edits: [{ file: file.path, edits: insertRow(file.doc, file.doc.rowCount, cells) }] }];
}

/** Puts empty cells at the end of a row that is too short. */
export function padRowFix(file: SheetFile, record: number): readonly Fix[] {
  const lacking = file.header.columns.length - file.doc.cellCount(record);
  if (lacking <= 0) return [];
  const at = file.doc.rowSpan(record).end;
  const text = file.doc.delimiter.repeat(lacking);
  return [{ title: say('fix.pad-row', lacking), safe: false, edits: [{ file: file.path, edits: [{ start: at, end: at, text }] }] }];
}

/** Writes a code into the `accept` cell of a register's row, so that it isn't told of that row any more. */
export function acceptFix(row: Row, code: string, records: Records): readonly Fix[] {
  const file = records.file(row.path);
  const column = file?.header.columnOf.get('accept');
  if (file === undefined || column === undefined) return [];
  const before = file.cellText(row, column) ?? '';
  const value = before === '' ? code : `${before} ${code}`;
  return setCellFix({ row, header: 'accept', value, title: say('fix.accept', code, keyText(row)) }, records);
}
