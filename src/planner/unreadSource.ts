import type { Records } from '../records/records';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { clutchOfLogRow } from '../records/things';
import type { Tank } from '../records/things';
import type { SheetName } from '../schema/descriptor';

const readings: readonly SheetName[] = ['tank-log', 'readings'];
/** What tells how far a brood has come: its own records, how warm it stands, and what its species and its pair's broods do. */
const broods: readonly SheetName[] = ['clutches', 'pairs', 'species', 'tanks', 'log', ...readings];
const agendas: readonly SheetName[] = ['routines'];

/**
 * The sheets that are counted or looked up for a sheet's computed cells, so that without them these would say something else and not just less. A clutch's
 * own log stands here only where all broods are counted; elsewhere it is only in doubt what hangs on that brood (`inDoubt`).
 */
const sources: Readonly<Partial<Record<SheetName, readonly SheetName[]>>> = {
  clutches: [...broods, ...agendas],
  'clutch-log': broods,
  log: broods,
  pairs: ['clutches', 'fish', 'species', 'log', ...agendas],
  tanks: [...broods, 'clutch-log', ...agendas],
  rooms: [...broods, 'clutch-log', ...agendas],
  fish: ['clutches', 'pairs'],
};

/** Columns that hang on less than the others of their sheet. */
const less: Readonly<Partial<Record<SheetName, Readonly<Record<string, readonly SheetName[]>>>>> = {
  clutches: { age_days: ['log'] },
  'clutch-log': { age_days: ['clutches'] },
  log: { age_days: ['clutches'] },
  tanks: { last_reading: readings },
};

/**
 * A sheet that is there but could never be read, from which the cells of a computed column come: what they would say without it is
 * wrong, so they are left as they are. Undefined where there is none.
 */
export function unreadSource(file: SheetFile, header: string, records: Records): string | undefined {
  return records.unread.isEmpty ? undefined : sourcesOf(file, header, records)[0];
}

function sourcesOf({ schema, path }: SheetFile, header: string, { unread }: Records): readonly string[] {
  return (less[schema.name]?.[header] ?? sources[schema.name] ?? []).flatMap((name) => unread.of(name)).filter((each) => each !== path);
}

/** All sheets because of which computed cells of a file are left alone. */
export function unreadSources(file: SheetFile, records: Records): readonly string[] {
  if (records.unread.isEmpty || file.header.computed.length === 0) return [];
  const own = inDoubt(file, records) === undefined ? [] : records.unread.of('clutch-log');
  return [...new Set([...file.header.computed.flatMap(({ field }) => sourcesOf(file, field.name, records)), ...own])];
}

/**
 * Which rows of a file hang on a clutch's own log that could never be read: those of the clutch and, since its broods teach each other, of its pair.
 * Undefined where there is none.
 */
export function inDoubt(file: SheetFile, records: Records): ((row: Row) => boolean) | undefined {
  const ids = new Set(records.unread.of('clutch-log').map((path) => records.file(path)?.thing ?? ''));
  if (ids.size === 0) return undefined;
  const pairOfClutch = (id: string): string | undefined => records.clutch(id)?.pair;
  const pairs = new Set([...ids].flatMap((id) => pairOfClutch(id) ?? []));
  const isBrood = (id: string | undefined): boolean => id !== undefined && (ids.has(id) || pairs.has(pairOfClutch(id) ?? ''));
  switch (file.schema.name) {
    case 'clutches':
      return (row) => isBrood(keyText(row));
    case 'pairs':
      return (row) => pairs.has(keyText(row));
    case 'clutch-log':
      return isBrood(file.thing) ? () => true : undefined;
    case 'log':
      return (row) => isBrood(clutchOfLogRow(row));
    default:
      return undefined;
  }
}

/** The rows whose cell in a computed column (its place among the header's) isn't what it should be, but for those of which that isn't known. */
export function staleRowsIn(file: SheetFile, place: number, records: Records): readonly Row[] {
  const isInDoubt = inDoubt(file, records);
  return file.staleRows.filter((row) => ((file.staleOf(row) >>> place) & 1) === 1 && isInDoubt?.(row) !== true);
}

/** Whether there may be more about a clutch than can be read. */
export function hasUnreadLog(clutch: string, records: Records): boolean {
  return !records.unread.isEmpty && (records.unread.of('log').length > 0 || records.logsOf(clutch).some(({ isUnread }) => isUnread));
}

/** Whether there may be more about a tank, or about another on its water, than can be read. */
export function hasUnreadReadings({ tank, system }: Tank, records: Records): boolean {
  if (records.unread.isEmpty) return false;
  const tanks = system === undefined ? [tank] : records.tanksOnWater(system).map((other) => other.tank);
  return records.unread.of('readings').length > 0 || tanks.some((each) => records.tankLogsOf(each).some(({ isUnread }) => isUnread));
}
