import type { ClutchRecord } from './things';

/** One spawn of a pair. */
export type Spawn = Pick<ClutchRecord, 'clutch' | 'spawned'>;

/** Calendar days between two successive spawns; `about` where either moment was only guessed. */
export interface SpawnInterval {
  readonly days: number;
  readonly about: boolean;
  readonly from: Spawn;
  readonly to: Spawn;
}

export function intervalBetween(from: Spawn, to: Spawn): SpawnInterval {
  const [start, end] = [from.spawned, to.spawned];
  return { days: end.day - start.day, about: start.about || end.about, from, to };
}

/** The intervals between successive spawns, which come in order. */
export function spawnIntervals(spawns: readonly Spawn[]): readonly SpawnInterval[] {
  const intervals: SpawnInterval[] = [];
  for (let i = 1; i < spawns.length; i++) intervals.push(intervalBetween(spawns[i - 1] as Spawn, spawns[i] as Spawn));
  return intervals;
}

/** ln(days / usual days) of the intervals that teach: longer than 0 days and with neither end as about. */
export function intervalObservations(intervals: readonly SpawnInterval[], usualDays: number): readonly number[] {
  return intervals.filter(({ days, about }) => days > 0 && !about).map(({ days }) => Math.log(days / usualDays));
}

/** The middle value, the mean of the two middle ones for an even number; undefined for none. */
export function median(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] as number) + upper) / 2;
}
