import { isFuture, momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { spawnDays } from './nextSpawn';
import { KnownSoFar } from './skill';
import type { Forecast } from './skill';
import type { Spawn, SpawnInterval } from './spawning';

/** A next spawn as it was expected at the spawn before (`then`), in days. */
export interface SpawnForecast extends Forecast {
  readonly interval: SpawnInterval;
  readonly then: Moment;
}

/**
 * Each next spawn that came about, as it was expected at the spawn before from the intervals known then; `spawns` come in
 * order. What was only guessed (`about`) is neither learned from nor judged. Source of days and window: `predictSpawn`.
 */
export function spawnForecasts(spawns: readonly Spawn[], usualDays: number, zone: Zone): readonly SpawnForecast[] {
  const known = new KnownSoFar('interval');
  const forecasts: SpawnForecast[] = [];
  const days = spawningDays(spawns);
  for (let i = 0; i + 1 < days.length; i++) {
    const day = days[i] as readonly Spawn[];
    const last = day.at(-1) as Spawn;
    const then = momentAt(last.spawned.instant, zone);
    const before = days[i - 1]?.at(-1);
    // Of several spawns of one day the first may have been still to come, by its hour.
    const first = day.find(({ spawned }) => !isFuture(spawned, then));
    if (before !== undefined && first !== undefined) known.take(i, observed(between(before, first), usualDays));
    const interval = between(last, (days[i + 1] as readonly Spawn[])[0] as Spawn);
    if (!interval.about) forecasts.push({ ...spawnForecast(interval, usualDays, known), interval, then });
    if (before !== undefined) known.take(i, observed(between(before, day[0] as Spawn), usualDays));
  }
  return forecasts;
}

/** What `known` expects of an interval, and how long it was. */
export function spawnForecast({ days }: SpawnInterval, usualDays: number, known: KnownSoFar): Forecast {
  const { fromDays: from, expectedDays: expected, toDays: to } = spawnDays(usualDays, known.learned);
  const { meanRatio, learned } = known;
  const mean = meanRatio === undefined ? undefined : usualDays * meanRatio;
  return { from, expected, to, profile: usualDays, mean, observations: learned.n, actual: days, held: from <= days && days <= to };
}

/** ln(days / usual days); undefined where an end was only guessed. */
export function observed({ days, about }: SpawnInterval, usualDays: number): number | undefined {
  return about || days <= 0 ? undefined : Math.log(days / usualDays);
}

function spawningDays(spawns: readonly Spawn[]): readonly (readonly Spawn[])[] {
  const days: Spawn[][] = [];
  for (const spawn of spawns) {
    const day = days.at(-1);
    if (day?.[0]?.spawned.day === spawn.spawned.day) day.push(spawn);
    else days.push([spawn]);
  }
  return days;
}

function between(from: Spawn, to: Spawn): SpawnInterval {
  return { days: to.spawned.day - from.spawned.day, about: from.spawned.about || to.spawned.about, from, to };
}
