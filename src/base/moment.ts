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

const minuteMs = 60_000;
const hourMs = 3_600_000;

/**
 * Reads ISO 8601 `2026-03-04` or `2026-03-04T19:30` (a blank for `T`, optional `:ss`, `:ss.fff`, optional `Z`, `+hh:mm`,
 * `+hhmm`), with an optional `~` before it. Without an offset it is wall-clock time in the zone. Undefined for anything
 * else, for days and times that don't exist (2026-02-30, 24:00) too.
 */
export function parseMoment(text: string, zone: Zone): Moment | undefined {
  const about = text.charCodeAt(0) === tilde;
  const from = about ? 1 : 0;
  const day = dayAt(text, from);
  if (day === noDay) return undefined;
  if (text.length === from + 10) {
    return { instant: zone.instantOf(day * dayMs + dayMs / 2), day, bare: true, about };
  }
  const separator = text.charCodeAt(from + 10);
  if (separator !== letterT && separator !== blank) return undefined;
  const hour = twoDigits(text, from + 11);
  const minute = twoDigits(text, from + 14);
  if (hour < 0 || hour > 23 || minute < 0 || minute > 59 || text.charCodeAt(from + 13) !== colon) return undefined;
  let wall = day * dayMs + hour * hourMs + minute * minuteMs;
  let at = from + 16;
  if (text.charCodeAt(at) === colon) {
    const second = twoDigits(text, at + 1);
    if (second < 0 || second > 59) return undefined;
    wall += second * 1000;
    at += 3;
    if (text.charCodeAt(at) === point) {
      const digits = at + 1;
      at = digits;
      for (let unit = 100; isDigit(text.charCodeAt(at)); at++, unit /= 10) {
        if (unit >= 1) wall += (text.charCodeAt(at) - zero) * unit;
      }
      if (at === digits) return undefined;
    }
  }
  if (at === text.length) {
    const instant = zone.instantOf(wall);
    return { instant, day: zone.dayOf(instant), bare: false, about };
  }
  const offset = offsetIn(text, at);
  if (offset === undefined) return undefined;
  return { instant: wall - offset, day: zone.dayOf(wall - offset), bare: false, about };
}

/**
 * `YYYY-MM-DDTHH:mm` in the zone, rounded to the minute; a bare day as `YYYY-MM-DD`; `~` before what is about. The
 * second of the two times that an overlap shows alike reads back as the first.
 */
export function formatMoment(moment: Moment, zone: Zone): string {
  const about = moment.about ? '~' : '';
  if (moment.bare) return about + formatDay(moment.day);
  const wall = moment.instant + zone.offsetAt(moment.instant);
  // Round first: 01:59:40 before a gap is 03:00, not the 02:00 that no clock shows.
  const rounded = moment.instant + Math.round(wall / minuteMs) * minuteMs - wall;
  const minutes = Math.floor((rounded + zone.offsetAt(rounded)) / minuteMs);
  const day = Math.floor(minutes / 1440);
  const minute = minutes - day * 1440;
  return `${about}${formatDay(day)}T${pad(Math.floor(minute / 60))}:${pad(minute % 60)}`;
}

/** The beginning of the moment's minute on the wall clock: it is written as it is, and never later than the moment itself. */
export function wholeMinute(moment: Moment, zone: Zone): Moment {
  if (moment.bare) return moment;
  const wall = moment.instant + zone.offsetAt(moment.instant);
  const over = ((wall % minuteMs) + minuteMs) % minuteMs;
  return over === 0 ? moment : { ...moment, instant: moment.instant - over, day: zone.dayOf(moment.instant - over) };
}

/** The day number of `YYYY-MM-DD`; undefined for anything else and for days that don't exist. */
export function parseDay(text: string): number | undefined {
  if (text.length !== 10) return undefined;
  const day = dayAt(text, 0);
  return day === noDay ? undefined : day;
}

const formatted = new Map<number, string>();
const formattedLimit = 20_000;

/** `YYYY-MM-DD`; outside the years 0 to 9999 with a sign and six digits of year, as ISO 8601 has it. Throws unless it's a whole number. */
export function formatDay(day: number): string {
  let text = formatted.get(day);
  if (text === undefined) {
    if (!Number.isSafeInteger(day)) throw new RangeError(`day ${day} is not a whole number`);
    text = textOfDay(day);
    if (formatted.size >= formattedLimit) formatted.clear();
    formatted.set(day, text);
  }
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
  return { instant, day: zone.dayOf(instant), bare: false, about: false };
}

/** A bare day, standing for its local noon. */
export function momentOfDay(day: number, zone: Zone): Moment {
  return { instant: zone.instantOf(day * dayMs + dayMs / 2), day, bare: true, about: false };
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
function twoDigits(text: string, at: number): number {
  const tens = text.charCodeAt(at);
  const ones = text.charCodeAt(at + 1);
  return isDigit(tens) && isDigit(ones) ? (tens - zero) * 10 + ones - zero : -1;
}

/** The day number of the `YYYY-MM-DD` at a place, or `noDay`. */
function dayAt(text: string, at: number): number {
  const century = twoDigits(text, at);
  const yearOfCentury = twoDigits(text, at + 2);
  const month = twoDigits(text, at + 5);
  const day = twoDigits(text, at + 8);
  if (century < 0 || yearOfCentury < 0 || month < 1 || month > 12 || day < 1) return noDay;
  if (text.charCodeAt(at + 4) !== hyphen || text.charCodeAt(at + 7) !== hyphen) return noDay;
  const year = century * 100 + yearOfCentury;
  return day <= daysInMonth(year, month) ? dayOfDate(year, month, day) : noDay;
}

/** `Z`, `+hh:mm` or `+hhmm` from a place to the end of the text, in ms east of UTC. */
function offsetIn(text: string, at: number): number | undefined {
  const sign = text.charCodeAt(at);
  if (sign === letterZ) return text.length === at + 1 ? 0 : undefined;
  if (sign !== plus && sign !== hyphen) return undefined;
  const minutesAt = text.charCodeAt(at + 3) === colon ? at + 4 : at + 3;
  const hours = twoDigits(text, at + 1);
  const minutes = twoDigits(text, minutesAt);
  if (text.length !== minutesAt + 2 || hours < 0 || hours > 23 || minutes < 0 || minutes > 59) return undefined;
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
