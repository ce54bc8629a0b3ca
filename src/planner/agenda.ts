import { scheduleOf } from '../domain/routines';
import type { Occurrence, Routine, Subject } from '../domain/routines';

/** What is due and coming of all routines of one thing. */
export interface Agenda {
  /** What is open or comes next, each routine's in the order of the sheet; without the feeding. */
  readonly occurrences: readonly Occurrence[];
  /** What is to be done next: what is overdue before all else, then by its moment. */
  readonly next: Occurrence | undefined;
  /** Those that are overdue, in the order in which they fell due. */
  readonly overdue: readonly Occurrence[];
  /** The earliest instant after now at which time alone changes it; bare days change with the calendar. */
  readonly turn: number;
}

export const NOTHING_DUE: Agenda = { occurrences: [], next: undefined, overdue: [], turn: Number.POSITIVE_INFINITY };

export function agendaOf(routines: readonly Routine[], subject: Subject): Agenda {
  if (routines.length === 0) return NOTHING_DUE;
  const occurrences: Occurrence[] = [];
  let turn = Number.POSITIVE_INFINITY;
  for (const routine of routines) {
    if (routine.level === 'round') continue;
    const schedule = scheduleOf(routine, subject);
    if (schedule === undefined) continue;
    if (schedule.open !== undefined) occurrences.push(schedule.open);
    if (schedule.next !== undefined) occurrences.push(schedule.next);
    turn = Math.min(turn, schedule.turn);
  }
  const overdue = occurrences.filter(({ state }) => state === 'overdue').sort(byDue);
  const next = overdue[0] ?? [...occurrences].sort(byDue)[0];
  return { occurrences, next, overdue, turn };
}

/** A day counts as its noon; equal ones stay in the order of the sheet. */
function byDue(a: Occurrence, b: Occurrence): number {
  return a.due.instant - b.due.instant;
}
