import type { Records } from '../records/records';
import { keyText } from '../records/row';
import { valueOf } from '../records/things';

/** What the keeper calls a room: its name, else its id. */
export function roomName(room: string, records: Records): string {
  const row = records.index('rooms').row(room);
  return (row === undefined ? undefined : (valueOf(row, 'rooms', 'name') as string | undefined)) ?? room;
}

/** Rooms as they stand in their sheet, then those that only tanks name. */
export function roomsInOrder(records: Records): readonly string[] {
  const named = [...(records.file('rooms.csv')?.rows() ?? [])].map(keyText);
  const used = [...records.index('tanks').ids()].map((id) => records.tank(id)?.room ?? '');
  return [...new Set([...named, ...used])].filter((room) => room !== '');
}
