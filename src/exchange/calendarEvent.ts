import type { Zone } from '../base/zone';
import { dateOf, timeLine } from './calendarTime';
import { oneLine, textValue } from './contentLine';

/** Something that stands in a calendar file. Texts may hold any sign. */
export interface CalendarEvent {
  /** The same from file to file as long as it is the same thing. */
  readonly uid: string;
  readonly summary: string;
  /** Its lines; none where there is nothing more to say. */
  readonly description: readonly string[];
  readonly location: string;
  /** What kind of thing it is. */
  readonly category: string;
  readonly when: EventTime;
}

/** On whole days (days since 1970-01-01, the last one too), or from one instant to another, with the instant at which a phone speaks up. */
export type EventTime =
  | { readonly kind: 'days'; readonly first: number; readonly last: number }
  | { readonly kind: 'times'; readonly start: number; readonly end: number; readonly alarm: number; readonly zone: Zone };

const MINUTE = 60_000;

/** What a file says of it, line by line, but for UID, DTSTAMP and SEQUENCE. */
export function eventLines({ summary, description, location, category, when }: CalendarEvent): readonly string[] {
  const title = textValue(oneLine(summary));
  const place = oneLine(location);
  return [
    ...timeLines(when),
    `SUMMARY:${title}`,
    ...(description.length === 0 ? [] : [`DESCRIPTION:${textValue(description.join('\n'))}`]),
    ...(place === '' ? [] : [`LOCATION:${textValue(place)}`]),
    `CATEGORIES:${textValue(oneLine(category))}`,
    // Work with fish keeps nobody from meeting others.
    'TRANSP:TRANSPARENT',
    ...(when.kind === 'days' ? [] : ['BEGIN:VALARM', 'ACTION:DISPLAY', `DESCRIPTION:${title}`, `TRIGGER:${triggerOf(when)}`, 'END:VALARM']),
  ];
}

/** The end is the first day, or instant, that doesn't belong to it (RFC 5545, 3.6.1). */
function timeLines(when: EventTime): readonly string[] {
  return when.kind === 'days'
    ? [`DTSTART;VALUE=DATE:${dateOf(when.first)}`, `DTEND;VALUE=DATE:${dateOf(when.last + 1)}`]
    : [timeLine('DTSTART', when.start, when.zone), timeLine('DTEND', when.end, when.zone)];
}

/** From the start to the alarm, as a duration (RFC 5545, 3.3.6). */
function triggerOf({ start, alarm }: { readonly start: number; readonly alarm: number }): string {
  const minutes = Math.round((alarm - start) / MINUTE);
  return `${minutes < 0 ? '-' : ''}PT${Math.abs(minutes)}M`;
}
