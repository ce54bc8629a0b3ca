import type { Moment } from '../base/moment';
import type { ClutchRecord } from './things';

/** One spawn of a pair. */
export type Spawn = Pick<ClutchRecord, 'clutch' | 'spawned'>;

/** Calendar days between two successive spawns; `about` where either moment was only guessed. */
export interface SpawnGap {
  readonly days: number;
  readonly about: boolean;
}

/** The same with the spawns themselves. */
export interface SpawnInterval extends SpawnGap {
  readonly from: Spawn;
  readonly to: Spawn;
}

const gaps = new Map<number, SpawnGap>();

/** A long register has very many and few different ones: those that are alike are one. */
export function gapBetween(start: Moment, end: Moment): SpawnGap {
  const days = end.day - start.day;
  const about = start.about || end.about;
  const key = 2 * days + Number(about);
  let gap = gaps.get(key);
  if (gap === undefined) {
    if (gaps.size > 10_000) gaps.clear();
    gap = { days, about };
    gaps.set(key, gap);
  }
  return gap;
}

/** The intervals between successive spawns, which come in order. */
export function spawnIntervals(spawns: readonly Spawn[]): readonly SpawnInterval[] {
  const intervals: SpawnInterval[] = [];
  for (let i = 1; i < spawns.length; i++) {
    const [from, to] = [spawns[i - 1] as Spawn, spawns[i] as Spawn];
    intervals.push({ ...gapBetween(from.spawned, to.spawned), from, to });
  }
  return intervals;
}

/** ln(days / usual days) of the intervals that teach: longer than 0 days and with neither end as about. */
export function intervalObservations(intervals: readonly SpawnGap[], usualDays: number): readonly number[] {
  return intervals.filter(({ days, about }) => days > 0 && !about).map(({ days }) => Math.log(days / usualDays));
}

/** The middle value, the mean of the two middle ones for an even number; undefined for none. */
export function median(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const sorted = new Float64Array(values).sort();
  const middle = sorted.length >> 1;
  const upper = sorted[middle] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] as number) + upper) / 2;
}
