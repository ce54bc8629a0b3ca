import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { formatDay, formatMoment } from '../../base/moment';
import { hasHours } from '../../domain/routines';
import type { Occurrence } from '../../domain/routines';
import type { Moment } from '../../base/moment';
import type { Zone } from '../../base/zone';
import { ownRowOf, routineCell } from '../../records/routines';
import type { Tank } from '../../records/things';
import type { Agenda } from '../agenda';
import type { ExplainedConstant, ExplainedInput } from '../explanation';
import { placeOf } from '../places';
import type { ClutchState, PlanView } from '../states';
import { anchoredMilestone } from '../subjects';
import type { Column, Why } from './column';
import { recordInput } from './inputs';
import { expectedWhy } from './milestoneWhy';

/** A moment of a routine as it is shown: to the hour or to the day. */
export function dueText(moment: Moment, { routine }: Pick<Occurrence, 'routine'>, zone: Zone): string {
  return hasHours(routine) ? formatMoment(moment, zone) : formatDay(moment.day);
}

export const nextAction: Column<ClutchState> = {
  header: 'next_action',
  settled: '',
  value: ({ agenda }) => actionOf(agenda),
  explain: clutchNextWhy,
};

export const nextDue: Column<ClutchState> = {
  header: 'next_due',
  settled: '',
  value: ({ agenda }, { zone }) => dueOf(agenda, zone),
  explain: clutchNextWhy,
};

export const overdueCount: Column<ClutchState> = {
  header: 'overdue',
  settled: '',
  value: ({ agenda, timeline }) => (timeline.ended === undefined ? String(agenda.overdue.length) : ''),
  explain: ({ agenda, timeline }, view) =>
    timeline.ended === undefined
      ? { formula: say('why.overdue'), inputs: agenda.overdue.map((occurrence) => occurrenceInput(occurrence, view)) }
      : { formula: say('why.overdue'), notes: [say('why.overdue.ended')] },
};

export const tankNextAction: Column<Tank> = {
  header: 'next_action',
  value: ({ tank }, view) => actionOf(view.tankAgenda(tank)),
  explain: ({ tank }, view) => nextWhy(view.tankAgenda(tank), view),
};

export const tankNextDue: Column<Tank> = {
  header: 'next_due',
  value: ({ tank }, view) => dueOf(view.tankAgenda(tank), view.zone),
  explain: ({ tank }, view) => nextWhy(view.tankAgenda(tank), view),
};

function actionOf({ next }: Agenda): string {
  return next?.routine.action ?? '';
}

function dueOf({ next }: Agenda, zone: Zone): string {
  return next === undefined ? '' : dueText(next.due, next, zone);
}

export function occurrenceInput(occurrence: Occurrence, view: PlanView): ExplainedInput {
  const { routine, due } = occurrence;
  return { name: say('input.routine', routine.action), value: dueText(due, occurrence, view.zone), place: routinePlace(occurrence, view) };
}

function routinePlace({ routine }: Occurrence, view: PlanView): ExplainedInput['place'] {
  const row = ownRowOf(routine);
  return row === undefined ? undefined : placeOf({ row, header: undefined }, view.records);
}

function nextWhy({ next }: Agenda, view: PlanView): Why {
  if (next === undefined) return { formula: say('why.agenda'), notes: [say('why.agenda.none')] };
  const { routine, due, from, to, isExpected } = next;
  const window = { from: dueText(from, next, view.zone), expected: dueText(due, next, view.zone), to: dueText(to, next, view.zone), observations: 0 };
  return {
    formula: routine.anchor === undefined ? say('why.agenda.moment', routine.routine) : say('why.agenda.anchor', routine.routine, routine.anchor),
    notes: notesOf(next, view.zone),
    inputs: [occurrenceInput(next, view)],
    constants: constantsOf(next, view),
    ...(isExpected ? { window } : {}),
  };
}

/** With what the anchor itself came from. */
function clutchNextWhy(state: ClutchState, view: PlanView): Why {
  const why = nextWhy(state.agenda, view);
  const anchor = state.agenda.next?.routine.anchor;
  const milestone = anchor === undefined ? undefined : anchoredMilestone(state, anchor);
  if (milestone === undefined) return why;
  if (milestone.record !== undefined) return { ...why, inputs: [...(why.inputs ?? []), recordInput(state, milestone.record, milestone.rung.milestone, view)] };
  const expected = expectedWhy(state, milestone, view);
  return { ...why, inputs: [...(why.inputs ?? []), ...(expected.inputs ?? [])], constants: [...(why.constants ?? []), ...(expected.constants ?? [])] };
}

function notesOf(next: Occurrence, zone: Zone): readonly Message[] {
  const { routine, state, lastGood, level } = next;
  const notes: Message[] = [say(`why.agenda.${state}`, dueText(next.due, next, zone))];
  if (level === 'warn' && lastGood !== undefined && state !== 'overdue') notes.push(say('why.agenda.overdue-after', dueText(lastGood, next, zone)));
  if (level === 'remind') notes.push(say(routine.level === 'habit' ? 'why.agenda.no-habit' : 'why.agenda.reminder'));
  if (routine.doneBy.length > 0) notes.push(say('why.agenda.done-by', routine.doneBy.join(', ')));
  return notes;
}

function constantsOf({ routine }: Occurrence, view: PlanView): readonly ExplainedConstant[] {
  return ['offset', 'every', 'grace', 'lapse'].flatMap((name) => {
    const cell = routineCell(routine, name);
    if (cell === undefined) return [];
    const { text, row, isBuiltIn } = cell;
    return [{ name: say('constant.named', name), value: text, unit: undefined, source: say(isBuiltIn ? 'source.built-in-routine' : 'source.own-routine'), place: isBuiltIn ? undefined : placeOf({ row, header: name }, view.records) }];
  });
}
