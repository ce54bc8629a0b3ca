import { tzOffset } from '@date-fns/tz';

/**
 * The clock of a place. An instant is in ms since 1970-01-01T00:00Z; a wall time is in the same unit, as if the
 * wall clock were UTC; a day is the number of days since 1970-01-01 on the wall calendar.
 */
export interface Zone {
  /** As it was asked for. */
  readonly name: string;
  /** Ms east of UTC at an instant. Before 1900 and from 2200 on: what holds at that end. */
  offsetAt(instant: number): number;
  /** The instant of a wall time: in a gap moved forward by the gap, in an overlap the first. */
  instantOf(wall: number): number;
  /** The wall day of an instant. */
  dayOf(instant: number): number;
}

export const dayMs = 86_400_000;

/** An instant as days since 1970-01-01 on the wall clock, with the fraction of the day. */
export function wallDays(instant: number, zone: Zone): number {
  return (instant + zone.offsetAt(instant)) / dayMs;
}

const zones = new Map<string, Zone>();

/** The zone of an IANA name; undefined for an unknown name, a bare offset such as `+01:00` too. */
export function zoneOf(name: string): Zone | undefined {
  let zone = zones.get(name);
  if (zone === undefined && isZoneName(name)) {
    zone = new TableZone(name);
    zones.set(name, zone);
  }
  return zone;
}

/** Asks the runtime, since `tzOffset` reads an offset out of names that it doesn't know; newer ones take `+01:00` as a name. */
function isZoneName(name: string): boolean {
  if (!/^[A-Za-z]/.test(name)) return false;
  try {
    new Intl.DateTimeFormat('en-US', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

const firstDay = -25_567; // 1900-01-01
const lastDay = 84_005; // 2199-12-31
const unknown = -0x8000_0000;

// A wall time lies within these of its instant, whatever the offset (the tz database stays within -12 h and +14 h since 1900).
const furthestEast = 15 * 3_600_000;
const furthestWest = 13 * 3_600_000;

interface Change {
  readonly at: number;
  readonly before: number;
  readonly after: number;
}

/** Keeps the offset at the start of each UTC day that was asked for; a day that ends with another one has a change inside. */
class TableZone implements Zone {
  readonly name: string;
  readonly #starts = new Int32Array(lastDay - firstDay + 2).fill(unknown);
  readonly #changes = new Map<number, Change>();

  constructor(name: string) {
    this.name = name;
  }

  offsetAt(instant: number): number {
    let index = Math.floor(instant / dayMs) - firstDay;
    if (!(index >= 0)) index = 0;
    else if (index > lastDay - firstDay) index = lastDay - firstDay;
    const start = this.#startOf(index);
    if (start === this.#startOf(index + 1)) return start;
    const change = this.#changeOn(index);
    return instant >= change.at ? change.after : change.before;
  }

  instantOf(wall: number): number {
    const before = this.offsetAt(wall - furthestEast);
    const after = this.offsetAt(wall + furthestWest);
    const first = wall - before;
    if (before === after || this.offsetAt(first) === before) return first;
    const second = wall - after;
    return this.offsetAt(second) === after ? second : first;
  }

  dayOf(instant: number): number {
    return Math.floor((instant + this.offsetAt(instant)) / dayMs);
  }

  #startOf(index: number): number {
    let offset = this.#starts[index] ?? unknown;
    if (offset === unknown) {
      offset = this.#ask((index + firstDay) * dayMs);
      this.#starts[index] = offset;
    }
    return offset;
  }

  #changeOn(index: number): Change {
    let change = this.#changes.get(index);
    if (change === undefined) {
      change = this.#search((index + firstDay) * dayMs);
      this.#changes.set(index, change);
    }
    return change;
  }

  /** Halves the day down to a second, the finest step of the tz database. */
  #search(start: number): Change {
    const before = this.#ask(start);
    let low = start / 1000;
    let high = (start + dayMs) / 1000;
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (this.#ask(middle * 1000) === before) low = middle;
      else high = middle;
    }
    return { at: high * 1000, before, after: this.#ask(high * 1000) };
  }

  /** Offsets of old dates have seconds, which `tzOffset` gives as fractions of a minute. */
  #ask(instant: number): number {
    return Math.round(tzOffset(this.name, new Date(instant)) * 60) * 1000;
  }
}
