import { compareMoments } from '../base/moment';
import type { Moment } from '../base/moment';
import { KnownSoFar } from './skill';
import type { Forecast } from './skill';
import type { Spawn, SpawnInterval } from './spawning';
import { observed, spawnForecast } from './spawnSkill';
import type { SpawnForecast } from './spawnSkill';

/** A forecast made in another way, beside the one that is filled. */
export interface Trial {
  readonly tried: Forecast;
  readonly filled: Forecast;
}

/** About twice as long as another: so much at least and at most (common practice, no source). */
const TWICE = { least: 1.6, most: 2.5 };

/**
 * Intervals of about twice their neighbours are left out, since a spawn in between was hardly seen: they don't teach, and
 * what came about in one is not judged. `forecasts` are of one pair, in order.
 */
export function withoutDoubled(forecasts: readonly SpawnForecast[], usualDays: number): readonly Trial[] {
  const known = new KnownSoFar('interval');
  const intervals = forecasts.map(({ interval }) => interval);
  const trials = forecasts.map((filled, i): Trial => {
    const tried = spawnForecast(filled.interval, usualDays, known);
    // A new neighbour may show of the one before, and the third of the first, that it was too long.
    for (const place of i === 2 ? [0, 1, 2] : [i - 1, i]) {
      const interval = intervals[place];
      if (interval !== undefined) known.take(place, isTwiceItsNeighbours(intervals, place, i + 1) ? undefined : observed(interval, usualDays));
    }
    return { tried, filled };
  });
  return trials.filter((_, i) => !isTwiceItsNeighbours(intervals, i, intervals.length));
}

/** Among the first `end` intervals; its neighbours are those on either side, at an end the next two. */
function isTwiceItsNeighbours(intervals: readonly SpawnInterval[], place: number, end: number): boolean {
  const [a, b] = place === 0 ? [1, 2] : place === end - 1 ? [place - 1, place - 2] : [place - 1, place + 1];
  const { days } = intervals[place] as SpawnInterval;
  return [a, b].every((neighbour) => {
    const other = neighbour < end ? intervals[neighbour] : undefined;
    return other !== undefined && days >= TWICE.least * other.days && days <= TWICE.most * other.days;
  });
}

/** What became of a brood, and when that was seen. */
export interface Fate {
  readonly kind: 'reared' | 'lost';
  readonly time: Moment;
}

/**
 * Intervals after broods that were lost apart from those after broods that were reared: a pair that lost its eggs may
 * spawn again sooner. Only where the fate was seen before the next spawn; the forecast is made when it was.
 */
export function apartByFate(forecasts: readonly SpawnForecast[], usualDays: number, fateOf: (spawn: Spawn) => Fate | undefined): readonly Trial[] {
  const known = { reared: new KnownSoFar('interval'), lost: new KnownSoFar('interval') };
  const trials: Trial[] = [];
  for (const filled of forecasts) {
    const { interval } = filled;
    const fate = fateOf(interval.from);
    if (fate === undefined || compareMoments(fate.time, interval.to.spawned) > 0) continue;
    trials.push({ tried: spawnForecast(interval, usualDays, known[fate.kind]), filled });
    known[fate.kind].take(interval, observed(interval, usualDays));
  }
  return trials;
}
