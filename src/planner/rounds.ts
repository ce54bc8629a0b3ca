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
  const fed = new Map<string, { readonly action: string; readonly tank: string; readonly timesADay: number }>();
  for (const { occurrence, tank: stands, clutch } of entries) {
    if (occurrence.level !== 'round') continue;
    // A brood in no tank is told by its name.
    const tank = stands === '' ? clutch : stands;
    const { action, routine } = occurrence.routine;
    const timesADay = Math.max(1, Math.round(dayMs / (occurrence.turnMs ?? dayMs)));
    fed.set(JSON.stringify([routine, tank]), { action, tank, timesADay });
  }
  const nowMinute = now.day === day ? Math.floor((now.instant - zone.instantOf(day * dayMs)) / MINUTE) : 0;
  const rounds = new Map<string, { readonly minute: number | undefined; readonly action: string; readonly tanks: Set<string> }>();
  for (const { action, tank, timesADay } of fed.values()) {
    for (const minute of minutes.length === 0 ? [undefined] : spread(minutes, timesADay)) {
      if (minute !== undefined && isOver(minute, minutes, nowMinute)) continue;
      const key = JSON.stringify([minute, action]);
      let round = rounds.get(key);
      if (round === undefined) rounds.set(key, (round = { minute, action, tanks: new Set() }));
      round.tanks.add(tank);
    }
  }
  return [...rounds.values()].map(({ minute, action, tanks }) => ({ minute, action, tanks: [...tanks] })).sort((a, b) => (a.minute ?? 0) - (b.minute ?? 0));
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
