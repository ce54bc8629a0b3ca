import { CsvDocument } from '../csv/document';
import type { Records } from '../records/records';
import { schemaForPath } from '../schema/catalog';
import type { SheetSchema } from '../schema/descriptor';
import { Draft } from './draft';
import type { Cells, LogPlace } from './draft';
import type { FileEdit } from './problem';

/** A thing with a log, and the sheet that all of its kind share. */
export interface Logged {
  readonly kind: 'clutch' | 'tank';
  readonly id: string;
}

const homes = {
  clutch: { folder: 'clutches', register: 'clutches.csv', shared: 'log.csv', own: 'clutch-log', headers: ['time', 'event', 'tank', 'count', 'length_mm', 'to_tank', 'note'] },
  tank: { folder: 'tanks', register: 'tanks.csv', shared: 'readings.csv', own: 'tank-log', headers: ['time', 'event', 'temp_c', 'ph', 'tan_mg_l', 'no2_mg_l', 'no3_mg_l', 'change_pct', 'note'] },
} as const;

/**
 * Where a row about a thing is written: its own log, else the sheet that all share, else a new file with the columns that the keeper's other logs have, and
 * separated like those or like the register.
 */
export function logPlaceOf({ kind, id }: Logged, records: Records): LogPlace {
  const { folder, register, shared, own, headers } = homes[kind];
  const [log] = kind === 'clutch' ? records.logsOf(id) : records.tankLogsOf(id);
  if (log !== undefined) return { kind: 'there', file: log, whose: {} };
  const all = records.file(shared);
  if (all !== undefined) return { kind: 'there', file: all, whose: { [kind]: id } };
  const others = [...records.files()].filter(({ schema, blocked, doc }) => schema.name === own && blocked === undefined && doc.rowCount > 0);
  const [other] = others.sort((a, b) => (a.path < b.path ? -1 : 1));
  const columns = other?.header.columns.map(({ header }) => header).filter((header) => header !== '');
  const like = (other ?? records.file(register))?.doc ?? NOTHING;
  const lineEnd = like.rowCount > 0 && like.lineEnd(0) !== '' ? like.lineEnd(0) : '\n';
  const path = `${folder}/${id}.csv`;
  return { kind: 'new', path, schema: (schemaForPath(path) as { readonly schema: SheetSchema }).schema, headers: columns ?? headers, delimiter: like.delimiter, lineEnd };
}

const NOTHING = CsvDocument.parse('');

/** The headers that a thing's log has, or will have. */
export function logHeadersOf(thing: Logged, records: Records): readonly string[] {
  const place = logPlaceOf(thing, records);
  return place.kind === 'new' ? place.headers : [...place.file.header.columnOf.keys()];
}

/** Writes a row at the end of a thing's log. Undefined where the log can't be read or has no column for one of the cells. */
export function logRowEdit(thing: Logged, cells: Cells, records: Records): FileEdit | undefined {
  const draft = new Draft(records);
  return draft.log(logPlaceOf(thing, records), cells) === undefined ? draft.edits()[0] : undefined;
}
