import type { Duration } from '../base/duration';
import { isFuture } from '../base/moment';
import type { Moment } from '../base/moment';
import { compareNames, compareTexts } from '../base/order';
import { dayMs } from '../base/zone';
import { hatchTime, isRunning } from '../domain/cultures';
import { foodOf, USUAL_YIELD } from '../domain/liveFood';
import type { Amount, Eaters, FeedTimes, FoodDay, Hatchery } from '../domain/liveFood';
import type { FishroomConfig } from '../records/config';
import { culturesOf } from '../records/cultures';
import type { Culture } from '../records/cultures';
import type { DueEntry } from './due';
import { roundMinutes } from './rounds';
import type { ClutchState, PlanView } from './states';

/** Brine shrimp are started no more than so many days before the day of their feed. */
export const LONGEST_HATCH = 2;

/** The routine about brine shrimp: who switches it off for some broods wants no plan for them either. */
const SHRIMP = 'shrimp';

/**
 * Brine shrimp day by day for feeds of some days (days since 1970-01-01, the last one too), for all broods of the
 * fishroom together; days on which nobody eats any and none are hatching are left out.
 */
export function liveFood({ first, last }: { readonly first: number; readonly last: number }, clutches: Iterable<ClutchState>, view: PlanView): readonly FoodDay[] {
  const eaters = eatersAmong(clutches, { first, last }, view);
  const shrimp = culturesOf(view.records).filter(({ food, started }) => food === 'brine_shrimp' && !isFuture(started, view.now)).sort(byName);
  if (eaters.length + shrimp.length === 0) return [];
  const needs = {
    eaters,
    hatches: shrimp.filter((culture) => isRunning(culture, view.now)),
    hatchery: hatcheryOf(shrimp),
    feeds: feedTimes(view.records.config),
    zone: view.zone,
  };
  const days: FoodDay[] = [];
  for (let day = first; day <= last; day++) {
    const food = foodOf(day, needs);
    if (food !== undefined) days.push(food);
  }
  return days;
}

/** Open broods that may eat brine shrimp in those days, by name. Where nobody has counted the fry, the eggs stand for them. */
function eatersAmong(clutches: Iterable<ClutchState>, { first, last }: { readonly first: number; readonly last: number }, { records }: PlanView): readonly Eaters[] {
  const eaters: Eaters[] = [];
  for (const { clutch, species, study, timeline } of clutches) {
    const { alive, stands } = study.heads;
    const fed = timeline.firstFeed;
    if (fed === undefined || fed.time.day > last || timeline.ended !== undefined) continue;
    const grown = timeline.of('sale_size');
    if (grown !== undefined && grown.time.day <= first) continue;
    const [tank] = stands.keys();
    const traits = { species, care: study.profile?.care, use: tank === undefined ? undefined : records.tank(tank)?.use };
    if (records.routines.isSwitchedOff(SHRIMP, 'clutch', traits)) continue;
    eaters.push({ clutch: clutch.clutch, fry: alive.count ?? clutch.eggs?.value, timeline });
  }
  return eaters.sort((a, b) => compareNames(a.clutch, b.clutch));
}

function byName(a: Culture, b: Culture): number {
  return compareTexts(a.culture, b.culture);
}

/** How this keeper hatches: yield and temperature as of the latest hatch that says so. */
function hatcheryOf(hatches: readonly Culture[]): Hatchery {
  const latest = (has: (culture: Culture) => boolean): Culture | undefined => {
    let found: Culture | undefined;
    for (const culture of hatches) if (has(culture) && (found === undefined || culture.started.instant >= found.started.instant)) found = culture;
    return found;
  };
  const warm = latest(({ tempC }) => hatchTime(tempC) !== undefined && tempC !== undefined);
  return {
    yieldPerG: latest(({ yieldPerG }) => yieldPerG !== undefined)?.yieldPerG ?? USUAL_YIELD,
    hatchTime: hatchTime(warm?.tempC) as Duration,
  };
}

const NOON = 12 * 60;
const MIDNIGHT = 24 * 60;

/** When fry are fed: at the rounds; who names none feeds at any time of the day, which counts as its noon. */
function feedTimes(config: FishroomConfig): FeedTimes {
  const minutes = roundMinutes(config);
  return { first: minutes[0] ?? NOON, last: minutes.at(-1) ?? MIDNIGHT };
}

/**
 * Whether an entry asks for what is done or told anyway: to start brine shrimp for the first feed of a brood, on a day for
 * which a hatch is running, or whose line of the plan, still to be started, counts that brood.
 */
export function isInPlan({ occurrence, clutch }: Pick<DueEntry, 'occurrence' | 'clutch'>, plan: readonly FoodDay[], { now, zone }: Pick<PlanView, 'now' | 'zone'>): boolean {
  const { routine, due } = occurrence;
  if (routine.routine !== SHRIMP || routine.offset === undefined || 'instant' in routine.offset) return false;
  const { days, ms } = routine.offset;
  const fed = zone.dayOf(due.instant - days * dayMs - ms);
  const food = plan.find(({ day }) => day === fed);
  if (food === undefined) return false;
  return food.coveredBy.length > 0 || (isToStart(food, now) && food.clutches.includes(clutch));
}

/** Food of which there is still something to start. */
export type FoodToStart = FoodDay & { readonly amount: Amount };

/** Whether it is known how much is still to start for a day: a start that was missed yesterday comes too late. */
export function isToStart(food: FoodDay, now: Moment): food is FoodToStart {
  return food.amount !== undefined && food.coveredBy.length === 0 && food.start.day >= now.day;
}
