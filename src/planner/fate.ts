import type { Fate } from '../domain/spawnTrials';
import type { ClutchEvent } from '../domain/things';
import { valueOf } from '../records/things';
import type { ClutchState } from './states';

const REARED: ReadonlySet<ClutchEvent> = new Set<ClutchEvent>(['first_feed', 'fed', 'free_swimming', 'released', 'counted', 'measured', 'sold', 'kept', 'joined']);
const REARED_OUTCOMES = new Set(['sold', 'kept', 'joined']);

/** Whether a brood was raised or lost, and when the records first show it; undefined while they show neither. */
export function fateOf(state: ClutchState | undefined): Fate | undefined {
  if (state === undefined) return undefined;
  const { recorded, entries } = state.study;
  const { ended } = recorded;
  const swam = recorded.freeSwimming ?? recorded.released;
  const row = entries.find(({ event }) => REARED.has(event));
  const seen = swam === undefined || (row !== undefined && row.time.instant < swam.time.instant) ? row?.time : swam.time;
  if (seen !== undefined) return { kind: 'reared', time: seen };
  if (ended === undefined) return undefined;
  const outcome = valueOf(state.row, 'clutches', 'outcome');
  return { kind: typeof outcome === 'string' && REARED_OUTCOMES.has(outcome) ? 'reared' : 'lost', time: ended.time };
}
