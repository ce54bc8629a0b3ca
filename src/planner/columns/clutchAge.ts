import { say } from '../../base/messages';
import type { Moment } from '../../base/moment';
import type { ExplainedInput } from '../explanation';
import type { ClutchState } from '../states';
import type { Column } from './column';
import { cellInput, recordInput } from './inputs';

/** Calendar days from the spawn's day to the day of a moment; it stops at `ended` and never falls below 0. */
export function ageAt(state: ClutchState, at: Moment): number {
  const { spawned, ended } = state.study.recorded;
  const day = ended === undefined ? at.day : Math.min(at.day, ended.time.day);
  return Math.max(0, day - spawned.time.day);
}

export const ageDays: Column<ClutchState> = {
  header: 'age_days',
  value: (state, view) => String(ageAt(state, view.now)),
  explain(state, view) {
    const { ended } = state.study.recorded;
    const inputs: ExplainedInput[] = [cellInput(state.row, 'spawned', view)];
    if (ended !== undefined) inputs.push(recordInput(state, ended, 'ended', view));
    return { formula: ended === undefined ? say('why.age') : say('why.age.ended'), inputs };
  },
};

