import { say } from '../../base/messages';
import { formatMoment } from '../../base/moment';
import type { Alive } from '../../domain/headcount';
import type { LogEntry } from '../../domain/things';
import { stageAt } from '../../domain/timeline';
import type { ClutchState } from '../states';
import { ageAt } from './clutchAge';
import { aliveText } from './clutchHeads';
import type { Column } from './column';
import { cellInput } from './inputs';

/** A row of a clutch's log with what was alive after it. */
export interface LogRowState {
  readonly state: ClutchState;
  readonly entry: LogEntry;
  readonly alive: Alive;
}

export const logAgeDays: Column<LogRowState> = {
  header: 'age_days',
  value: ({ state, entry }) => String(ageAt(state, entry.time)),
  explain: ({ state }, view) => ({ formula: say('why.age.row'), inputs: [cellInput(state.row, 'spawned', view)] }),
};

export const logStage: Column<LogRowState> = {
  header: 'stage',
  value: ({ state, entry }) => stageAt(state.timeline, entry.time)?.stage ?? '',
  explain: ({ state, entry }, view) => ({
    formula: say('why.stage.row', formatMoment(entry.time, view.zone)),
    inputs: state.timeline.milestones.flatMap((milestone) =>
      milestone === undefined ? [] : [{ name: say(`input.milestone.${milestone.basis}`, milestone.rung.milestone), value: formatMoment(milestone.time, view.zone), place: undefined }],
    ),
  }),
};

export const logAlive: Column<LogRowState> = {
  header: 'alive',
  value: ({ alive }) => aliveText(alive),
  explain: () => ({ formula: say('why.alive.row') }),
};
