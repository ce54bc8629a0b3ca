import { formatDay } from '../base/moment';
import { dayMs, zoneOf } from '../base/zone';
import type { Zone } from '../base/zone';

const SECOND = 1000;

/** `20260304` of a day (days since 1970-01-01). */
export function dateOf(day: number): string {
  return formatDay(day).replaceAll('-', '');
}

/** `20260304T193000Z` of an instant. */
export function universalTime(instant: number): string {
  return `${wallTime(instant)}Z`;
}

/** `20260304T193000` of a wall time (ms). */
export function wallTime(wall: number): string {
  const day = Math.floor(wall / dayMs);
  const seconds = Math.floor((wall - day * dayMs) / SECOND);
  return `${dateOf(day)}T${[seconds / 3600, (seconds / 60) % 60, seconds % 60].map((part) => String(Math.floor(part)).padStart(2, '0')).join('')}`;
}

/**
 * A property that holds an instant, with its zone: `DTSTART;TZID=Europe/Berlin:20260304T193000`. In universal time where the zone has no other, and in the
 * hours that a clock shows twice: by RFC 5545, 3.3.5, the first is meant, but readers differ.
 */
export function timeLine(name: string, instant: number, zone: Zone): string {
  const wall = instant + zone.offsetAt(instant);
  return isUniversal(zone) || isShownTwice(wall, instant, zone) ? `${name}:${universalTime(instant)}` : `${name};TZID=${zone.name}:${wallTime(wall)}`;
}

/** Clocks are set back by no more than so much at a time. */
const SET_BACK = 3 * 3_600_000;

function isShownTwice(wall: number, instant: number, zone: Zone): boolean {
  const later = zone.offsetAt(instant + SET_BACK);
  const second = wall - later;
  return zone.instantOf(wall) !== instant || (second !== instant && zone.offsetAt(second) === later);
}

/** Whether it is a name for universal time. */
function isUniversal({ name }: Zone): boolean {
  return /^(?:Etc\/)?(?:UTC|UCT|Universal|Zulu)$/i.test(name);
}

/** The instant that a line such as that of `timeLine` tells; of a day its first one in `zone`. Undefined where it can't be read. */
export function instantIn(line: string, zone: Zone): number | undefined {
  const read = /^[A-Z-]+(?:;TZID=([^;:"]+)|;VALUE=DATE)?:(\d{4})(\d\d)(\d\d)(?:T(\d\d)(\d\d)(\d\d)(Z?))?$/.exec(line);
  if (read === null) return undefined;
  const [, zoneName, year, month, day, hour = 0, minute = 0, second = 0, isUtc] = read;
  const wall = Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute), Number(second));
  if (isUtc === 'Z') return wall;
  return (zoneName === undefined ? zone : zoneOf(zoneName))?.instantOf(wall);
}
