import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import type { Occurrence } from '../../domain/routines';
import { keyText } from '../../records/row';
import type { Row } from '../../records/row';
import type { Tank } from '../../records/things';
import type { Agenda } from '../agenda';
import { dueText } from '../columns/agenda';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { Fix } from '../problem';
import { endFixes, recordFixes, recordTankFixes, switchOffFixes } from '../routineFixes';
import type { ClutchState, PairState, PlanView } from '../states';
import { hasUnreadLog, hasUnreadReadings } from '../unreadSource';

/** What was to be done and wasn't: one problem a clutch, that of its next action; the others are related to it. What was done may stand in a log that can't be read. */
export function clutchOverdue(state: ClutchState, view: PlanView): readonly Found[] {
  // Asked of every row of the register, so nothing is made before there is something to tell.
  return state.agenda.overdue.length === 0 || hasUnreadLog(state.clutch.clutch, view.records) ? NOTHING : aboutClutch(state, view);
}

function aboutClutch(state: ClutchState, view: PlanView): readonly Found[] {
  const { row, agenda, species } = state;
  return found(row, agenda, view, (occurrence) => [
    ...recordFixes(state, occurrence, view),
    ...endFixes(state, view),
    ...switchOffFixes({ occurrence, about: 'clutch', species }, view),
  ]);
}

export function pairOverdue({ pair, agenda }: PairState, view: PlanView): readonly Found[] {
  return found(pair.row, agenda, view, (occurrence) => switchOffFixes({ occurrence, about: 'pair', species: pair.species }, view));
}

export function tankOverdue(tank: Tank, view: PlanView): readonly Found[] {
  if (hasUnreadReadings(tank, view.records)) return NOTHING;
  return found(tank.row, view.tankAgenda(tank.tank), view, (occurrence) => [...recordTankFixes(tank, occurrence, view), ...switchOffFixes({ occurrence, about: 'tank', species: undefined }, view)]);
}

function found(row: Row, { overdue }: Agenda, view: PlanView, fixes: (occurrence: Occurrence) => readonly Fix[]): readonly Found[] {
  if (overdue.length === 0) return NOTHING;
  const [first, ...others] = overdue as readonly [Occurrence, ...Occurrence[]];
  return [
    {
      row,
      owner: row,
      header: undefined,
      code: 'overdue',
      message: told(first, row, view),
      related: others.map((other) => ({ row, header: undefined, message: told(other, row, view) })),
      fixes: () => fixes(first),
    },
  ];
}

/** Names the thing, since a list of problems shows many at once. For how long is told in days of the calendar, so that the text holds until midnight. */
function told(occurrence: Occurrence, row: Row, view: PlanView): Message {
  const { routine, due } = occurrence;
  const days = view.now.day - due.day;
  const when = dueText(due, occurrence, view.zone).replace('T', ' ');
  const what = [routine.action, when, keyText(row)] as const;
  return days <= 0 ? say('overdue.today', ...what) : days === 1 ? say('overdue.one', ...what) : say('overdue', ...what, days);
}
