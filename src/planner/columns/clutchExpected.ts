import { say } from '../../base/messages';
import { compareMoments, formatDay, formatMoment } from '../../base/moment';
import type { Moment } from '../../base/moment';
import type { MilestoneTime } from '../../domain/timeline';
import type { ClutchState } from '../states';
import type { Column } from './column';
import { cellInput, recordInput } from './inputs';
import { expectedWhy } from './milestoneWhy';

/** Whether an expected milestone would only have come after the clutch ended. */
function isCutOff({ timeline }: ClutchState, milestone: MilestoneTime): boolean {
  return milestone.basis === 'expected' && timeline.ended !== undefined && compareMoments(milestone.time, timeline.ended.time) > 0;
}

/** Of a brood whose species isn't known, only what is recorded. */
function hatchOf(state: ClutchState): Moment | undefined {
  const { ladder, recorded } = state.study;
  if (ladder === undefined || (recorded.hatched !== undefined && ladder.birth === 'hatched')) return recorded.hatched?.time;
  const hatched = state.timeline.of('hatched');
  return hatched === undefined || isCutOff(state, hatched) ? undefined : hatched.time;
}

export const hatchExpected: Column<ClutchState> = {
  header: 'hatch_expected',
  value(state, view) {
    const hatched = hatchOf(state);
    return hatched === undefined ? '' : formatMoment(hatched, view.zone);
  },
  explain(state, view) {
    if (state.study.ladder !== undefined && state.study.ladder.birth !== 'hatched') {
      return { formula: say('why.no-hatch'), inputs: [cellInput(state.row, 'spawned', view)] };
    }
    const { hatched: record } = state.study.recorded;
    if (record !== undefined) return { formula: say('why.recorded'), inputs: [recordInput(state, record, 'hatched', view)] };
    const hatched = state.timeline.of('hatched');
    const why = expectedWhy(state, hatched, view);
    return hatched !== undefined && isCutOff(state, hatched) ? { ...why, notes: [say('why.after-end'), ...(why.notes ?? [])] } : why;
  },
};

export const saleExpected: Column<ClutchState> = {
  header: 'sale_expected',
  value(state) {
    const sale = state.timeline.of('sale_size');
    return sale === undefined || state.timeline.unanswered || isCutOff(state, sale) ? '' : formatDay(sale.time.day);
  },
  explain(state, view) {
    const sale = state.timeline.of('sale_size');
    const why = expectedWhy(state, sale, view);
    if (state.timeline.unanswered) return { ...why, notes: [say('why.unanswered'), ...(why.notes ?? [])] };
    if (sale !== undefined && isCutOff(state, sale)) return { ...why, notes: [say('why.after-end'), ...(why.notes ?? [])] };
    return why;
  },
};
