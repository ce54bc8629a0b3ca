import type { ReadingSources } from './readings';
import type { Row } from './row';
import { tankEventOf } from './things';
import type { TankEvent } from './things';

/** What happened to tanks that share their water: from their own logs, and from `readings.csv` by tank or by room; in no order. */
export function tankEvents(tanks: readonly string[], sources: ReadingSources): readonly TankEvent[] {
  const events: TankEvent[] = [];
  const take = (row: Row, sheet: 'tank-log' | 'readings'): void => {
    const event = tankEventOf(row, sheet);
    if (event !== undefined) events.push(event);
  };
  const shared = new Set<Row>();
  for (const tank of tanks) {
    for (const log of sources.logsOf(tank)) for (const row of log.rows()) take(row, 'tank-log');
    for (const row of sources.rowsOf(tank)) shared.add(row);
    const room = sources.tank(tank)?.room;
    if (room !== undefined) for (const row of sources.rowsOfRoom(room)) shared.add(row);
  }
  for (const row of shared) take(row, 'readings');
  return events;
}
