import { compareTexts } from '../base/order';
import { dayMs, zoneOf } from '../base/zone';
import type { Zone } from '../base/zone';
import { eventLines } from './calendarEvent';
import type { CalendarEvent } from './calendarEvent';
import { instantIn, universalTime } from './calendarTime';
import { folded, oneLine, textValue } from './contentLine';
import { PRODUCT } from './storedCalendar';
import type { StoredEvent } from './storedCalendar';
import { zoneLines } from './zoneRules';

export interface CalendarFile {
  readonly text: string;
  /** How many events there are that count, of these new ones and changed ones, and how many are called off. */
  readonly events: number;
  readonly added: number;
  readonly changed: number;
  readonly cancelled: number;
}

interface Written extends StoredEvent {
  readonly uid: string;
}

const CANCELLED = 'STATUS:CANCELLED';

/**
 * The text of a calendar file (RFC 5545). An event that says what it said in the file before keeps its DTSTAMP and SEQUENCE, so the same events give
 * the same bytes; one that says something else has now and one more. One that is no more is called off as long as it lies in the future, and then left out.
 * There is no METHOD: nobody is invited, and a phone takes the file for what is the case.
 * @param zone in which days begin
 */
export function calendarText(
  events: readonly CalendarEvent[],
  { name, stored, now, zone }: { readonly name: string; readonly stored: ReadonlyMap<string, StoredEvent>; readonly now: number; readonly zone: Zone },
): CalendarFile {
  const written: Written[] = [];
  const uids = new Set<string>();
  let [added, changed, cancelled] = [0, 0, 0];
  for (const event of events) {
    if (uids.has(event.uid)) throw new Error(`two events are called ${event.uid}`);
    uids.add(event.uid);
    const lines = eventLines(event);
    const before = stored.get(event.uid);
    if (before === undefined) added += 1;
    else if (!isSame(before.lines, lines)) changed += 1;
    written.push({ uid: event.uid, ...revised(before, lines, now) });
  }
  for (const [uid, before] of stored) {
    const end = endOf(before.lines, zone);
    if (uids.has(uid) || end === undefined || end <= now) continue;
    cancelled += 1;
    written.push({ uid, ...(before.lines.includes(CANCELLED) ? before : revised(before, calledOff(before.lines), now)) });
  }
  const sorted = written.map((event) => ({ event, start: startOf(event.lines, zone) })).sort((a, b) => a.start - b.start || compareTexts(a.event.uid, b.event.uid));
  const title = textValue(oneLine(name));
  const lines = ['BEGIN:VCALENDAR', 'VERSION:2.0', `PRODID:${PRODUCT}`, 'CALSCALE:GREGORIAN', `NAME:${title}`, ...timeZones(written)];
  for (const { event } of sorted) lines.push('BEGIN:VEVENT', `UID:${event.uid}`, `DTSTAMP:${event.stamp}`, `SEQUENCE:${event.sequence}`, ...event.lines, 'END:VEVENT');
  return { text: [...lines, 'END:VCALENDAR'].map(folded).join(''), events: events.length, added, changed, cancelled };
}

function revised(before: StoredEvent | undefined, lines: readonly string[], now: number): StoredEvent {
  if (before !== undefined && isSame(before.lines, lines)) return before;
  return { sequence: before === undefined ? 0 : before.sequence + 1, stamp: universalTime(now), lines };
}

function isSame(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((line, i) => line === b[i]);
}

/** The same without its alarm, which would ring all the same. */
function calledOff(lines: readonly string[]): readonly string[] {
  const alarm = lines.indexOf('BEGIN:VALARM');
  return [...(alarm < 0 ? lines : lines.slice(0, alarm)), CANCELLED];
}

function startOf(lines: readonly string[], zone: Zone): number {
  return instantIn(lines.find((line) => line.startsWith('DTSTART')) ?? '', zone) ?? 0;
}

/** Undefined where it can't be read, in a file that somebody else has changed. */
function endOf(lines: readonly string[], zone: Zone): number | undefined {
  return instantIn(lines.find((line) => line.startsWith('DTEND')) ?? '', zone);
}

/** The rules of every zone that an event names, for the years from its first to its last one. */
function timeZones(events: readonly Written[]): readonly string[] {
  const spans = new Map<string, { readonly zone: Zone; from: number; to: number }>();
  for (const line of events.flatMap(({ lines }) => lines)) {
    const name = /^DT(?:START|END);TZID=([^:]+):/.exec(line)?.[1];
    const zone = name === undefined ? undefined : zoneOf(name);
    const instant = zone === undefined ? undefined : instantIn(line, zone);
    if (name === undefined || zone === undefined || instant === undefined) continue;
    const span = spans.get(name);
    if (span === undefined) spans.set(name, { zone, from: instant, to: instant });
    else [span.from, span.to] = [Math.min(span.from, instant), Math.max(span.to, instant)];
  }
  const names = [...spans].sort(([a], [b]) => compareTexts(a, b));
  return names.flatMap(([, { zone, from, to }]) => zoneLines(zone, { from: startOfYear(from - dayMs), to: startOfYear(to + dayMs, 1) }));
}

function startOfYear(instant: number, later = 0): number {
  return Date.UTC(new Date(instant).getUTCFullYear() + later, 0, 1);
}
