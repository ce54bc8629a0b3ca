import { say } from '../../base/messages';
import { formatDay, hasCome } from '../../base/moment';
import { median } from '../../domain/spawning';
import type { ExplainedInput } from '../explanation';
import type { PairState, PlanView } from '../states';
import { oneDecimal } from './column';
import type { Column, Why } from './column';
import { cellInput, constants, learnedFactor, profileConstant } from './inputs';

function spawnInputs({ spawns }: PairState, view: PlanView): readonly ExplainedInput[] {
  return spawns.flatMap(({ clutch }) => {
    const state = view.clutch(clutch);
    return state === undefined ? [] : [cellInput(state.row, 'spawned', view)];
  });
}

export const clutches: Column<PairState> = {
  header: 'clutches',
  value: ({ spawnCount }) => String(spawnCount),
  explain: (state, view) => ({ formula: say('why.clutches'), inputs: spawnInputs(state, view) }),
};

export const lastSpawned: Column<PairState> = {
  header: 'last_spawned',
  value({ lastSpawn: last }) {
    return last === undefined ? '' : `${last.spawned.about ? '~' : ''}${formatDay(last.spawned.day)}`;
  },
  explain: (state, view) => ({ formula: say('why.last-spawned'), inputs: spawnInputs(state, view).slice(-1) }),
};

export const intervalMedian: Column<PairState> = {
  header: 'interval_median_days',
  value: ({ gaps }) => oneDecimal(median(gaps.map(({ days }) => days))),
  explain: (state, view) => ({ formula: say('why.interval-median'), inputs: spawnInputs(state, view) }),
};

export const nextSpawnFrom: Column<PairState> = {
  header: 'next_spawn_from',
  value: ({ next }) => (next === undefined ? '' : formatDay(next.from)),
  explain: explainNext,
};

export const nextSpawnExpected: Column<PairState> = {
  header: 'next_spawn_expected',
  value: ({ next }) => (next === undefined ? '' : formatDay(next.expected)),
  explain: explainNext,
};

export const nextSpawnTo: Column<PairState> = {
  header: 'next_spawn_to',
  value: ({ next }) => (next === undefined ? '' : formatDay(next.to)),
  explain: explainNext,
};

function explainNext(state: PairState, view: PlanView): Why {
  const { next, pair } = state;
  const inputs = spawnInputs(state, view);
  if (next === undefined) return { formula: say('why.next-spawn'), notes: [emptyNext(state, view)], inputs };
  return {
    formula: say('why.next-spawn'),
    notes: [next.observations === 0 ? say('why.intervals.none') : say('why.intervals', next.observations)],
    inputs,
    constants: constants(
      pair.species === undefined ? undefined : profileConstant(pair.species, 'interval_d', view),
      next.observations === 0 ? undefined : learnedFactor(next.window.expected, next.observations),
    ),
    window: { from: formatDay(next.from), expected: formatDay(next.expected), to: formatDay(next.to), observations: next.observations },
  };
}

function emptyNext({ pair, spawnCount }: PairState, view: PlanView): ReturnType<typeof say> {
  if (pair.kind !== 'pair') return say('why.next-spawn.kind', pair.kind);
  if (spawnCount === 0) return say('why.next-spawn.never');
  if (hasCome(pair.retired, view.now)) return say('why.next-spawn.retired');
  return say('why.next-spawn.no-interval');
}
