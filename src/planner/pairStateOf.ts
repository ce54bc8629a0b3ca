import { hasCome } from '../base/moment';
import { predictSpawn } from '../domain/nextSpawn';
import { spawnIntervals } from '../domain/spawning';
import type { Spawn, SpawnInterval } from '../domain/spawning';
import type { Pair } from '../records/things';
import { NOTHING_DUE } from './agenda';
import type { Agenda } from './agenda';
import type { NextSpawn, PairState, PlanView } from './states';
import { pairAgenda } from './subjects';

/** What follows of a pair from its spawns by now, in order. */
export function pairStateOf(pair: Pair, spawns: readonly Spawn[], view: PlanView): PairState {
  const state = new SpawningPair(pair, spawns, nextSpawn(pair, spawns, view));
  state.agenda = pairAgenda(state, view);
  return state;
}

class SpawningPair implements PairState {
  readonly pair: Pair;
  readonly spawns: readonly Spawn[];
  readonly next: NextSpawn | undefined;
  agenda: Agenda = NOTHING_DUE;

  constructor(pair: Pair, spawns: readonly Spawn[], next: NextSpawn | undefined) {
    this.pair = pair;
    this.spawns = spawns;
    this.next = next;
  }

  get intervals(): readonly SpawnInterval[] {
    return spawnIntervals(this.spawns);
  }
}

function nextSpawn(pair: Pair, spawns: readonly Spawn[], { records, now }: PlanView): NextSpawn | undefined {
  const usualDays = pair.species === undefined ? undefined : records.profile(pair.species)?.interval_d;
  const last = spawns.at(-1);
  const retired = hasCome(pair.retired, now);
  if (last === undefined || usualDays === undefined || retired || pair.kind !== 'pair') return undefined;
  const { window, observations, fromDays, expectedDays, toDays } = predictSpawn(usualDays, spawnIntervals(spawns));
  const day = last.spawned.day;
  return { last, usualDays, window, observations, from: day + fromDays, expected: day + expectedDays, to: day + toDays };
}

/** Whether two expectations of the next spawn have the same window. */
export function isSameSpawn(a: NextSpawn | undefined, b: NextSpawn | undefined): boolean {
  return a?.from === b?.from && a?.expected === b?.expected && a?.to === b?.to;
}
