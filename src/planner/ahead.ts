import { compareMoments, momentOfDay } from '../base/moment';
import { comingOf, comingSpawn } from '../domain/coming';
import type { Coming } from '../domain/coming';
import { evidenceOfBirth } from '../domain/ladder';
import type { MilestoneTime } from '../domain/timeline';
import type { Row } from '../records/row';
import { Places } from './due';
import type { Stock } from './due';
import { askedSizes, saleLots } from './sales';
import type { SaleLot } from './sales';
import type { ClutchState, PairState, PlanView } from './states';

export type AheadKind = 'hatch' | 'release' | 'first-feed' | 'next-spawn' | 'sale';

/** Something that will happen, when, and where; '' where a place or a pair isn't known. */
export interface AheadEntry extends Coming {
  readonly kind: AheadKind;
  readonly room: string;
  readonly tank: string;
  readonly pair: string;
  readonly clutch: string;
  readonly species: string;
  /** How many recorded broods or intervals of the pair the window was learned from. */
  readonly observations: number;
  /** The register's row of the thing that it is about. */
  readonly row: Row;
  /** Of fish to sell. */
  readonly sale?: Sale | undefined;
}

export interface Sale extends Pick<SaleLot, 'minMm' | 'heldUntil' | 'fish'> {
  /** How many fish of the species are there to sell by then from this length on, of all broods that are counted, and how many are not counted. */
  readonly total: number;
  readonly uncounted: number;
}

/**
 * What is to be expected from now until a day (days since 1970-01-01) is over, in order of when it is expected, at one moment in
 * walking order: what may come by then, and fish that are likely to be long enough, else every brood would be for sale. Of an
 * unanswered brood nothing is foretold.
 */
export function aheadUntil(lastDay: number, { clutches, pairs }: Stock, view: PlanView): readonly AheadEntry[] {
  const places = new Places(view);
  const entries: AheadEntry[] = [];
  const add = (entry: Omit<AheadEntry, 'room'>): void => {
    entries.push({ ...entry, room: places.roomOf(entry.tank) });
  };
  const mayCome = (entry: Omit<AheadEntry, 'room'>): boolean => entry.from.day <= lastDay;
  const sizes = askedSizes(view);
  const lots: Lot[] = [];
  for (const state of clutches) {
    for (const entry of ofClutch(state, view)) if (mayCome(entry)) add(entry);
    for (const lot of saleLots(state, { sizes: sizes.get(state.species ?? '') ?? NO_SIZES, lastDay }, view)) lots.push({ ...lot, state });
  }
  for (const state of pairs) for (const entry of ofPair(state, view)) if (mayCome(entry)) add(entry);
  for (const entry of ofLots(lots)) add(entry);
  return entries.sort((a, b) => compareMoments(a.expected, b.expected) || places.compare(a, b));
}

function* ofClutch(state: ClutchState, view: PlanView): Generator<Omit<AheadEntry, 'room'>> {
  const { study, timeline } = state;
  if (study.ladder === undefined || timeline.unanswered) return;
  const entry = (kind: AheadKind, milestone: MilestoneTime | undefined): Omit<AheadEntry, 'room'> | undefined => {
    const coming = comingOf(milestone, timeline, view);
    if (coming === undefined) return undefined;
    return { kind, ...coming, ...placeOf(state), observations: milestone?.learned?.n ?? 0 };
  };
  const { question } = study.ladder;
  const birth = question === undefined ? undefined : entry(question === 'hatched' ? 'hatch' : 'release', timeline.of(question));
  if (birth !== undefined) yield birth;
  const feed = isFed(state) ? undefined : entry('first-feed', timeline.firstFeed);
  // Nobody writes down every first feed: once its window is over, it has been. As long as the hatch or release is to come, that moves along with it.
  if (feed !== undefined && (birth !== undefined || compareMoments(timeline.firstFeed?.to ?? feed.to, view.now) >= 0)) yield feed;
}

/** Whether the records show that the fry have been fed, or live on what they are fed. */
function isFed({ study, timeline }: ClutchState): boolean {
  const { firstFeed } = timeline;
  if (firstFeed === undefined || study.recorded.firstFeed !== undefined || study.recorded.freeSwimming !== undefined) return true;
  return study.entries.some(({ event, time }) => event === 'fed' || (evidenceOfBirth.has(event) && event !== 'lost' && event !== 'culled' && compareMoments(time, firstFeed.from) >= 0));
}

interface Lot extends SaleLot {
  readonly state: ClutchState;
}

const NO_SIZES: ReadonlySet<number> = new Set();

/** Each lot with how many of its species there are by then: of the broods that are as long by its day, each as it is on the day on which it gets so long. */
function* ofLots(lots: readonly Lot[]): Generator<Omit<AheadEntry, 'room'>> {
  const totals = new Map<string, { fish: number; uncounted: number }>();
  for (const { state, minMm, from, expected, to, heldUntil, fish, isOutgrown } of [...lots].sort((a, b) => compareMoments(a.expected, b.expected))) {
    const key = `${state.species ?? ''} ${minMm ?? ''}`;
    const total = totals.get(key) ?? { fish: 0, uncounted: 0 };
    totals.set(key, total);
    if (fish === undefined) total.uncounted++;
    else total.fish += fish;
    if (isOutgrown) continue;
    const sale = { minMm, heldUntil, fish, total: total.fish, uncounted: total.uncounted };
    yield { kind: 'sale', from, expected, to, ...placeOf(state), observations: state.timeline.of('sale_size')?.learned?.n ?? 0, sale };
  }
}

/** Where a brood is told of: the first tank that it stands in. */
function placeOf(state: ClutchState): Pick<AheadEntry, 'tank' | 'pair' | 'clutch' | 'species' | 'row'> {
  return { tank: state.study.heads.stands.keys().next().value ?? '', pair: state.clutch.pair ?? '', clutch: state.clutch.clutch, species: state.species ?? '', row: state.row };
}

function* ofPair({ pair, next }: PairState, view: PlanView): Generator<Omit<AheadEntry, 'room'>> {
  if (next === undefined) return;
  const coming = comingSpawn({ ...next, lastDay: next.last.spawned.day }, view.now.day);
  const at = (day: number): Coming['from'] => momentOfDay(day, view.zone);
  yield {
    kind: 'next-spawn',
    from: at(coming.from),
    expected: at(coming.expected),
    to: at(coming.to),
    tank: pair.tank ?? '',
    pair: pair.pair,
    clutch: '',
    species: pair.species ?? '',
    observations: next.observations,
    row: pair.row,
  };
}
