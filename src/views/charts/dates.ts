import type { Moment } from '../../base/moment';
import { dayMs } from '../../base/zone';
import type { PlanView } from '../../planner/states';

/** Days as the keeper's language writes them. */
export interface Dates {
  /** With its weekday within two weeks of now, with its year in another year than now's. */
  day(day: number): string;
  /** The day of a moment, `~` before what is about. */
  dayOf(time: Moment): string;
  /** With its year, and its time where it has one; `~` before what is about. */
  moment(time: Moment): string;
  /** A mark on the axis of days. */
  tick(day: number, unit: 'day' | 'month' | 'year'): string;
}

const NEAR = 14;

/** @param locale a language tag after BCP 47, such as `en-GB` */
export function datesFor(locale: string, { now, zone }: Pick<PlanView, 'now' | 'zone'>): Dates {
  const formats = new Map<string, Intl.DateTimeFormat>();
  const format = (day: number, options: Intl.DateTimeFormatOptions): string => {
    const key = JSON.stringify(options);
    let known = formats.get(key);
    // Days are counted on the wall calendar, so they are written as if that were UTC.
    if (known === undefined) formats.set(key, (known = new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' })));
    return known.format(day * dayMs);
  };
  const yearOf = (day: number): number => new Date(day * dayMs).getUTCFullYear();
  const year = (day: number): Intl.DateTimeFormatOptions => (yearOf(day) === yearOf(now.day) ? {} : { year: 'numeric' });
  const dayText = (day: number): string => format(day, { day: 'numeric', month: 'short', ...year(day), ...(Math.abs(day - now.day) <= NEAR ? { weekday: 'short' } : {}) });
  return {
    day: dayText,
    dayOf: ({ day, about }) => (about ? '~' : '') + dayText(day),
    moment(time) {
      const text = time.bare ? format(time.day, { dateStyle: 'medium' }) : format((time.instant + zone.offsetAt(time.instant)) / dayMs, { dateStyle: 'medium', timeStyle: 'short' });
      return time.about ? `~${text}` : text;
    },
    tick: (day, unit) => format(day, unit === 'year' ? { year: 'numeric' } : { month: 'short', ...(unit === 'day' ? { day: 'numeric' } : {}), ...(unit === 'month' ? year(day) : {}) }),
  };
}
