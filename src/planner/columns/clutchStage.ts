import { say } from '../../base/messages';
import { formatMoment } from '../../base/moment';
import { recordOf } from '../../domain/clutchStudy';
import { stageAt } from '../../domain/timeline';
import type { MilestoneTime } from '../../domain/timeline';
import type { ClutchState, PlanView } from '../states';
import type { Column, Why } from './column';
import { cellInput, recordInput } from './inputs';
import { expectedWhy } from './milestoneWhy';

export const stage: Column<ClutchState> = {
  header: 'stage',
  settled: 'ended',
  value: ({ timeline }, view) => stageAt(timeline, view.now)?.stage ?? '',
  explain: explainStage,
};

export const stageBasis: Column<ClutchState> = {
  header: 'stage_basis',
  settled: '',
  value: ({ timeline }, view) => stageAt(timeline, view.now)?.basis ?? '',
  explain: explainStage,
};

function explainStage(state: ClutchState, view: PlanView): Why {
  const { timeline, study } = state;
  if (timeline.ended !== undefined) return { formula: say('why.stage.ended'), inputs: [recordInput(state, timeline.ended, 'ended', view)] };
  if (study.ladder === undefined) return { formula: say('why.stage'), notes: [say('why.no-species')], inputs: [cellInput(state.row, 'species', view)] };
  const at = stageAt(timeline, view.now);
  if (at?.basis === 'unanswered') return { ...expectedWhy(state, questionOf(state), view), formula: say('why.stage.unanswered') };
  const reached = timeline.milestones.filter((milestone) => milestone?.rung.stage === at?.stage).at(-1);
  if (at?.stage === 'wriggler' && reached === undefined && timeline.stripped !== undefined) {
    return { formula: say('why.stage'), inputs: [recordInput(state, timeline.stripped, 'spawned', view)] };
  }
  if (reached === undefined) return { formula: say('why.stage') };
  const record = recordOf(reached.rung.milestone, study.recorded);
  if (record !== undefined) return { formula: say('why.stage.recorded', reached.rung.milestone, reached.rung.stage), inputs: [recordInput(state, record, reached.rung.milestone, view)] };
  const why = expectedWhy(state, reached, view);
  return { ...why, formula: say('why.stage.expected', reached.rung.milestone, reached.rung.stage, formatMoment(reached.time, view.zone)) };
}

function questionOf({ timeline, study }: ClutchState): MilestoneTime | undefined {
  return timeline.milestones.find((milestone) => milestone?.rung.milestone === study.ladder?.question);
}
