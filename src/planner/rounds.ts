import type { Moment } from '../base/moment';
import { minuteOfDay } from '../base/timeOfDay';
import type { Zone } from '../base/zone';
import { dayMs } from '../base/zone';
import type { FishroomConfig } from '../records/config';
import type { DueEntry } from './due';

/** One walk through a room with the same food for many tanks. */
export interface Round {
  /** Minutes after midnight; undefined where the fishroom names no rounds. */
  readonly minute: number | undefined;
  readonly action: string;
  /** In walking order. */
  readonly tanks: readonly string[];
}

const MINUTE = 60_000;

/**
 * The feeding of a day as rounds: who is fed as often as there are rounds, or more often, in all of them, who is fed
 * less often in as many, spread evenly. Of today those that are over are left out.
 */
export function roundsOf(
  entries: readonly DueEntry[],
  { day, now, config, zone }: { readonly day: number; readonly now: Moment; readonly config: FishroomConfig; readonly zone: Zone },
): readonly Round[] {
  const minutes = roundMinutes(config);
  const fed = new Map<string, { readonly action: string; readonly tank: string; readonly timesADay: number; readonly first: number }>();
  const firstOf = firstMinutes(entries, { day, zone });
  for (const { occurrence, tank: stands, clutch } of entries) {
    if (occurrence.level !== 'round') continue;
    // A brood in no tank is told by its name.
    const tank = stands === '' ? clutch : stands;
    const { action, routine } = occurrence.routine;
    const timesADay = Math.max(1, Math.round(dayMs / (occurrence.turnMs ?? dayMs)));
    const key = JSON.stringify([routine, tank]);
    fed.set(key, { action, tank, timesADay, first: Math.min(fed.get(key)?.first ?? Number.POSITIVE_INFINITY, firstOf(clutch, routine)) });
  }
  const nowMinute = now.day === day ? Math.floor((now.instant - zone.instantOf(day * dayMs)) / MINUTE) : 0;
  const rounds = new Map<string, { readonly minute: number | undefined; readonly action: string; readonly tanks: Set<string> }>();
  for (const { action, tank, timesADay, first } of fed.values()) {
    for (const minute of minutes.length === 0 ? [undefined] : roundsFrom(first, minutes, timesADay)) {
      if (minute !== undefined && isOver(minute, minutes, nowMinute)) continue;
      const key = JSON.stringify([minute, action]);
      let round = rounds.get(key);
      if (round === undefined) rounds.set(key, (round = { minute, action, tanks: new Set() }));
      round.tanks.add(tank);
    }
  }
  return [...rounds.values()].map(({ minute, action, tanks }) => ({ minute, action, tanks: [...tanks] })).sort((a, b) => (a.minute ?? 0) - (b.minute ?? 0));
}

/** From which minute of the day a brood is fed: on the day of its first feed not before, so at the round at or before it. */
function firstMinutes(entries: readonly DueEntry[], { day, zone }: { readonly day: number; readonly zone: Zone }): (clutch: string, routine: string) => number {
  const firsts = new Map<string, number>();
  for (const { occurrence: { index, due, routine, level }, clutch } of entries) {
    if (level !== 'round' || index !== 0 || due.day !== day || due.bare) continue;
    firsts.set(JSON.stringify([clutch, routine.routine]), Math.floor((due.instant - zone.instantOf(day * dayMs)) / MINUTE));
  }
  return (clutch, routine) => firsts.get(JSON.stringify([clutch, routine])) ?? 0;
}

/** The rounds of so many feeds from a minute on: from the round at or before it. */
function roundsFrom(first: number, minutes: readonly number[], timesADay: number): readonly number[] {
  const begins = minutes.findLast((minute) => minute <= first) ?? 0;
  const left = spread(minutes, timesADay).filter((minute) => minute >= begins);
  return left.length === 0 ? [begins] : left;
}

/** A round is over when the next one begins. */
function isOver(minute: number, minutes: readonly number[], now: number): boolean {
  const next = minutes[minutes.indexOf(minute) + 1];
  return next !== undefined && next <= now;
}

/** Of the moments of a day those at which something is done so many times, spread evenly; all where there are fewer. */
export function spread(minutes: readonly number[], count: number): readonly number[] {
  if (count >= minutes.length) return minutes;
  return Array.from({ length: count }, (_, i) => minutes[Math.floor((i * minutes.length) / count)] as number);
}

/** The fishroom's rounds in minutes after midnight, in order; what is no time of day is left out. */
export function roundMinutes({ rounds = [] }: FishroomConfig): readonly number[] {
  const minutes = rounds.map(minuteOfDay).filter((minute) => minute !== undefined);
  return [...new Set(minutes)].sort((a, b) => a - b);
}
