import { momentAt, momentOfDay, type Moment } from './moment';
import { dayMs, type Zone } from './zone';

/** A length of time: calendar days, and then a part that runs by the clock. */
export interface Duration {
  readonly days: number;
  readonly ms: number;
  /** It was written with a `T`: what is reckoned with it has hours. */
  readonly hasTime: boolean;
}

// Nine digits keep every sum exact and are more than any calendar holds.
const pattern = /^([+-]?)P(?:(\d{1,9})W|(?=[\dT])(?:(\d{1,9})D)?(?:(T)(?=\d)(?:(\d{1,9})H)?(?:(\d{1,9})M)?(?:(\d{1,9})S)?)?)$/;

/**
 * Reads an ISO 8601 duration in whole weeks, or in whole days, hours, minutes and seconds, with an optional sign before
 * it: `PT36H`, `P14D`, `-P7D`, `P1W`, `P1DT12H`. Undefined for anything else: years and months, which have no fixed
 * length, and fractions too.
 */
export function parseDuration(text: string): Duration | undefined {
  const match = pattern.exec(text);
  if (match === null) return undefined;
  const [, sign, weeks = 0, days = 0, time, hours = 0, minutes = 0, seconds = 0] = match;
  const wholeDays = Number(weeks) * 7 + Number(days);
  const ms = ((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000;
  return {
    days: sign === '-' && wholeDays > 0 ? -wholeDays : wholeDays,
    ms: sign === '-' && ms > 0 ? -ms : ms,
    hasTime: time !== undefined,
  };
}

/**
 * The moment that much later: first the days, on the calendar of the zone at the same time of day, then the rest by the
 * clock. A bare day stays one under a duration without a time part; under one with it, it counts from its noon.
 */
export function addDuration(moment: Moment, duration: Duration, zone: Zone): Moment {
  const later = moment.bare ? addToDay(moment.day, duration, zone) : addToInstant(moment.instant, duration, zone);
  return moment.about ? { ...later, about: true } : later;
}

function addToDay(day: number, duration: Duration, zone: Zone): Moment {
  const later = momentOfDay(day + duration.days, zone);
  return duration.hasTime ? momentAt(later.instant + duration.ms, zone) : later;
}

function addToInstant(instant: number, duration: Duration, zone: Zone): Moment {
  if (duration.days === 0) return momentAt(instant + duration.ms, zone);
  const wall = instant + zone.offsetAt(instant) + duration.days * dayMs;
  return momentAt(zone.instantOf(wall) + duration.ms, zone);
}
