import ICAL from 'ical.js';
import { strictEqual } from 'node:assert/strict';

/** An event as the reference reader understands it. */
export interface ReadEvent {
  readonly uid: string;
  readonly sequence: number;
  readonly stamp: string;
  readonly summary: string;
  readonly description: string;
  readonly location: string;
  readonly categories: readonly string[];
  readonly status: string | null;
  readonly isDays: boolean;
  /** Of whole days ISO dates, the last one not in it; else instants. */
  readonly start: string;
  readonly end: string;
  /** The instant of the alarm; undefined where there is none. */
  readonly alarm: string | undefined;
}

export interface ReadCalendar {
  readonly name: unknown;
  readonly events: readonly ReadEvent[];
}

/** A calendar file as ical.js (its own parser and its own arithmetic of VTIMEZONE) reads it. Throws for what is none. */
export function readCalendar(text: string): ReadCalendar {
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  strictEqual(calendar.name, 'vcalendar');
  const zones = new Map(calendar.getAllSubcomponents('vtimezone').map((component) => [String(component.getFirstPropertyValue('tzid')), new ICAL.Timezone({ component })]));
  const instant = (time: ICAL.Time, zone: string | undefined): number => {
    const rules = zone === undefined ? undefined : zones.get(zone);
    if (zone !== undefined && rules === undefined) throw new Error(`there are no rules of ${zone}`);
    if (rules !== undefined) time.zone = rules;
    return time.toUnixTime() * 1000;
  };
  const events = calendar.getAllSubcomponents('vevent').map((component): ReadEvent => {
    const value = (name: string): unknown => component.getFirstPropertyValue(name);
    const text = (name: string): string => (value(name) as string | null) ?? '';
    const at = (name: string): string => {
      const time = value(name) as ICAL.Time;
      return time.isDate ? time.toString() : iso(instantAt(name));
    };
    const instantAt = (name: string): number => instant(value(name) as ICAL.Time, component.getFirstProperty(name)?.getFirstParameter('tzid'));
    const trigger = component.getFirstSubcomponent('valarm')?.getFirstPropertyValue('trigger') as ICAL.Duration | undefined;
    return {
      uid: String(value('uid')),
      sequence: Number(value('sequence')),
      stamp: String(value('dtstamp')),
      summary: text('summary'),
      description: text('description'),
      location: text('location'),
      categories: (component.getFirstProperty('categories')?.getValues() ?? []) as string[],
      status: value('status') as string | null,
      isDays: (value('dtstart') as ICAL.Time).isDate,
      start: at('dtstart'),
      end: at('dtend'),
      alarm: trigger === undefined ? undefined : iso(instantAt('dtstart') + trigger.toSeconds() * 1000),
    };
  });
  return { name: calendar.getFirstPropertyValue('name'), events };
}

function iso(instant: number): string {
  return new Date(instant).toISOString();
}
