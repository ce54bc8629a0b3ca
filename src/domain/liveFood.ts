import type { Duration } from '../base/duration';
import { compareMoments, momentAt, momentOfDay } from '../base/moment';
import type { Moment } from '../base/moment';
import { dayMs } from '../base/zone';
import type { Zone } from '../base/zone';
import { readyOf } from './cultures';
import type { Culture } from './cultures';
import type { Stage } from './ladder';
import { stageAt } from './timeline';
import type { Timeline } from './timeline';

/**
 * Brine shrimp nauplii for one fry and day. Wrigglers eat from their first feed on; fish of sale size are long on other
 * food. Common practice, no source.
 */
const NAUPLII_PER_FRY: Readonly<Record<Stage, number>> = {
  egg: 0,
  holding: 0,
  wriggler: 30,
  'free-swimming': 100,
  juvenile: 200,
  'sale-size': 0,
  ended: 0,
};

/** Nauplii from one gram of cysts, the least of the 200,000 to 300,000 of SRAC Publication 702. */
export const USUAL_YIELD = 200_000;

/** Grams of cysts to a litre, at most: in a vessel of less than 20 litres, and in a larger one (texts derived from FAO Fisheries Technical Paper 361). */
const SMALL_VESSEL_L = 20;
const GRAMS_PER_L = { small: 5, large: 2 } as const;

/** Vessels are told in steps of half a litre, the least (common practice). */
const VESSEL_STEP_L = 0.5;

/** Grams of salt to a litre of water (common practice; published: 5 to 35 g/L, texts derived from FAO Fisheries Technical Paper 361). */
const SALT_G_PER_L = 25;

/** So long after the first feed of the day a hatch still serves it: nauplii come out over some hours, and fry wait (common practice). */
const LATE_MINUTES = 120;

const MINUTE = 60_000;

/** The first and the last feed of a day, in minutes after midnight. */
export interface FeedTimes {
  readonly first: number;
  readonly last: number;
}

/** A brood as far as live food looks at it. */
export interface Eaters {
  readonly clutch: string;
  /** Undefined where nobody knows how many they are. */
  readonly fry: number | undefined;
  readonly timeline: Timeline;
}

/** How this keeper hatches brine shrimp. */
export interface Hatchery {
  readonly yieldPerG: number;
  readonly hatchTime: Duration;
}

/** How much to start. */
export interface Amount {
  readonly fry: number;
  /** Of cysts. */
  readonly grams: number;
  readonly vesselL: number;
  /** For the water in it. */
  readonly saltG: number;
}

/** Brine shrimp for the feeds of one day, for all broods together. */
export interface FoodDay {
  /** Days since 1970-01-01. */
  readonly day: number;
  /** When to start them, at the latest. */
  readonly start: Moment;
  /** When they are hatched: the first feed of the day. */
  readonly ready: Moment;
  /** Broods that eat, and it is known how many they are. */
  readonly clutches: readonly string[];
  /** Undefined where there is none of them. */
  readonly amount: Amount | undefined;
  /** Broods that eat, but nobody knows how many they are. */
  readonly uncounted: readonly string[];
  /** Cultures that give enough for the day; nothing need be started then. */
  readonly coveredBy: readonly string[];
}

export interface FoodNeeds {
  readonly eaters: readonly Eaters[];
  /** Hatches of brine shrimp that are running. */
  readonly hatches: readonly Culture[];
  readonly hatchery: Hatchery;
  readonly feeds: FeedTimes;
  readonly zone: Zone;
}

/** The brine shrimp for a day (days since 1970-01-01), from the stages expected then; undefined where nobody eats any and none are hatching. */
export function foodOf(day: number, { eaters, hatches, hatchery, feeds, zone }: FoodNeeds): FoodDay | undefined {
  const at = momentOfDay(day, zone);
  const clutches: string[] = [];
  const uncounted: string[] = [];
  let [fry, nauplii] = [0, 0];
  for (const eater of eaters) {
    const each = naupliiPerFry(eater.timeline, at);
    if (each === 0 || eater.fry === 0) continue;
    if (eater.fry === undefined) {
      uncounted.push(eater.clutch);
      continue;
    }
    clutches.push(eater.clutch);
    fry += eater.fry;
    nauplii += eater.fry * each;
  }
  const hatching = hatches.filter((hatch) => dayServed(hatch, feeds, zone) === day);
  if (clutches.length + uncounted.length + hatching.length === 0) return undefined;
  const ready = momentAt(zone.instantOf(day * dayMs + feeds.first * MINUTE), zone);
  return {
    day,
    start: momentAt(ready.instant - hatchery.hatchTime.ms, zone),
    ready,
    clutches,
    amount: clutches.length === 0 ? undefined : amountFor({ fry, nauplii }, hatchery),
    uncounted,
    coveredBy: covering(nauplii, hatching),
  };
}

function amountFor({ fry, nauplii }: { readonly fry: number; readonly nauplii: number }, { yieldPerG }: Hatchery): Amount {
  const grams = gramsFor(nauplii, yieldPerG);
  const vesselL = vesselFor(grams);
  return { fry, grams, vesselL, saltG: vesselL * SALT_G_PER_L };
}

/** Nauplii for one fry of a brood on a day (a bare moment); 0 before its first feed, and of a brood of which nobody knows whether it lives. */
export function naupliiPerFry(timeline: Timeline, day: Moment): number {
  const first = timeline.firstFeed;
  if (timeline.unanswered || first === undefined || compareMoments(first.time, day) > 0) return 0;
  const stage = stageAt(timeline, day)?.stage;
  return stage === undefined ? 0 : NAUPLII_PER_FRY[stage];
}

/** Grams of cysts that give so many nauplii. */
export function gramsFor(nauplii: number, yieldPerG: number): number {
  return nauplii / yieldPerG;
}

/** Litres of the smallest vessel for so many grams of cysts, in half litres. */
export function vesselFor(grams: number): number {
  const small = inSteps(grams / GRAMS_PER_L.small);
  return small < SMALL_VESSEL_L ? small : inSteps(grams / GRAMS_PER_L.large);
}

/** Rounded up so that it is enough; what is a hair above a step is that step. */
function inSteps(litres: number): number {
  return Math.max(1, Math.ceil(Math.round((litres / VESSEL_STEP_L) * 1e6) / 1e6)) * VESSEL_STEP_L;
}

/**
 * The one day that a hatch is for: the first on which its nauplii can be fed. A day later they have lived on their yolk
 * (25 to 30 % of their energy is gone by instar II, 22 to 37 % after a day: Ghent University, Laboratory of Aquaculture).
 */
export function dayServed(hatch: Culture, { first, last }: FeedTimes, zone: Zone): number | undefined {
  const ready = readyOf(hatch, zone);
  if (ready === undefined) return undefined;
  const latest = zone.instantOf(ready.day * dayMs + Math.max(first + LATE_MINUTES, last) * MINUTE);
  return ready.instant <= latest ? ready.day : ready.day + 1;
}

/** The names of hatches that together give enough, else of none. One of which nobody wrote how much went in is taken to. */
function covering(nauplii: number, hatches: readonly Culture[]): readonly string[] {
  let hatched = 0;
  for (const { grams, yieldPerG } of hatches) hatched += grams === undefined ? Number.POSITIVE_INFINITY : grams * (yieldPerG ?? USUAL_YIELD);
  return hatches.length > 0 && hatched >= nauplii ? hatches.map(({ culture }) => culture) : [];
}

/** Grams with one decimal, rounded up so that they are enough. */
export function gramsUp(grams: number): string {
  return upTo(grams, 10).toFixed(1);
}

/** Rounded up to a whole share of one; what is a hair above such a share is that share. */
export function upTo(value: number, shares: number): number {
  return Math.ceil(Math.round(value * shares * 1e6) / 1e6) / shares;
}
