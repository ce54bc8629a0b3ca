import { dayMs } from '../base/zone';
import type { Zone } from '../base/zone';
import { wallTime } from './calendarTime';

const SECOND = 1000;

/** At an instant a clock is set from one offset to another, both in ms east of UTC. */
interface Turn {
  readonly at: number;
  readonly before: number;
  readonly after: number;
}

/**
 * The VTIMEZONE of a zone (RFC 5545, 3.6.5), line by line, that holds from one instant to another: what holds at the first, and each turn between them. Each
 * is told by itself: some readers take no RDATE here, or only the first.
 */
export function zoneLines(zone: Zone, { from, to }: { readonly from: number; readonly to: number }): readonly string[] {
  const turns = turnsOf(zone, { from, to });
  const first = zone.offsetAt(from);
  const isSummer = turns[0] !== undefined && turns[0].after < first;
  return [
    'BEGIN:VTIMEZONE',
    `TZID:${zone.name}`,
    ...observance({ at: from, before: first, after: first }, isSummer),
    ...turns.flatMap((turn) => observance(turn, turn.after > turn.before)),
    'END:VTIMEZONE',
  ];
}

function observance({ at, before, after }: Turn, isSummer: boolean): readonly string[] {
  const kind = isSummer ? 'DAYLIGHT' : 'STANDARD';
  // Told by the clock as it was before the turn (RFC 5545, 3.6.5).
  return [`BEGIN:${kind}`, `DTSTART:${wallTime(at + before)}`, `TZOFFSETFROM:${offsetText(before)}`, `TZOFFSETTO:${offsetText(after)}`, `END:${kind}`];
}

/** All turns after `from` up to `to`, found by looking day by day; two within a day are one to each other's end. */
function turnsOf(zone: Zone, { from, to }: { readonly from: number; readonly to: number }): readonly Turn[] {
  const turns: Turn[] = [];
  for (let start = from; start < to; start += dayMs) {
    const before = zone.offsetAt(start);
    const after = zone.offsetAt(start + dayMs);
    if (before !== after) turns.push({ at: search(zone, start), before, after });
  }
  return turns;
}

/** Halves the day down to a second, the finest step there is. */
function search(zone: Zone, start: number): number {
  const before = zone.offsetAt(start);
  let low = start / SECOND;
  let high = (start + dayMs) / SECOND;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (zone.offsetAt(middle * SECOND) === before) low = middle;
    else high = middle;
  }
  return high * SECOND;
}

/** `+0200`, and with seconds where an old offset has some. */
function offsetText(offset: number): string {
  const seconds = Math.abs(offset) / SECOND;
  const parts = [seconds / 3600, (seconds / 60) % 60, ...(seconds % 60 === 0 ? [] : [seconds % 60])];
  return `${offset < 0 ? '-' : '+'}${parts.map((part) => String(Math.floor(part)).padStart(2, '0')).join('')}`;
}
