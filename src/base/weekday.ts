import { say, textOf } from './messages';

/** The name of the weekday of a day (days since 1970-01-01). */
export function weekdayOf(day: number): string {
  return textOf(say(`weekday.${(((day + 4) % 7) + 7) % 7 as 0 | 1 | 2 | 3 | 4 | 5 | 6}`));
}
