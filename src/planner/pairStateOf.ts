import { hasCome } from '../base/moment';
import { predictSpawn } from '../domain/nextSpawn';
import { spawnIntervals } from '../domain/spawning';
import type { Spawn, SpawnGap, SpawnInterval } from '../domain/spawning';
import type { Pair } from '../records/things';
import { NOTHING_DUE } from './agenda';
import type { Agenda } from './agenda';
import type { NextSpawn, PairState, PlanView } from './states';
import { pairAgenda } from './subjects';

/** What follows of a pair from its spawns by now, in order, and what lies between them. */
export function pairStateOf(pair: Pair, spawns: Spawns, view: PlanView): PairState {
  const state = new SpawningPair(pair, spawns, nextSpawn(pair, spawns, view));
  state.agenda = pairAgenda(state, view);
  return state;
}

type Spawns = Pick<PairState, 'spawns' | 'spawnCount' | 'lastSpawn' | 'gaps'>;

class SpawningPair implements PairState {
  readonly pair: Pair;
  readonly #spawns: Spawns;
  readonly next: NextSpawn | undefined;
  agenda: Agenda = NOTHING_DUE;

  constructor(pair: Pair, spawns: Spawns, next: NextSpawn | undefined) {
    this.pair = pair;
    this.#spawns = spawns;
    this.next = next;
  }

  get spawns(): readonly Spawn[] {
    return this.#spawns.spawns;
  }

  get spawnCount(): number {
    return this.#spawns.spawnCount;
  }

  get lastSpawn(): Spawn | undefined {
    return this.#spawns.lastSpawn;
  }

  get gaps(): readonly SpawnGap[] {
    return this.#spawns.gaps;
  }

  get intervals(): readonly SpawnInterval[] {
    return spawnIntervals(this.spawns);
  }
}

function nextSpawn(pair: Pair, { lastSpawn: last, gaps }: Spawns, { records, now }: PlanView): NextSpawn | undefined {
  const usualDays = pair.species === undefined ? undefined : records.profile(pair.species)?.interval_d;
  const retired = hasCome(pair.retired, now);
  if (last === undefined || usualDays === undefined || retired || pair.kind !== 'pair') return undefined;
  const { window, observations, fromDays, expectedDays, toDays } = predictSpawn(usualDays, gaps);
  const day = last.spawned.day;
  return { last, usualDays, window, observations, from: day + fromDays, expected: day + expectedDays, to: day + toDays };
}

/** Whether two expectations of the next spawn have the same window. */
export function isSameSpawn(a: NextSpawn | undefined, b: NextSpawn | undefined): boolean {
  return a?.from === b?.from && a?.expected === b?.expected && a?.to === b?.to;
}
