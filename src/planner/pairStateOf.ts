import { hasCome } from '../base/moment';
import { predictSpawn } from '../domain/nextSpawn';
import type { Spawn, SpawnInterval } from '../domain/spawning';
import type { Pair } from '../records/things';
import { NOTHING_DUE } from './agenda';
import type { NextSpawn, PairState, PlanView } from './states';
import { pairAgenda } from './subjects';

/** What follows of a pair from its spawns by now, in order, and the intervals between them. */
export function pairStateOf(pair: Pair, { spawns, intervals }: { readonly spawns: readonly Spawn[]; readonly intervals: readonly SpawnInterval[] }, view: PlanView): PairState {
  const next = nextSpawn(pair, spawns.at(-1), intervals, view);
  const state: PairState = { pair, spawns, intervals, next, agenda: NOTHING_DUE };
  return { ...state, agenda: pairAgenda(state, view) };
}

function nextSpawn(pair: Pair, last: Spawn | undefined, intervals: readonly SpawnInterval[], { records, now }: PlanView): NextSpawn | undefined {
  const usualDays = pair.species === undefined ? undefined : records.profile(pair.species)?.interval_d;
  const retired = hasCome(pair.retired, now);
  if (last === undefined || usualDays === undefined || retired || pair.kind !== 'pair') return undefined;
  const { window, observations, fromDays, expectedDays, toDays } = predictSpawn(usualDays, intervals);
  const day = last.spawned.day;
  return { last, usualDays, window, observations, from: day + fromDays, expected: day + expectedDays, to: day + toDays };
}

/** Whether two expectations of the next spawn have the same window. */
export function isSameSpawn(a: NextSpawn | undefined, b: NextSpawn | undefined): boolean {
  return a?.from === b?.from && a?.expected === b?.expected && a?.to === b?.to;
}
