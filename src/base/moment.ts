import { asciiOf } from './ascii';
import { dayMs, type Zone } from './zone';

/** A point in time as a keeper writes it. */
export interface Moment {
  /** Ms since 1970-01-01T00:00Z; of a bare day its local noon. */
  readonly instant: number;
  /** Days since 1970-01-01 on the wall calendar of the zone. */
  readonly day: number;
  /** Only the day is known. */
  readonly bare: boolean;
  /** Written with a leading `~`. */
  readonly about: boolean;
}

/** One that is filled again and again. */
export type Writable<T> = { -readonly [Key in keyof T]: T[Key] };

/** One to be filled. It is as wide as any moment may be, so that the runtime need not make another kind of object of it. */
export function blankMoment(): Writable<Moment> {
  return { instant: 0.5, day: 0, bare: false, about: false };
}

const minuteMs = 60_000;
const hourMs = 3_600_000;

/**
 * Reads ISO 8601 `2026-03-04` or `2026-03-04T19:30` (a blank for `T`, optional `:ss`, `:ss.fff`, optional `Z`, `+hh:mm`,
 * `+hhmm`), with an optional `~` before it. Without an offset it is wall-clock time in the zone. Undefined for anything
 * else, for days and times that don't exist (2026-02-30, 24:00) too.
 */
export function parseMoment(text: string, zone: Zone): Moment | undefined {
  const reading = momentReading(zone);
  if (!reading.read(asciiOf(text), 0, text.length)) return undefined;
  const { instant, day, bare, about } = reading;
  return { instant, day: asInteger(day), bare, about };
}

/** Reads moments one after the other without making anything of them, since long sheets have very many; it holds what it read last. */
class MomentReading implements Moment {
  readonly #zone: Zone;
  instant = 0;
  day = 0;
  bare = false;
  about = false;

  constructor(zone: Zone) {
    this.#zone = zone;
  }

  /** Reads what stands in a part of a text (its characters as `asciiOf` has them), in the forms of `parseMoment`; false where that is no moment. */
  read(codes: Uint8Array, start: number, end: number): boolean {
    this.about = codes[start] === tilde;
    const from = this.about ? start + 1 : start;
    if (end < from + 10) return false;
    const day = dayAt(codes, from);
    if (day === noDay) return false;
    this.day = day;
    this.bare = end === from + 10;
    if (this.bare) {
      this.instant = noonOf(day, this.#zone);
      return true;
    }
    this.instant = this.#instantAt(codes, from + 10, end);
    if (Number.isNaN(this.instant)) return false;
    this.day = this.#zone.dayOf(this.instant);
    return true;
  }

  /** The instant of a time on the day that was read, from its `T` to what stands behind it; NaN where it is none. */
  #instantAt(codes: Uint8Array, start: number, end: number): number {
    const separator = codes[start] as number;
    if (end < start + 6 || (separator !== letterT && separator !== blank)) return Number.NaN;
    const hour = twoDigits(codes, start + 1);
    const minute = twoDigits(codes, start + 4);
    if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || codes[start + 3] !== colon) return Number.NaN;
    let wall = this.day * dayMs + hour * hourMs + minute * minuteMs;
    let at = start + 6;
    if (at < end && codes[at] === colon) {
      const second = at + 3 <= end ? twoDigits(codes, at + 1) : -1;
      if (second < 0 || second > 59) return Number.NaN;
      wall += second * 1000;
      at += 3;
      if (at < end && codes[at] === point) {
        const digits = at + 1;
        at = digits;
        for (let unit = 100; at < end && isDigit(codes[at] as number); at++, unit /= 10) {
          if (unit >= 1) wall += ((codes[at] as number) - zero) * unit;
        }
        if (at === digits) return Number.NaN;
      }
    }
    if (at === end) return this.#zone.instantOf(wall);
    const offset = offsetIn(codes, at, end);
    return offset === undefined ? Number.NaN : wall - offset;
  }
}

const readings = new WeakMap<Zone, MomentReading>();

/** What reads moments in a zone. */
export function momentReading(zone: Zone): MomentReading {
  let reading = readings.get(zone);
  if (reading === undefined) readings.set(zone, (reading = new MomentReading(zone)));
  return reading;
}

/**
 * `YYYY-MM-DDTHH:mm` in the zone, rounded to the minute; a bare day as `YYYY-MM-DD`; `~` before what is about. The
 * second of the two times that an overlap shows alike reads back as the first.
 */
export function formatMoment(moment: Moment, zone: Zone): string {
  const about = moment.about ? '~' : '';
  if (moment.bare) return about + formatDay(moment.day);
  let minutes = (moment.instant + zone.offsetAt(moment.instant)) / minuteMs;
  // Most moments are written down as full minutes.
  if (!Number.isInteger(minutes)) {
    const rounded = roundedInstant(moment.instant, zone);
    minutes = Math.floor((rounded + zone.offsetAt(rounded)) / minuteMs);
  }
  const day = Math.floor(minutes / 1440);
  return about + formatDay(day) + textOfMinute(minutes - day * 1440);
}

const minuteTexts: string[] = [];

/** `THH:mm` of a minute of the day, kept since a text of many parts is slow to put together. */
function textOfMinute(minute: number): string {
  if (minuteTexts.length === 0) for (let i = 0; i < 1440; i++) minuteTexts.push(`T${pad(Math.floor(i / 60))}:${pad(i % 60)}`);
  return minuteTexts[minute] as string;
}

/** The instant of the nearest full minute of the wall clock. Rounded before it is read off: 01:59:40 before a gap is 03:00, not the 02:00 that no clock shows. */
function roundedInstant(instant: number, zone: Zone): number {
  const wall = instant + zone.offsetAt(instant);
  return instant + Math.round(wall / minuteMs) * minuteMs - wall;
}

/** The moment as `formatMoment` shows it: at the nearest full minute, which may be on the next day. */
export function nearestMinute(moment: Moment, zone: Zone): Moment {
  if (moment.bare) return moment;
  return movedTo(roundedInstant(moment.instant, zone), moment, zone);
}

/** The beginning of the moment's minute on the wall clock: it is written as it is, and never later than the moment itself. */
export function wholeMinute(moment: Moment, zone: Zone): Moment {
  if (moment.bare) return moment;
  const wall = moment.instant + zone.offsetAt(moment.instant);
  const over = ((wall % minuteMs) + minuteMs) % minuteMs;
  return movedTo(moment.instant - over, moment, zone);
}

function movedTo(instant: number, moment: Moment, zone: Zone): Moment {
  return instant === moment.instant ? moment : { ...moment, instant, day: asInteger(zone.dayOf(instant)) };
}

/** The day number of `YYYY-MM-DD`; undefined for anything else and for days that don't exist. */
export function parseDay(text: string): number | undefined {
  if (text.length !== 10) return undefined;
  const day = dayAt(asciiOf(text), 0);
  return day === noDay ? undefined : day;
}

/** The full minute nearest to a moment on the wall clock, counted from midnight: 0 to 1439, and never one of the next day. */
export function nearestMinuteOfDay(moment: Moment, zone: Zone): number {
  const nearest = nearestMinute(moment, zone);
  const { instant } = nearest.day === moment.day ? nearest : wholeMinute(moment, zone);
  const minute = Math.floor((instant + zone.offsetAt(instant)) / minuteMs);
  return ((minute % 1440) + 1440) % 1440;
}

/** The text that was last made of a day, for each of so many days in a row: those that are looked at together lie close together. */
const keptDays = 8192;
/** At first none is the day that belongs there. */
const formattedDays = Array.from({ length: keptDays }, (_, place) => place + 1);
const formatted = formattedDays.map(() => '');

/** `YYYY-MM-DD`; outside the years 0 to 9999 with a sign and six digits of year, as ISO 8601 has it. Throws unless it's a whole number. */
export function formatDay(day: number): string {
  const place = day & (keptDays - 1);
  if (formattedDays[place] === day) return formatted[place] as string;
  if (!Number.isSafeInteger(day)) throw new RangeError(`day ${day} is not a whole number`);
  const text = textOfDay(day);
  formattedDays[place] = day;
  formatted[place] = text;
  return text;
}

/** Below 0 when a comes before b: by day when either is bare, else by instant. (So it is no total order: a bare day equals all times of it.) */
export function compareMoments(a: Moment, b: Moment): number {
  return a.bare || b.bare ? a.day - b.day : a.instant - b.instant;
}

/** Whether a moment is still to come at `now`; a bare day is not on that day. */
export function isFuture(time: Moment, now: Moment): boolean {
  return time.bare ? time.day > now.day : time.instant > now.instant;
}

/** Whether a moment is given and not to come any more at `now`. */
export function hasCome(time: Moment | undefined, now: Moment): boolean {
  return time !== undefined && !isFuture(time, now);
}

/** The moment of an instant, neither bare nor about. */
export function momentAt(instant: number, zone: Zone): Moment {
  return { instant, day: asInteger(zone.dayOf(instant)), bare: false, about: false };
}

/** A bare day, standing for its local noon. */
export function momentOfDay(day: number, zone: Zone): Moment {
  return { instant: noonOf(day, zone), day: asInteger(day), bare: true, about: false };
}

function noonOf(day: number, zone: Zone): number {
  return zone.instantOf(day * dayMs + dayMs / 2);
}

/**
 * The same number, kept by the runtime as an integer where it is one, however it was reckoned. A single moment whose day
 * is kept otherwise would make all moments of the process larger and slower to compare.
 */
function asInteger(number: number): number {
  const integer = number | 0;
  return integer === number ? integer : number;
}

const tilde = 0x7e;
const blank = 0x20;
const letterT = 0x54;
const letterZ = 0x5a;
const hyphen = 0x2d;
const plus = 0x2b;
const colon = 0x3a;
const point = 0x2e;
const zero = 0x30;

/** Below every day that four digits of year can write. */
const noDay = -1_000_000;

function isDigit(code: number): boolean {
  return code >= zero && code <= zero + 9;
}

/** The number of two digits, -1 where there aren't two. */
function twoDigits(codes: Uint8Array, at: number): number {
  const tens = codes[at] as number;
  const ones = codes[at + 1] as number;
  return isDigit(tens) && isDigit(ones) ? (tens - zero) * 10 + ones - zero : -1;
}

/** The day number of the `YYYY-MM-DD` at a place, or `noDay`. */
function dayAt(codes: Uint8Array, at: number): number {
  const century = twoDigits(codes, at);
  const yearOfCentury = twoDigits(codes, at + 2);
  const month = twoDigits(codes, at + 5);
  const day = twoDigits(codes, at + 8);
  if (century < 0 || yearOfCentury < 0 || month < 1 || month > 12 || day < 1) return noDay;
  if (codes[at + 4] !== hyphen || codes[at + 7] !== hyphen) return noDay;
  const year = century * 100 + yearOfCentury;
  return day <= daysInMonth(year, month) ? dayOfDate(year, month, day) : noDay;
}

/** `Z`, `+hh:mm` or `+hhmm` in a part of a text, in ms east of UTC. */
function offsetIn(codes: Uint8Array, start: number, end: number): number | undefined {
  const sign = codes[start] as number;
  if (sign === letterZ) return end === start + 1 ? 0 : undefined;
  if (sign !== plus && sign !== hyphen) return undefined;
  const minutesAt = codes[start + 3] === colon ? start + 4 : start + 3;
  if (end !== minutesAt + 2) return undefined;
  const hours = twoDigits(codes, start + 1);
  const minutes = twoDigits(codes, minutesAt);
  if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return undefined;
  const size = hours * hourMs + minutes * minuteMs;
  return sign === plus ? size : -size;
}

function daysInMonth(year: number, month: number): number {
  if (month === 2) return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/**
 * Days since 1970-01-01 in the proleptic Gregorian calendar. Years are counted from March, so that the leap day is the
 * last of a year, and grouped in eras of 400 years. Source: Howard Hinnant, "chrono-Compatible Low-Level Date
 * Algorithms", days_from_civil (from memory).
 */
function dayOfDate(year: number, month: number, day: number): number {
  const marchYear = month > 2 ? year : year - 1;
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** The way back. Source: the same, civil_from_days. */
function textOfDay(day: number): string {
  const shifted = day + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const dayOfMonth = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  const month = shiftedMonth < 10 ? shiftedMonth + 3 : shiftedMonth - 9;
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return `${textOfYear(year)}-${pad(month)}-${pad(dayOfMonth)}`;
}

function textOfYear(year: number): string {
  if (year >= 0 && year <= 9999) return String(year).padStart(4, '0');
  return (year < 0 ? '-' : '+') + String(Math.abs(year)).padStart(6, '0');
}

function pad(number: number): string {
  return number < 10 ? `0${number}` : String(number);
}
