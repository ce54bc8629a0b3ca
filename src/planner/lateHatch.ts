import { compareMoments } from '../base/moment';
import type { Moment } from '../base/moment';
import type { ClutchStudy } from '../domain/clutchStudy';
import type { Forecast } from '../domain/skill';
import type { LearnedWindow } from '../domain/timeline';
import type { ClutchEvent } from '../domain/things';
import type { JudgedTrial } from './skillTally';

const LOOKS: ReadonlySet<ClutchEvent> = new Set<ClutchEvent>(['checked', 'fungus']);

/**
 * When somebody last looked at the eggs before the hatch was seen: the hatch lies between the two. Only by the hour:
 * undefined where either is a bare day or about.
 */
export function lastLook({ recorded, entries }: Pick<ClutchStudy, 'recorded' | 'entries'>): Moment | undefined {
  const hatched = recorded.hatched?.time;
  if (hatched === undefined || hatched.bare || hatched.about) return undefined;
  let found: Moment | undefined;
  for (const { event, time } of entries) {
    if (!LOOKS.has(event) || time.bare || time.about) continue;
    if (compareMoments(time, recorded.spawned.time) > 0 && compareMoments(time, hatched) < 0) found = time;
  }
  return found;
}

/** What the hatch half-way between that look and its record adds to ln(duration): 0 where nobody looked before. */
export function halfwayBack(study: Pick<ClutchStudy, 'recorded' | 'entries'>): number {
  const look = lastLook(study);
  const hatched = study.recorded.hatched?.time;
  if (look === undefined || hatched === undefined) return 0;
  const start = study.recorded.spawned.time.instant;
  return Math.log((look.instant + hatched.instant - 2 * start) / (2 * (hatched.instant - start)));
}

/** What is known when each hatch is taken for half-way between the last look before it and its record. */
export interface Halfway {
  /** When somebody last looked before this hatch was seen, in hours from the spawn; undefined where nobody did. */
  readonly lookedAt: number | undefined;
  /** What the pair's earlier hatches taught: factors, and the plain mean of ratios where there is one. */
  readonly learned: LearnedWindow;
  readonly mean: number | undefined;
}

/**
 * A hatch forecast so. What is expected between look and record misses by nothing, and a window holds that reaches into
 * the time between them; the filled forecast is judged by the same.
 */
export function judgedHalfway(forecast: Forecast, { learned, mean, ...halfway }: Halfway): JudgedTrial {
  const { actual, profile } = forecast;
  const lookedAt = halfway.lookedAt ?? actual;
  const judged = (told: Forecast): Forecast => ({ ...told, held: told.from <= actual && lookedAt <= told.to });
  const tried: Forecast = {
    from: profile * learned.from,
    expected: profile * learned.expected,
    to: profile * learned.to,
    profile,
    mean: mean === undefined ? undefined : profile * mean,
    observations: learned.n,
    actual,
    held: false,
  };
  return { tried: judged(tried), filled: judged(forecast), error: (expected) => Math.max(0, expected - actual, lookedAt - expected) };
}
