import { posterior, predictive, priors, sumsOf, window } from './learning';
import type { Window } from './learning';
import { intervalObservations } from './spawning';
import type { SpawnGap } from './spawning';

/** Days from the last spawn to the next, as an 80 % window. */
export interface SpawnPrediction extends SpawnDays {
  readonly window: Window;
  readonly observations: number;
}

/** Whole days, rounded. */
export interface SpawnDays {
  readonly fromDays: number;
  readonly expectedDays: number;
  readonly toDays: number;
}

/** From the usual interval of the species (days) and the pair's own intervals; whole days, rounded. */
export function predictSpawn(usualDays: number, intervals: readonly SpawnGap[]): SpawnPrediction {
  const observations = intervalObservations(intervals, usualDays);
  const factors = window(predictive(posterior(priors.interval, sumsOf(observations))));
  return { window: factors, observations: observations.length, ...spawnDays(usualDays, factors) };
}

/** The usual interval of the species (days) by learned factors. */
export function spawnDays(usualDays: number, { from, expected, to }: Window): SpawnDays {
  return { fromDays: wholeDays(usualDays * from), expectedDays: wholeDays(usualDays * expected), toDays: wholeDays(usualDays * to) };
}

/** Rounded, and never further than a thousand years: no calendar of the records needs more. */
function wholeDays(days: number): number {
  return Math.min(365_000, Math.round(days));
}
