import { compareMoments, isFuture, momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import { dayMs } from '../base/zone';
import { recordOf, studyClutch } from '../domain/clutchStudy';
import type { ClutchStudy } from '../domain/clutchStudy';
import { HOUR } from '../domain/ladder';
import { ownGrowth } from '../domain/measurements';
import type { Milestone, Rung } from '../domain/ladder';
import type { Quantity } from '../domain/learning';
import { KnownSoFar } from '../domain/skill';
import type { Forecast } from '../domain/skill';
import type { TankTemperatures } from '../domain/temperature';
import { timelineOf } from '../domain/timeline';
import type { MilestoneTime } from '../domain/timeline';
import type { ClutchEvent } from '../domain/things';
import type { Clutch } from '../records/things';
import { halfwayBack, lastLook } from './lateHatch';
import type { Halfway } from './lateHatch';
import type { ClutchState, PlanView } from './states';
import { temperaturesThen } from './temperaturesThen';

/** What was expected of a brood when one of its intervals began, in hours (of growth in days) from then, beside what is recorded. */
export interface ClutchForecast extends Forecast {
  readonly quantity: Quantity;
  readonly clutch: Clutch;
  readonly species: string | undefined;
  /** When it was made: at the milestone that the interval counts from. */
  readonly then: Moment;
  readonly window: Pick<MilestoneTime, 'from' | 'time' | 'to'>;
  /** Of a hatch. */
  readonly halfway: Halfway | undefined;
}

/**
 * Goes through the life of one pair (or of one brood that has none) and tells what was expected of each brood, as a plan
 * made then would have shown it: with the rows, readings and other broods known by then.
 */
export function replay(states: readonly ClutchState[], view: PlanView): readonly ClutchForecast[] {
  const broods = states.flatMap((state) => broodOf(state, view) ?? []);
  const known = new Known();
  // Broods of which more is known than was taken in, and the instant from which on nothing of that is still to come.
  const fresh = new Map<Brood, number>();
  const forecasts: ClutchForecast[] = [];
  for (const turn of turnsOf(broods, view)) {
    const { brood } = turn;
    if (turn.kind === 'known') {
      fresh.set(brood, Math.max(turn.settled, fresh.get(brood) ?? turn.settled));
      continue;
    }
    const then = momentAt(turn.instant, view.zone);
    for (const [other, settled] of fresh) {
      // What is written of a brood before it was spawned counts for nothing until it was.
      if (isFuture(other.clutch.spawned, then)) continue;
      known.take(other, studyThen(other, then, { view, isSettled: settled <= turn.instant }));
      if (settled <= turn.instant) fresh.delete(other);
    }
    if (isFuture(brood.clutch.spawned, then)) continue;
    const study = studyThen(brood, then, { view, isSettled: true });
    const grown = known.growthFor(brood, then);
    const timeline = timelineOf(study, (_, quantity) => (quantity === 'growth' ? grown : known.of(quantity)).learned, view.zone);
    // What was measured on the very day of the birth was known then: nothing was foretold.
    const sale = turn.isBirth && brood.grown !== undefined && ownGrowth(study, brood.grown.birth) === undefined ? timeline.of('sale_size') : undefined;
    if (brood.grown !== undefined && sale?.basis === 'expected') forecasts.push(growthForecast(brood, { ...brood.grown, then, sale }, grown));
    for (const awaited of turn.awaited) {
      const { rung } = awaited;
      const shown = rung.milestone === 'first_feed' ? timeline.firstFeed : timeline.of(rung.milestone);
      if (shown?.basis !== 'expected' || shown.model === undefined) continue;
      forecasts.push(forecastOf(brood, { ...awaited, then, shown, model: shown.model.ms }, known));
    }
  }
  return forecasts;
}

/** A brood and what is recorded of it by now. */
interface Brood {
  readonly clutch: Clutch;
  readonly species: string | undefined;
  readonly study: ClutchStudy;
  readonly awaited: readonly Awaited[];
  readonly grown: Grown | undefined;
}

/** How long the brood took to its last measured length. */
interface Grown {
  readonly birth: Moment;
  readonly days: number;
  /** ln(K / K of the species). */
  readonly x: number;
}

/** An interval whose two ends are known by now. */
interface Awaited {
  readonly rung: Rung;
  readonly start: Moment;
  readonly end: Moment;
}

/** Undefined for a brood that neither teaches nor can be judged. */
function broodOf({ clutch, species, study }: ClutchState, view: PlanView): Brood | undefined {
  const { ladder, recorded } = study;
  if (ladder === undefined || species === undefined || view.records.profile(species) === undefined) return undefined;
  const ended = ladder.observed.filter(({ milestone }) => recordOf(milestone, recorded) !== undefined);
  if (ended.length === 0 && !study.entries.some(({ event }) => event === 'measured')) return undefined;
  const awaited = ended.flatMap((rung): readonly Awaited[] => {
    const start = recordOf(rung.after as Milestone, recorded)?.time;
    const end = recordOf(rung.milestone, recorded)?.time;
    return start === undefined || end === undefined || start.about || end.about || end.instant <= start.instant ? [] : [{ rung, start, end }];
  });
  return { clutch, species, study, awaited, grown: grownOf(study) };
}

function grownOf(study: ClutchStudy): Grown | undefined {
  const birth = study.ladder === undefined ? undefined : recordOf(study.ladder.birth, study.recorded)?.time;
  const own = birth === undefined || birth.about ? undefined : ownGrowth(study, birth);
  return birth === undefined || own === undefined ? undefined : { birth, days: own.days, x: own.x };
}

type Turn =
  | { readonly kind: 'known'; readonly instant: number; readonly brood: Brood; readonly settled: number }
  | { readonly kind: 'made'; readonly instant: number; readonly brood: Brood; readonly awaited: readonly Awaited[]; readonly isBirth: boolean };

/** What may teach something else when it is written. */
const TEACHING: ReadonlySet<ClutchEvent> = new Set<ClutchEvent>(['hatched', 'first_feed', 'free_swimming', 'released', 'measured']);

/** In the order of their instants; at one instant what becomes known comes before what is made of it. */
function turnsOf(broods: readonly Brood[], view: PlanView): readonly Turn[] {
  const turns: Turn[] = [];
  for (const brood of broods) {
    const { clutch, study, awaited, grown } = brood;
    const recorded = [clutch.spawned, clutch.hatched, clutch.freeSwimming, ...study.entries.filter(({ event }) => TEACHING.has(event)).map(({ time }) => time)];
    // Of a pair's only brood nobody learns.
    for (const time of broods.length === 1 ? [] : recorded) {
      if (time === undefined || isFuture(time, view.now)) continue;
      // A bare day is known from its first hour on, and stands for its noon.
      turns.push({ kind: 'known', instant: time.bare ? view.zone.instantOf(time.day * dayMs) : time.instant, brood, settled: time.instant });
    }
    const birth = grown?.birth.instant;
    for (const instant of new Set([...awaited.map(({ start }) => start.instant), ...(birth === undefined ? [] : [birth])])) {
      turns.push({ kind: 'made', instant, brood, awaited: awaited.filter(({ start }) => start.instant === instant), isBirth: birth === instant });
    }
  }
  return turns.sort((a, b) => a.instant - b.instant || Number(a.kind === 'made') - Number(b.kind === 'made'));
}

/** What the pair's broods taught by some moment. */
class Known {
  readonly #quantities = new Map<Quantity, KnownSoFar>();
  /** Of the hatch, each taken for half-way between the last look and its record. */
  readonly halfway = new KnownSoFar('hatch');
  /** Broods whose growth is known, by the day of their spawn. */
  readonly #grown = new Map<number, Map<Brood, number>>();

  of(quantity: Quantity): KnownSoFar {
    let known = this.#quantities.get(quantity);
    if (known === undefined) this.#quantities.set(quantity, (known = new KnownSoFar(quantity)));
    return known;
  }

  /** What broods that were spawned on a day before teach of growth. */
  growthFor({ clutch }: Brood, then: Moment): Pick<KnownSoFar, 'learned' | 'meanRatio'> {
    const growth = this.of('growth');
    const others: (readonly [Brood, number])[] = [];
    for (let { day } = clutch.spawned; day <= then.day; day++) others.push(...(this.#grown.get(day) ?? []));
    for (const [brood] of others) growth.take(brood, undefined);
    const { learned, meanRatio } = growth;
    for (const [brood, x] of others) growth.take(brood, x);
    return { learned, meanRatio };
  }

  take(brood: Brood, study: ClutchStudy): void {
    const { observations } = study;
    for (const { quantity } of brood.study.ladder?.observed ?? []) if (quantity !== undefined) this.of(quantity).take(brood, observations[quantity]);
    const { hatch, growth } = observations;
    this.of('growth').take(brood, growth);
    const { day } = brood.clutch.spawned;
    if (growth !== undefined) getMap(this.#grown, day).set(brood, growth);
    else this.#grown.get(day)?.delete(brood);
    this.halfway.take(brood, hatch === undefined ? undefined : hatch + halfwayBack(study));
  }
}

function getMap(maps: Map<number, Map<Brood, number>>, day: number): Map<Brood, number> {
  let map = maps.get(day);
  if (map === undefined) maps.set(day, (map = new Map<Brood, number>()));
  return map;
}

/** The brood's study as of a moment. */
function studyThen({ clutch, study }: Brood, then: Moment, { view, isSettled }: { readonly view: PlanView; readonly isSettled: boolean }): ClutchStudy {
  const { records } = view;
  const temperaturesOf = isSettled ? records.temperaturesOf : (tank: string): TankTemperatures | undefined => temperaturesThen(records.temperaturesOf(tank), then);
  return studyClutch({ clutch, profile: study.profile, entries: records.entriesOf(clutch, then), now: then, temperaturesOf });
}

/** In days from the birth to the length that was measured last. */
function growthForecast({ clutch, species }: Brood, { then, sale, days, x }: Grown & { readonly then: Moment; readonly sale: MilestoneTime }, { learned, meanRatio }: Pick<KnownSoFar, 'learned' | 'meanRatio'>): ClutchForecast {
  const profile = days * Math.exp(x);
  // Who grows faster is there sooner.
  const [from, expected, to] = [profile / learned.to, profile / learned.expected, profile / learned.from];
  return {
    quantity: 'growth',
    clutch,
    species,
    then,
    window: { from: sale.from, time: sale.time, to: sale.to },
    from,
    expected,
    to,
    profile,
    mean: meanRatio === undefined ? undefined : profile / meanRatio,
    observations: learned.n,
    actual: days,
    held: from <= days && days <= to,
    halfway: undefined,
  };
}

interface Made extends Awaited {
  readonly then: Moment;
  readonly shown: MilestoneTime;
  /** Ms. */
  readonly model: number;
}

function forecastOf({ clutch, species, study }: Brood, { rung, then, start, end, shown, model }: Made, known: Known): ClutchForecast {
  const hours = (moment: Moment): number => (moment.instant - start.instant) / HOUR;
  const quantity = rung.quantity as Quantity;
  const { from, time, to } = shown;
  const { meanRatio, learned } = known.of(quantity);
  const look = lastLook(study);
  return {
    quantity,
    clutch,
    species,
    then,
    window: { from, time, to },
    from: hours(from),
    expected: hours(time),
    to: hours(to),
    profile: model / HOUR,
    mean: meanRatio === undefined ? undefined : (meanRatio * model) / HOUR,
    observations: learned.n,
    actual: hours(end),
    held: compareMoments(from, end) <= 0 && compareMoments(end, to) <= 0,
    halfway: quantity !== 'hatch' ? undefined : { lookedAt: look === undefined ? undefined : hours(look), learned: known.halfway.learned, mean: known.halfway.meanRatio },
  };
}
