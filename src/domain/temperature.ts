import type { Moment } from '../base/moment';
import type { WholeMove } from './headcount';
import { DAY, HOUR } from './ladder';
import type { Profile, SpeciesNumber } from './things';
import { thermalDuration, withinModel } from './thermalTime';

/** Temperatures logged in one tank, in the order of their instants (°C). */
export interface TankTemperatures {
  readonly instants: readonly number[];
  readonly celsius: readonly number[];
  /** Handles to the rows, in the same order. */
  readonly rows: readonly object[];
  /** The tank's own `temp_c` of the register. */
  readonly usual: number | undefined;
}

/** Where a temperature came from, most certain first. */
export type TemperatureSource = 'logged' | 'latest' | 'tank' | 'reference';

export interface Temperature {
  readonly celsius: number;
  readonly source: TemperatureSource;
  readonly rows: readonly object[];
  readonly tank: string;
}

/** An embryonic duration at the temperature of its interval, in milliseconds. */
export interface ModelDuration {
  readonly ms: number;
  readonly unadjustedMs: number;
  readonly temperature: Temperature | undefined;
  /** The temperature lay outside what the model covers, so nothing was adjusted. */
  readonly outsideModel: boolean;
}

export interface Stay {
  readonly tank: string;
  readonly moves: readonly WholeMove[];
}

export interface IntervalQuestion {
  readonly profile: Profile;
  readonly duration: SpeciesNumber;
  readonly unit: 'h' | 'd';
  readonly start: Moment;
  /** The recorded end of the interval, or the earliest of the next recorded milestone and `ended`, where there is one. */
  readonly end: Moment | undefined;
  /** True where `end` is the interval's own recorded end. */
  readonly endRecorded: boolean;
  readonly now: Moment;
  readonly stay: Stay;
  readonly temperaturesOf: (tank: string) => TankTemperatures | undefined;
}

const NO_ROWS: readonly object[] = [];
const LOOK_BACK = 14 * DAY;

/**
 * Duration of an embryonic interval at the mean temperature logged where the clutch stood, by thermal time (rate linear
 * above the developmental zero). Undefined where the profile has no such duration. Without a developmental zero nothing
 * is adjusted and no temperature is looked up.
 */
export function modelDuration(question: IntervalQuestion): ModelDuration | undefined {
  const { profile, duration, unit } = question;
  const value = profile[duration];
  if (value === undefined) return undefined;
  const unadjustedMs = value * (unit === 'h' ? HOUR : DAY);
  const zero = profile.zero_temp_c;
  const reference = profile.ref_temp_c;
  if (zero === undefined || reference === undefined) {
    return { ms: unadjustedMs, unadjustedMs, temperature: undefined, outsideModel: false };
  }
  const temperature = temperatureOf(question, unadjustedMs, reference);
  const inside =
    reference > zero &&
    withinModel({ temperature: temperature.celsius, zero, min: profile.temp_min_c, max: profile.temp_max_c });
  if (!inside) return { ms: unadjustedMs, unadjustedMs, temperature, outsideModel: true };
  return {
    ms: thermalDuration({ duration: unadjustedMs, temperature: temperature.celsius, reference, zero }),
    unadjustedMs,
    temperature,
    outsideModel: false,
  };
}

function temperatureOf(question: IntervalQuestion, unadjustedMs: number, reference: number): Temperature {
  const { start, now, stay, temperaturesOf } = question;
  const end = question.endRecorded
    ? (question.end as Moment).instant
    : Math.min(question.end?.instant ?? Number.POSITIVE_INFINITY, now.instant, start.instant + 1.5 * unadjustedMs);
  let tank = stay.tank;
  let from = start.instant;
  let before = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let rows: object[] | undefined;
  let tankAtStart = tank;
  for (let i = 0; i <= stay.moves.length; i++) {
    const move = stay.moves[i];
    // The noon of a bare day may lie before the row that it stands after.
    const until = move === undefined ? Number.POSITIVE_INFINITY : Math.max(before, move.entry.time.instant);
    before = until;
    if (until <= start.instant) {
      tank = tankAtStart = (move as WholeMove).to;
      continue;
    }
    const logged = temperaturesOf(tank);
    if (logged !== undefined) {
      for (let k = firstAtOrAfter(logged.instants, from); k < logged.instants.length; k++) {
        const instant = logged.instants[k] as number;
        if (instant > end || instant >= until) break;
        sum += logged.celsius[k] as number;
        (rows ??= []).push(logged.rows[k] as object);
      }
    }
    if (move === undefined || until > end) break;
    tank = move.to;
    from = until;
  }
  if (rows !== undefined) return { celsius: sum / rows.length, source: 'logged', rows, tank };
  const logged = temperaturesOf(tankAtStart);
  if (logged !== undefined) {
    const upTo = start.instant > now.instant ? now.instant : start.instant;
    const k = firstAtOrAfter(logged.instants, upTo + 1) - 1;
    const instant = logged.instants[k];
    if (instant !== undefined && instant >= upTo - LOOK_BACK) {
      return { celsius: logged.celsius[k] as number, source: 'latest', rows: [logged.rows[k] as object], tank: tankAtStart };
    }
    if (logged.usual !== undefined) return { celsius: logged.usual, source: 'tank', rows: NO_ROWS, tank: tankAtStart };
  }
  return { celsius: reference, source: 'reference', rows: NO_ROWS, tank: tankAtStart };
}

/** Index of the first value that is not below `value`; the list is ascending. */
function firstAtOrAfter(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle] as number) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}
