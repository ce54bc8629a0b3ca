import { say } from '../../base/messages';
import type { ClutchState } from '../states';
import type { Column } from './column';
import { text } from './column';
import { cellInput } from './inputs';

export const spawnInterval: Column<ClutchState> = {
  header: 'spawn_interval_days',
  value: ({ gap }) => text(gap?.days),
  explain(state, view) {
    const before = state.before === undefined ? undefined : view.clutch(state.before.clutch);
    return {
      formula: say('why.interval'),
      notes: before === undefined ? [say(state.clutch.pair === undefined ? 'why.interval.no-pair' : 'why.interval.first')] : [],
      inputs: [...(before === undefined ? [] : [cellInput(before.row, 'spawned', view)]), cellInput(state.row, 'spawned', view)],
    };
  },
};
