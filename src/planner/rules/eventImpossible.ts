import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { compareMoments, formatMoment } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { recordOf } from '../../domain/clutchStudy';
import { isImpossible } from '../../domain/ladder';
import type { Rung } from '../../domain/ladder';
import type { RecordedMoment } from '../../domain/recorded';
import type { LogEntry } from '../../domain/things';
import type { Row } from '../../records/row';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { ClutchState, PlanView } from '../states';

/** Rows and milestones that can't be: events of another ladder, before the spawn or the milestone before, or after the end. */
export function eventImpossible(state: ClutchState, view: PlanView): readonly Found[] {
  // Asked of every row of the register, so nothing is made before there is something to tell.
  let found = NOTHING;
  for (const entry of state.study.entries) found = joined(found, impossibleEntry(entry, state, view));
  found = joined(found, impossibleMilestones(state, view));
  return joined(found, impossibleEnd(state, view));
}

function joined(found: readonly Found[], more: readonly Found[]): readonly Found[] {
  return more.length === 0 ? found : [...found, ...more];
}

function impossibleEntry(entry: LogEntry, state: ClutchState, view: PlanView): readonly Found[] {
  const { clutch, study } = state;
  const { profile, recorded } = study;
  const row = entry.row as Row;
  if (profile !== undefined && isImpossible(entry.event, profile.care)) {
    return told({ row, header: 'event' }, say('event-impossible.ladder', entry.event, profile.species, profile.care), state);
  }
  if (entry.event !== 'spawned' && isBefore(entry.time, clutch.spawned)) {
    return told({ row, header: 'time' }, say('event-impossible.before-spawn', formatMoment(clutch.spawned, view.zone)), state);
  }
  if (recorded.ended !== undefined && isBefore(recorded.ended.time, entry.time)) {
    return told({ row, header: 'time' }, say('event-impossible.after-end', formatMoment(recorded.ended.time, view.zone)), state);
  }
  return NOTHING;
}

/** The milestones in the order of the ladder, each beside the last one before it that was recorded. */
function impossibleMilestones(state: ClutchState, view: PlanView): readonly Found[] {
  const { ladder, recorded } = state.study;
  let found = NOTHING;
  let nameBefore: Rung['milestone'] = 'spawned';
  let before = recorded.spawned;
  for (const { milestone, after } of ladder?.rungs ?? NO_RUNGS) {
    if (after === undefined) continue;
    const record = recordOf(milestone, recorded);
    if (record === undefined) continue;
    const isTold = nameBefore === 'spawned' && record.entry !== undefined;
    if (!isTold && isBefore(record.time, before.time)) {
      found = joined(found, told(placeOf(record, milestone, state), say('event-impossible.order', milestone, nameBefore, formatMoment(before.time, view.zone)), state));
    }
    if (record.entry === undefined && recorded.ended !== undefined && isBefore(recorded.ended.time, record.time)) {
      found = joined(found, told(placeOf(record, milestone, state), say('event-impossible.after-end', formatMoment(recorded.ended.time, view.zone)), state));
    }
    nameBefore = milestone;
    before = record;
  }
  return found;
}

const NO_RUNGS: readonly Rung[] = [];

function impossibleEnd(state: ClutchState, view: PlanView): readonly Found[] {
  const { spawned, ended } = state.study.recorded;
  if (ended === undefined || ended.entry !== undefined || !isBefore(ended.time, spawned.time)) return NOTHING;
  return told({ row: state.row, header: 'ended' }, say('event-impossible.order', 'ended', 'spawned', formatMoment(spawned.time, view.zone)), state);
}

/** Whether one moment is surely before another: a guess may lie on either side. */
function isBefore(a: Moment, b: Moment): boolean {
  return !a.about && !b.about && compareMoments(a, b) < 0;
}

interface Cell {
  readonly row: Row;
  readonly header: string;
}

function placeOf({ entry }: RecordedMoment, milestone: Rung['milestone'], { row }: ClutchState): Cell {
  return entry === undefined ? { row, header: milestone === 'released' ? 'free_swimming' : milestone } : { row: entry.row as Row, header: 'time' };
}

function told(cell: Cell, message: Message, { row: owner, clutch }: ClutchState): readonly Found[] {
  const related = cell.row === owner ? [] : [{ row: owner, header: undefined, message: say('related.clutch', clutch.clutch) }];
  return [{ ...cell, owner, code: 'event-impossible', message, related }];
}
