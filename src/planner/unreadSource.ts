import type { Records } from '../records/records';
import type { SheetFile } from '../records/sheetFile';
import type { SheetName } from '../schema/descriptor';

const logs: readonly SheetName[] = ['clutch-log', 'log'];
const readings: readonly SheetName[] = ['tank-log', 'readings'];
/** What tells how far a brood has come: its own records, how warm it stands, and what its species and its pair's broods do. */
const broods: readonly SheetName[] = ['clutches', 'pairs', 'species', 'tanks', ...logs, ...readings];
const agendas: readonly SheetName[] = ['routines'];

/** The sheets that are counted or looked up for a sheet's computed cells, so that without them these would say something else and not just less. */
const sources: Readonly<Partial<Record<SheetName, readonly SheetName[]>>> = {
  clutches: [...broods, ...agendas],
  'clutch-log': broods,
  log: broods,
  pairs: ['clutches', 'fish', 'species', ...logs, ...agendas],
  tanks: [...broods, ...agendas],
  rooms: [...broods, ...agendas],
  fish: ['clutches', 'pairs'],
};

/** Columns that hang on less than the others of their sheet. */
const less: Readonly<Partial<Record<SheetName, Readonly<Record<string, readonly SheetName[]>>>>> = {
  clutches: { age_days: logs },
  'clutch-log': { age_days: ['clutches'] },
  log: { age_days: ['clutches'] },
  tanks: { last_reading: readings },
};

/**
 * A sheet that is there but could never be read, from which the cells of a computed column come: what they would say without it is
 * wrong, so they are left as they are. Undefined where there is none.
 */
export function unreadSource({ schema, path }: SheetFile, header: string, records: Records): string | undefined {
  if (records.unread.isEmpty) return undefined;
  for (const name of less[schema.name]?.[header] ?? sources[schema.name] ?? []) {
    const source = records.unread.of(name).find((each) => each !== path);
    if (source !== undefined) return source;
  }
  return undefined;
}

/** Whether there may be more about a clutch than can be read. */
export function hasUnreadLog(clutch: string, records: Records): boolean {
  return !records.unread.isEmpty && (records.unread.of('log').length > 0 || records.logsOf(clutch).some(({ isUnread }) => isUnread));
}

/** Whether there may be more about a tank's water, or the work in it, than can be read. */
export function hasUnreadReadings(tank: string, records: Records): boolean {
  return !records.unread.isEmpty && (records.unread.of('readings').length > 0 || records.tankLogsOf(tank).some(({ isUnread }) => isUnread));
}
