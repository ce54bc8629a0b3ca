import { compareMoments } from '../base/moment';
import type { Moment } from '../base/moment';
import type { ClutchStudy } from './clutchStudy';
import { countHeads } from './headcount';
import { DAY } from './ladder';
import type { Profile } from './things';
import type { Timeline } from './timeline';

/** How fast a brood dies, as exponents a day: of N fish N·e^(−rate) are there a day later. */
export interface Mortality {
  readonly basis: 'profile' | 'counts';
  /** In the first 21 days after the birth. */
  readonly early: number;
  /** From then on, past sale size too. */
  readonly later: number;
}

/** What dies of a brood on its way to sale size dies mostly in its first days (common practice, no source). */
const EARLY_DAYS = 21;
const EARLY_SHARE = 2 / 3;

/** Counts nearer to each other say more about counting than about dying (common practice, no source). */
const LEAST_DAYS = 7;

const EVEN: Mortality = { basis: 'counts', early: 1, later: 1 };

/**
 * The mortality of a species: `survival_pct` of what was born is there at sale size, `sale_d` days later; two thirds of the
 * exponent fall into the first 21 days, the rest evenly into the days up to sale size, and so on after it. Where sale size
 * comes within these days, all is even. Undefined where a number is missing.
 */
export function profileMortality(profile: Profile | undefined): Mortality | undefined {
  const { survival_pct: survival, sale_d: days } = profile ?? {};
  if (survival === undefined || days === undefined || !(survival > 0 && days > 0)) return undefined;
  const total = Math.max(0, -Math.log(survival / 100));
  if (days <= EARLY_DAYS) return { basis: 'profile', early: total / days, later: total / days };
  return { basis: 'profile', early: (EARLY_SHARE * total) / EARLY_DAYS, later: ((1 - EARLY_SHARE) * total) / (days - EARLY_DAYS) };
}

/** The share that is left from one age to another, in days since the birth; 1 for an age that is not later. */
export function survivingShare(mortality: Mortality, fromDays: number, toDays: number): number {
  return Math.exp(Math.min(0, exponentAt(mortality, fromDays) - exponentAt(mortality, toDays)));
}

function exponentAt({ early, later }: Mortality, days: number): number {
  const age = Math.max(0, days);
  return early * Math.min(EARLY_DAYS, age) + later * Math.max(0, age - EARLY_DAYS);
}

/** All fish of a brood counted at an age, and those that left it alive since the count before. */
export interface FullCount {
  readonly days: number;
  readonly alive: number;
}

export interface Removal {
  readonly days: number;
  readonly fish: number;
}

/**
 * The mortality that counts of a brood tell: of the first and the last, both of them after the first 21 days where there
 * are two such. Fish that were culled, sold or kept in between lived as long as they were there. Counts of the first days
 * move the species' mortality as a whole, so that a bad start is not taken to go on; counts of later days are taken as
 * they are. Undefined with fewer than two counts a week apart, and where none were left.
 */
export function countedMortality(counts: readonly FullCount[], removals: readonly Removal[], usual: Mortality | undefined): Mortality | undefined {
  const late = counts.filter(({ days }) => days >= EARLY_DAYS);
  const isLate = isTelling(late);
  const chosen = isLate ? late : counts;
  if (!isTelling(chosen)) return undefined;
  const shape = isLate || usual === undefined || !(usual.early > 0 && usual.later > 0) ? EVEN : usual;
  const [first, last] = [chosen[0] as FullCount, chosen.at(-1) as FullCount];
  if (!(first.alive > 0 && last.alive > 0)) return undefined;
  const between = removals.filter(({ days }) => days >= first.days && days <= last.days);
  const exponent = (days: number): number => exponentAt(shape, last.days) - exponentAt(shape, days);
  const excess = (speed: number): number =>
    first.alive * Math.exp(-speed * exponent(first.days)) - between.reduce((sum, { days, fish }) => sum + fish * Math.exp(-speed * exponent(days)), 0) - last.alive;
  const speed = rootOf(excess, Math.log(first.alive / last.alive) / exponent(first.days));
  return { basis: 'counts', early: speed * shape.early, later: speed * shape.later };
}

/** Before the birth nobody dies, whatever was counted then by a slip of the pen. */
function isTelling(counts: readonly FullCount[]): boolean {
  return counts.length > 1 && (counts.at(-1) as FullCount).days - Math.max(0, (counts[0] as FullCount).days) >= LEAST_DAYS;
}

/** Where a function that is not above 0 at `most` comes down to 0; 0 where it never was above: more were counted than there were. */
function rootOf(excess: (speed: number) => number, most: number): number {
  if (!(excess(0) > 0)) return 0;
  let [low, high] = [0, most];
  for (let halvings = 0; halvings < 60; halvings++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The mortality of a brood: its own where counts tell it, else that of its species. */
export function mortalityOf(study: ClutchStudy, birth: Moment): Mortality | undefined {
  const usual = profileMortality(study.profile);
  const { counts, removals } = countsOf(study, birth);
  return countedMortality(counts, removals, usual) ?? usual;
}

/** Counts and moments that were only guessed tell nothing. Of a brood that was stripped, the fry were counted. */
function countsOf({ clutch, entries }: ClutchStudy, birth: Moment): { readonly counts: readonly FullCount[]; readonly removals: readonly Removal[] } {
  const counts: FullCount[] = [];
  const removals: Removal[] = [];
  let before: number | undefined;
  countHeads(clutch.tank, entries, ({ count, estimate }, index) => {
    const entry = entries[index];
    if (entry === undefined) return;
    const days = (entry.time.instant - birth.instant) / DAY;
    const isCount = entry.event === 'counted' || (entry.event === 'stripped' && entry.count !== undefined);
    if (isCount && count !== undefined && !estimate && !entry.time.about) counts.push({ days, alive: count });
    if (entry.event === 'culled' || entry.event === 'sold' || entry.event === 'kept') {
      removals.push({ days, fish: before === undefined || count === undefined ? (entry.count?.value ?? 0) : before - count });
    }
    before = count;
  });
  return { counts, removals };
}

/**
 * How many of a brood are expected to be alive at a moment from now on, from what is alive now: no whole number, never
 * above what is there and never below 0. Undefined where that is not known now, for a brood that has ended or of which
 * nobody knows whether it lives, and where nothing is known of its mortality.
 */
export function expectedAlive(study: ClutchStudy, timeline: Timeline, at: Moment): number | undefined {
  const alive = study.heads.alive.count;
  const birth = study.ladder === undefined ? undefined : timeline.of(study.ladder.birth)?.time;
  if (alive === undefined || birth === undefined || timeline.ended !== undefined || timeline.unanswered) return undefined;
  if (alive === 0 || compareMoments(at, study.now) <= 0) return alive;
  const mortality = mortalityOf(study, birth);
  if (mortality === undefined) return undefined;
  const age = (moment: Moment): number => (moment.instant - birth.instant) / DAY;
  return alive * survivingShare(mortality, age(study.now), age(at));
}
