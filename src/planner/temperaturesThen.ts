import { isFuture } from '../base/moment';
import type { Moment } from '../base/moment';
import type { TankTemperatures } from '../domain/temperature';
import { readingOf } from '../records/things';
import type { Row } from '../records/row';

/** The temperatures that were known at a moment. */
export function temperaturesThen(all: TankTemperatures | undefined, then: Moment): TankTemperatures | undefined {
  if (all === undefined) return undefined;
  const known: number[] = [];
  all.rows.forEach((row, i) => {
    const reading = readingOf(row as Row, (row as Row).block.file.schema.name === 'readings' ? 'readings' : 'tank-log');
    if (reading !== undefined && !isFuture(reading.time, then)) known.push(i);
  });
  return {
    instants: known.map((i) => all.instants[i] as number),
    celsius: known.map((i) => all.celsius[i] as number),
    rows: known.map((i) => all.rows[i] as object),
    usual: all.usual,
  };
}
