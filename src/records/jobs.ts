import type { Moment } from '../base/moment';
import type { Records } from './records';
import type { Row } from './row';
import { valueOf } from './things';

/** Work in the rooms, as a row of maintenance.csv has it. */
export interface Job {
  readonly from: Moment;
  readonly to: Moment;
  readonly what: string | undefined;
  readonly room: string | undefined;
  /** Those that the row itself names. */
  readonly own: readonly string[];
  /** All that it touches, of its room too, each once. */
  readonly tanks: readonly string[];
}

/** Undefined for a row of which it can't be read when it is. */
export function jobOf(row: Row, records: Records): Job | undefined {
  const value = (name: 'what' | 'tanks' | 'room' | 'from' | 'to'): unknown => valueOf(row, 'maintenance', name);
  const [from, to] = [value('from'), value('to')] as (Moment | undefined)[];
  if (from === undefined || to === undefined) return undefined;
  const own = (value('tanks') as readonly string[] | undefined) ?? [];
  const room = value('room') as string | undefined;
  return { from, to, what: value('what') as string | undefined, room, own, tanks: [...new Set([...own, ...(room === undefined ? [] : records.tanksOfRoom(room))])] };
}
