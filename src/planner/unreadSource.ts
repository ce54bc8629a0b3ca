import type { Records } from '../records/records';
import type { SheetFile } from '../records/sheetFile';
import type { SheetName } from '../schema/descriptor';

/** The sheets that are counted or looked up for a sheet's computed cells, so that without them these would say something else and not just less. */
const sources: Readonly<Partial<Record<SheetName, readonly SheetName[]>>> = {
  'clutch-log': ['clutches'],
  log: ['clutches'],
  pairs: ['clutches', 'fish'],
  tanks: ['clutches'],
  rooms: ['clutches', 'tanks'],
  fish: ['clutches', 'pairs'],
};

/**
 * A sheet that is there but could never be read, from which computed cells of a file come: what they would say without it is
 * wrong, so they are left as they are. Undefined where there is none.
 */
export function unreadSource({ schema }: SheetFile, records: Records): SheetFile | undefined {
  for (const name of sources[schema.name] ?? []) {
    const source = records.file(`${name}.csv`);
    if (source?.isUnread === true) return source;
  }
  return undefined;
}
