import { compareMoments, momentOfDay } from '../base/moment';
import { comingOf, comingSpawn } from '../domain/coming';
import type { Coming } from '../domain/coming';
import { evidenceOfBirth } from '../domain/ladder';
import type { MilestoneTime } from '../domain/timeline';
import type { Row } from '../records/row';
import { Places } from './due';
import type { Stock } from './due';
import type { ClutchState, PairState, PlanView } from './states';

export type AheadKind = 'hatch' | 'release' | 'first-feed' | 'next-spawn';

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
}

/**
 * What is to be expected from now until a day (days since 1970-01-01) is over, in order of when it is expected, at one moment in
 * walking order. What the window of begins by then is in. Of an unanswered brood nothing is foretold.
 */
export function aheadUntil(lastDay: number, { clutches, pairs }: Stock, view: PlanView): readonly AheadEntry[] {
  const places = new Places(view);
  const entries: AheadEntry[] = [];
  const add = (entry: Omit<AheadEntry, 'room'>): void => {
    if (entry.from.day <= lastDay) entries.push({ ...entry, room: places.roomOf(entry.tank) });
  };
  for (const state of clutches) for (const entry of ofClutch(state, view)) add(entry);
  for (const state of pairs) for (const entry of ofPair(state, view)) add(entry);
  return entries.sort((a, b) => compareMoments(a.expected, b.expected) || places.compare(a, b));
}

function* ofClutch(state: ClutchState, view: PlanView): Generator<Omit<AheadEntry, 'room'>> {
  const { study, timeline } = state;
  if (study.ladder === undefined || timeline.unanswered) return;
  const entry = (kind: AheadKind, milestone: MilestoneTime | undefined): Omit<AheadEntry, 'room'> | undefined => {
    const coming = comingOf(milestone, timeline, view);
    if (coming === undefined) return undefined;
    const tank = study.heads.stands.keys().next().value ?? '';
    return { kind, ...coming, tank, pair: state.clutch.pair ?? '', clutch: state.clutch.clutch, species: state.species ?? '', observations: milestone?.learned?.n ?? 0, row: state.row };
  };
  const { question } = study.ladder;
  const birth = question === undefined ? undefined : entry(question === 'hatched' ? 'hatch' : 'release', timeline.of(question));
  if (birth !== undefined) yield birth;
  const feed = isFed(state) ? undefined : entry('first-feed', timeline.firstFeed);
  // Nobody writes down every first feed: once its window is over, it has been.
  if (feed !== undefined && compareMoments(timeline.firstFeed?.to ?? feed.to, view.now) >= 0) yield feed;
}

/** Whether the records show that the fry have been fed, or live on what they are fed. */
function isFed({ study, timeline }: ClutchState): boolean {
  const { firstFeed } = timeline;
  if (firstFeed === undefined || study.recorded.firstFeed !== undefined || study.recorded.freeSwimming !== undefined) return true;
  return study.entries.some(({ event, time }) => evidenceOfBirth.has(event) && event !== 'lost' && event !== 'culled' && compareMoments(time, firstFeed.from) >= 0);
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
