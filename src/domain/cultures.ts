import { addDuration } from '../base/duration';
import type { Duration } from '../base/duration';
import { isFuture } from '../base/moment';
import type { Moment } from '../base/moment';
import { dayMs } from '../base/zone';
import type { Zone } from '../base/zone';

export type Food = 'brine_shrimp' | 'microworm' | 'vinegar_eel' | 'infusoria' | 'other';

/** A hatchery or culture of live food. */
export interface Culture {
  readonly culture: string;
  readonly food: Food | undefined;
  readonly started: Moment;
  readonly grams: number | undefined;
  readonly tempC: number | undefined;
  /** Nauplii from one gram of cysts: the hatching efficiency of the keeper's own. */
  readonly yieldPerG: number | undefined;
  readonly renewEvery: Duration | undefined;
  readonly ended: Moment | undefined;
}

/**
 * From this temperature on brine shrimp hatch in a day; below, a day and a half are allowed (best at 25 to 28 °C: texts
 * derived from FAO Fisheries Technical Paper 361).
 */
export const WARM_C = 28;

/** Above it cysts no longer hatch (the same; they differ on whether it harms them for good). */
export const TOO_WARM_C = 33;

const DAY_OF_HATCHING: Duration = { days: 0, ms: dayMs, hasTime: true };
const LONGER_HATCHING: Duration = { days: 0, ms: 1.5 * dayMs, hasTime: true };

/** Days until there is something to harvest, and until a culture is set up anew. */
interface Keeping {
  readonly harvest: number;
  readonly renew: number;
}

/**
 * Common practice, no source, but that microworms are passed on every two to three weeks: that is encyclopedic, and the
 * shorter of the two is taken, since a culture that has gone sour is no use to pass on. Of other food nobody knows.
 */
const KEEPING: Readonly<Partial<Record<Food, Keeping>>> = {
  microworm: { harvest: 5, renew: 14 },
  vinegar_eel: { harvest: 28, renew: 180 },
  infusoria: { harvest: 4, renew: 14 },
};

/** The end of the year 9999: no calendar of the records goes further, however rarely something is to be renewed. */
const LAST_INSTANT = 253_402_300_799_000;

/** How long brine shrimp take to hatch, also where the temperature isn't known; undefined where they won't. */
export function hatchTime(celsius: number | undefined): Duration | undefined {
  if (celsius === undefined) return LONGER_HATCHING;
  // What was read in °F ends a hair beside the whole degree.
  const degrees = Math.round(celsius * 10) / 10;
  if (degrees > TOO_WARM_C) return undefined;
  return degrees >= WARM_C ? DAY_OF_HATCHING : LONGER_HATCHING;
}

/** How long from the start until it can be fed from; undefined where that can't be known. */
export function waitOf({ food, tempC }: Pick<Culture, 'food' | 'tempC'>): Duration | undefined {
  if (food === 'brine_shrimp') return hatchTime(tempC);
  return inDays(food === undefined ? undefined : KEEPING[food]?.harvest);
}

/** How long it is usually kept until it is set up anew; undefined for what is used up, and where nobody knows. */
export function usualRenewal(food: Food | undefined): Duration | undefined {
  return inDays(food === undefined ? undefined : KEEPING[food]?.renew);
}

/** When it can be fed from. */
export function readyOf(culture: Culture, zone: Zone): Moment | undefined {
  return after(culture.started, waitOf(culture), zone);
}

/** When it has to be set up anew: as its row says, else as is usual for the food. */
export function renewDueOf({ started, renewEvery, food }: Culture, zone: Zone): Moment | undefined {
  return after(started, renewEvery ?? usualRenewal(food), zone);
}

/** Whether it has been set up by now and is still there. */
export function isRunning({ started, ended }: Culture, now: Moment): boolean {
  return !isFuture(started, now) && (ended === undefined || isFuture(ended, now));
}

function inDays(days: number | undefined): Duration | undefined {
  return days === undefined ? undefined : { days, ms: 0, hasTime: false };
}

function after(start: Moment, duration: Duration | undefined, zone: Zone): Moment | undefined {
  if (duration === undefined || start.instant + duration.days * dayMs + duration.ms > LAST_INSTANT) return undefined;
  return addDuration(start, duration, zone);
}
