import { formatMoment, momentAt } from '../../src/base/moment';
import { zoneOf } from '../../src/base/zone';
import type { Zone } from '../../src/base/zone';
import type { Random } from './random';
import { sheetText } from './sheetText';
import type { Cells } from './sheetText';

export const DAY = 86_400_000;
export const HOUR = 3_600_000;

/** Now on the clock of the rooms made here. */
export const benchNow = '2026-06-10T09:00';

/** `benchNow` in ms as if the wall clock were UTC, as all times are here until they're written. */
export const nowWall = Date.UTC(2026, 5, 10, 9);

export const benchZone = 'Europe/Berlin';

const utc = zoneOf('UTC') as Zone;

/** A time as it's written in a record: to the minute, or as a bare day. */
export function written(wall: number, form: 'minute' | 'day' = 'minute'): string {
  const text = formatMoment(momentAt(wall, utc), utc);
  return form === 'day' ? text.slice(0, 10) : text;
}

/** A day's time in the morning or evening round. */
export function atRound(wall: number, random: Random): number {
  const hour = random.chance(0.4) ? random.between(7, 9) : random.between(18, 21);
  return Math.floor(wall / DAY) * DAY + Math.round((hour * HOUR) / 60_000) * 60_000;
}

/** A species that the product knows by itself, with what its broods here take. */
export interface Kind {
  readonly species: string;
  readonly prefix: string;
  readonly hatchHours: number;
  readonly freeSwimHours: number;
  readonly saleDays: number;
  readonly eggs: number;
}

export const kinds: readonly Kind[] = [
  { species: 'angelfish', prefix: 'AN', hatchHours: 60, freeSwimHours: 156, saleDays: 75, eggs: 300 },
  { species: 'betta', prefix: 'BE', hatchHours: 30, freeSwimHours: 72, saleDays: 100, eggs: 200 },
  { species: 'discus', prefix: 'DI', hatchHours: 60, freeSwimHours: 72, saleDays: 90, eggs: 160 },
  { species: 'bronze-corydoras', prefix: 'BC', hatchHours: 92, freeSwimHours: 48, saleDays: 90, eggs: 110 },
  { species: 'kribensis', prefix: 'KR', hatchHours: 72, freeSwimHours: 156, saleDays: 140, eggs: 90 },
  { species: 'ram', prefix: 'RA', hatchHours: 48, freeSwimHours: 120, saleDays: 90, eggs: 220 },
];

const rooms = ['front', 'back', 'cellar'];

export const tankCount = 300;

export function tankName(index: number): string {
  return `T${String(index + 1).padStart(3, '0')}`;
}

export function roomOf(index: number): string {
  return rooms[index % rooms.length] as string;
}

/** Tanks from here on are for growing out, and stand in racks of 20 on one water each. */
export const firstGrowOut = 200;

/** `fishroom.json`, `rooms.csv` and `tanks.csv`. */
export function house(name: string, random: Random): ReadonlyMap<string, string> {
  const tanks: Cells[] = [];
  for (let i = 0; i < tankCount; i++) {
    const growOut = i >= firstGrowOut;
    tanks.push({
      tank: tankName(i),
      room: roomOf(i),
      position: `${'ABCDEFGH'[i % 8]}${1 + Math.floor(i / 8)}`,
      system: growOut ? `rack-${Math.floor((i - firstGrowOut) / 20) + 1}` : undefined,
      volume_l: random.pick([54, 60, 80, 112, 160]),
      use: growOut ? 'grow-out' : 'breeding',
      temp_c: random.between(24.5, 28.5).toFixed(1),
      note: random.chance(0.05) ? 'lid cracked, handle with care' : undefined,
    });
  }
  return new Map([
    ['fishroom.json', `${JSON.stringify({ name, timezone: benchZone, currency: 'EUR', rounds: ['08:00', '19:00'] }, undefined, 2)}\n`],
    ['rooms.csv', sheetText('rooms', rooms.map((room) => ({ room, name: `The ${room} room` })))],
    ['tanks.csv', sheetText('tanks', tanks)],
  ]);
}
