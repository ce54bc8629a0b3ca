import { formatMoment, momentAt } from '../../src/base/moment';
import { zoneOf } from '../../src/base/zone';
import type { Zone } from '../../src/base/zone';
import { HOUR } from '../../src/domain/ladder';
import { Random } from '../bench/random';

/** What is true of the fish, and how their keeper writes it down. */
export interface World {
  /** How long the temperature of a tank stays on one side of its mean, in days. */
  readonly swingDays: number;
  /** `minute`: each hatch is seen as it happens. `looks`: it is found at the next of two looks a day, and each look is written. */
  readonly keeper: 'minute' | 'looks';
}

/** One brood as it truly was. */
export interface TrueBrood {
  readonly clutch: string;
  readonly pair: string;
  readonly species: string;
  /** Hours from the spawn. */
  readonly hatch: number;
}

export interface SyntheticRoom {
  readonly files: ReadonlyMap<string, string>;
  readonly broods: readonly TrueBrood[];
  readonly pairs: readonly string[];
  readonly now: number;
}

/** What is true of the species is what is written of them: three that are built in, and one that the keeper adds. */
const kinds = [
  { species: 'cave-red', reference: 26, zero: 13, hatchHours: 72, intervalDays: 36 },
  { species: 'angelfish', reference: 24, zero: 17, hatchHours: 72, intervalDays: 12 },
  { species: 'zebrafish', reference: 28.5, zero: 10.36, hatchHours: 60, intervalDays: 7 },
  { species: 'neon-tetra', reference: 26, zero: 3.7, hatchHours: 25, intervalDays: 14 },
] as const;

export const BETWEEN_PAIRS = 0.15;
const WITHIN_HATCH = 0.08;
export const WITHIN_INTERVAL = 0.25;
const SWING = 1;
const MISSING = 0.2;
const BROODS = 12;
const utc = zoneOf('UTC') as Zone;
const start = Date.UTC(2025, 0, 1);

/**
 * A fishroom of three pairs, as CSV. Pairs differ from their species by 0.15 (of logarithms), broods of a pair by 0.08 in the
 * hatch and 0.25 in the interval; the temperature of each tank wanders about its mean by 1 °C, and eggs develop by thermal
 * time hour by hour. Of what a keeper would write, one reading and one hatch in five is missing. The same for the same seed.
 */
export function syntheticRoom(seed: number, world: World): SyntheticRoom {
  const random = new Random(seed);
  const tanks: string[] = [];
  const pairs: string[] = [];
  const clutches: string[] = [];
  const log: string[] = [];
  const readings: string[] = [];
  const broods: TrueBrood[] = [];
  let now = start;
  for (let i = 1; i <= 3; i++) {
    const kind = random.pick(kinds);
    const [pair, tank] = [`P${i}`, `T${i}`];
    pairs.push(`${pair},${kind.species},${tank}`);
    tanks.push(`${tank},a`);
    const hatchOfPair = BETWEEN_PAIRS * normal(random);
    const intervalOfPair = BETWEEN_PAIRS * normal(random);
    const temperature = new Temperature(random, { mean: kind.reference, swingDays: world.swingDays });
    let spawned = minute(start + random.between(3, 20) * 24 * HOUR);
    for (let brood = 1; brood <= BROODS; brood++) {
      const clutch = `${pair}-${brood}`;
      clutches.push(`${clutch},${pair},${tank},${text(spawned)}`);
      const needed = kind.hatchHours * (kind.reference - kind.zero) * Math.exp(hatchOfPair + WITHIN_HATCH * normal(random));
      const hatched = developed(spawned, needed, (instant) => temperature.at(instant) - kind.zero);
      broods.push({ clutch, pair, species: kind.species, hatch: (hatched - spawned) / HOUR });
      const found = world.keeper === 'minute' ? minute(hatched) : looksFrom(hatched);
      if (world.keeper === 'looks') for (let look = looksFrom(spawned); look < found; look = looksFrom(look + 1)) if (!random.chance(MISSING)) log.push(`${text(look)},${clutch},checked`);
      if (!random.chance(MISSING)) log.push(`${text(found)},${clutch},hatched`);
      now = Math.max(now, found);
      spawned = minute(spawned + Math.max(1, kind.intervalDays * Math.exp(intervalOfPair + WITHIN_INTERVAL * normal(random))) * 24 * HOUR);
    }
    for (let morning = start + 8 * HOUR; morning <= now; morning += 24 * HOUR) if (!random.chance(MISSING)) readings.push(`${text(morning)},${tank},${temperature.at(morning).toFixed(1)}`);
  }
  const files = new Map([
    ['fishroom.json', '{"timezone":"UTC"}'],
    ['species.csv', 'species,care,ref_temp_c,zero_temp_c,hatch_h,interval_d,temp_min_c,temp_max_c\ncave-red,cave,26,13,72,36,22,30\n'],
    ['tanks.csv', ['tank,room', ...tanks, ''].join('\n')],
    ['pairs.csv', ['pair,species,tank', ...pairs, ''].join('\n')],
    ['clutches.csv', ['clutch,pair,tank,spawned', ...clutches, ''].join('\n')],
    ['log.csv', ['time,clutch,event', ...log, ''].join('\n')],
    ['readings.csv', ['time,tank,temp_c', ...readings, ''].join('\n')],
  ]);
  return { files, broods, pairs: pairs.map((line) => line.slice(0, line.indexOf(','))), now: now + HOUR };
}

/** Hour by hour; it forgets where it was by half in about 0.7 × `swingDays` (an Ornstein-Uhlenbeck process). */
class Temperature {
  readonly #random: Random;
  readonly #mean: number;
  readonly #kept: number;
  readonly #hours: number[] = [];

  constructor(random: Random, { mean, swingDays }: { readonly mean: number; readonly swingDays: number }) {
    // Of its own, so that what a keeper looks up changes nothing that comes after.
    this.#random = new Random(random.whole(0, 2 ** 31));
    this.#mean = mean;
    this.#kept = Math.exp(-1 / (24 * swingDays));
  }

  at(instant: number): number {
    const hour = Math.floor((instant - start) / HOUR);
    while (this.#hours.length <= hour) {
      const before = this.#hours.at(-1);
      const swing = normal(this.#random) * SWING;
      this.#hours.push(before === undefined ? swing : before * this.#kept + swing * Math.sqrt(1 - this.#kept * this.#kept));
    }
    return this.#mean + (this.#hours[hour] as number);
  }
}

/** When so many degree-hours are full. */
function developed(from: number, needed: number, degrees: (instant: number) => number): number {
  let left = needed;
  for (let at = from; ; ) {
    const hour = Math.floor((at - start) / HOUR) + 1;
    const end = start + hour * HOUR;
    const rate = Math.max(0, degrees(at));
    const gained = (rate * (end - at)) / HOUR;
    if (gained >= left) return at + (left / rate) * HOUR;
    left -= gained;
    at = end;
  }
}

/** The first look, at 08:00 or 19:00, not before an instant. */
function looksFrom(instant: number): number {
  const midnight = Math.floor(instant / (24 * HOUR)) * 24 * HOUR;
  return [8, 19, 32].map((hour) => midnight + hour * HOUR).find((look) => look >= instant) as number;
}

/** Box and Muller's way to a standard normal number. */
function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random.next())) * Math.cos(2 * Math.PI * random.next());
}

function minute(instant: number): number {
  return Math.round(instant / 60_000) * 60_000;
}

function text(instant: number): string {
  return formatMoment(momentAt(instant, utc), utc);
}
