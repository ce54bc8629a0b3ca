import { insertRow } from '../csv/edits';
import { CsvDocument } from '../csv/document';
import type { Records } from '../records/records';
import type { SheetFile } from '../records/sheetFile';
import type { FileEdit } from './problem';

/** Cells of a row by their headers. */
export type Cells = Readonly<Partial<Record<string, string>>>;

/** A thing with a log, and the sheet that all of its kind share. */
export interface Logged {
  readonly kind: 'clutch' | 'tank';
  readonly id: string;
}

const homes = {
  clutch: { folder: 'clutches', shared: 'log.csv', own: 'clutch-log', headers: ['time', 'event', 'tank', 'count', 'length_mm', 'to_tank', 'note'] },
  tank: { folder: 'tanks', shared: 'readings.csv', own: 'tank-log', headers: ['time', 'event', 'temp_c', 'ph', 'tan_mg_l', 'no2_mg_l', 'no3_mg_l', 'change_pct', 'note'] },
} as const;

/**
 * Writes a row at the end of a thing's log: its own file, else the sheet that all share, else a new file with the columns
 * that the keeper's other logs have. Undefined where the log can't be read or has no column for one of the cells.
 */
export function logRowEdit({ kind, id }: Logged, cells: Cells, records: Records): FileEdit | undefined {
  const { folder, shared, own, headers } = homes[kind];
  const [log] = kind === 'clutch' ? records.logsOf(id) : records.tankLogsOf(id);
  if (log !== undefined) return appended(log, cells);
  const all = records.file(shared);
  if (all !== undefined) return appended(all, { ...cells, [kind]: id });
  const others = [...records.files()].filter(({ schema, blocked, doc }) => schema.name === own && blocked === undefined && doc.rowCount > 0);
  const [other] = others.sort((a, b) => (a.path < b.path ? -1 : 1));
  const columns = other?.header.columns.map(({ header }) => header).filter((header) => header !== '');
  const usable = columns !== undefined && Object.keys(cells).every((header) => columns.includes(header)) ? columns : headers;
  const delimiter = other?.doc.delimiter ?? ',';
  const head = `${usable.join(delimiter)}\n`;
  const doc = CsvDocument.parse(head);
  const row = insertRow(doc, 1, usable.map((header) => cells[header] ?? ''));
  return { file: `${folder}/${id}.csv`, create: head + row.map(({ text }) => text).join('') };
}

function appended(file: SheetFile, cells: Cells): FileEdit | undefined {
  const { columns } = file.header;
  if (file.blocked !== undefined || !Object.keys(cells).every((header) => file.header.columnOf.has(header))) return undefined;
  return { file: file.path, edits: insertRow(file.doc, file.doc.rowCount, columns.map(({ header }) => cells[header] ?? '')) };
}
