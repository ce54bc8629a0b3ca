import { say, textOf } from '../../base/messages';
import { nearestMinute, nearestMinuteOfDay } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { dayMs } from '../../base/zone';
import type { Zone } from '../../base/zone';

/** Within so many days a weekday says more than a date. */
const NEAR = 14;
const HOUR = 3_600_000;

/** Days and times in a reader's language, as seen from today. Days are days since 1970-01-01. */
export class DayWords {
  readonly today: number;
  readonly #zone: Zone;
  /** The same few days are told again and again, and to format one takes long. */
  readonly #told = new Map<string, string>();
  readonly #formats: Readonly<Record<'near' | 'far' | 'long' | 'month' | 'weekday' | 'short' | 'time', Intl.DateTimeFormat>>;

  /** `locale`: a BCP 47 tag, such as `de`. */
  constructor({ locale, today, zone }: { readonly locale: string; readonly today: number; readonly zone: Zone }) {
    this.today = today;
    this.#zone = zone;
    // Days and wall times are told as if they were UTC, so that no zone of the machine comes in.
    const format = (options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat => new Intl.DateTimeFormat(locale, { timeZone: 'UTC', ...options });
    this.#formats = {
      near: format({ weekday: 'short', day: 'numeric', month: 'short' }),
      far: format({ day: 'numeric', month: 'short', year: 'numeric' }),
      long: format({ weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' }),
      month: format({ month: 'long', year: 'numeric' }),
      weekday: format({ weekday: 'short' }),
      short: format({ day: 'numeric', month: 'short' }),
      time: format({ hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }),
    };
  }

  /** `Wed 10 Jun`, farther away `10 Jun 2027`. */
  day(day: number): string {
    return this.#once(String(day), () => this.#formats[Math.abs(day - this.today) <= NEAR ? 'near' : 'far'].format(day * dayMs));
  }

  /** For headings and for those who listen: `Wednesday, 10 June 2026`. */
  long(day: number): string {
    return this.#formats.long.format(day * dayMs);
  }

  /** `10 Jun`. */
  short(day: number): string {
    return this.#once(`short ${day}`, () => this.#formats.short.format(day * dayMs));
  }

  /** `June 2026` of a day in it. */
  month(day: number): string {
    return this.#formats.month.format(day * dayMs);
  }

  /** `Wed`. */
  weekday(day: number): string {
    return this.#formats.weekday.format(day * dayMs);
  }

  /** `14:05`, on the fishroom's clock: the nearest minute of the moment's own day. */
  time(moment: Moment): string {
    const minute = nearestMinuteOfDay(moment, this.#zone);
    return this.#once(`at ${minute}`, () => this.#formats.time.format(minute * 60_000));
  }

  /** A moment to the nearest minute, as the sheets have it, else to the day. */
  moment(moment: Moment, hasHours: boolean): string {
    if (!hasHours || moment.bare) return this.day(moment.day);
    const nearest = nearestMinute(moment, this.#zone);
    return `${this.day(nearest.day)}, ${this.time(nearest)}`;
  }

  /** How far a day is: `today`, `in 3 days`, `3 days ago`. */
  distance(day: number): string {
    const days = day - this.today;
    if (days === 0) return textOf(say('calendar.today'));
    if (days === 1) return textOf(say('calendar.tomorrow'));
    if (days === -1) return textOf(say('calendar.yesterday'));
    return textOf(days > 0 ? say('calendar.in-days', days) : say('calendar.days-ago', -days));
  }

  /** A window in as few words as it takes: `14:00 to 18:30`, `10 to 12 Jun`, `30 Jun to 2 Jul`. Undefined where it is a single day or moment. */
  window(from: Moment, to: Moment, hasHours: boolean): string | undefined {
    const isTimed = hasHours && !from.bare && !to.bare;
    if (from.day === to.day) {
      if (!isTimed || to.instant - from.instant < 60_000) return undefined;
      return textOf(say('calendar.window', this.time(from), this.time(to)));
    }
    return this.#once(`${from.day} ${to.day}`, () => this.#formats.short.formatRange(from.day * dayMs, to.day * dayMs).replaceAll('\u2009', ''));
  }

  #once(key: string, format: () => string): string {
    let told = this.#told.get(key);
    if (told === undefined) this.#told.set(key, (told = format()));
    return told;
  }

  /** How long something has been late: in hours for what is told to the hour and no older than two days. */
  late(due: Moment, now: Moment, hasHours: boolean): string {
    const hours = Math.floor((now.instant - due.instant) / HOUR);
    if (hasHours && !due.bare && hours < 48) return textOf(hours === 1 ? say('calendar.late.hour') : say('calendar.late.hours', hours));
    const days = now.day - due.day;
    return textOf(days === 1 ? say('calendar.late.day') : say('calendar.late.days', days));
  }
}

/** What newer runtimes know of weeks; older ones have it under another name, or not at all. */
interface WithWeeks {
  readonly region?: string;
  readonly weekInfo?: { readonly firstDay: number };
  getWeekInfo?(): { readonly firstDay: number };
}

/** The first day of the week where a language is spoken: 1 Monday to 7 Sunday. A tag without a region says nothing of that, and then it is Monday (ISO 8601). */
export function firstWeekday(locale: string): number {
  const place: WithWeeks = new Intl.Locale(locale);
  if (place.region === undefined) return 1;
  return place.getWeekInfo?.().firstDay ?? place.weekInfo?.firstDay ?? 1;
}
