import type { Records } from '../records/records';
import { valueOf } from '../records/things';

/** What the keeper calls a room: its name, else its id. */
export function roomName(room: string, records: Records): string {
  const row = records.index('rooms').row(room);
  return (row === undefined ? undefined : (valueOf(row, 'rooms', 'name') as string | undefined)) ?? room;
}
