import type { Agenda } from '../../planner/agenda';
import { dueText } from '../../planner/columns/agenda';
import type { Plan } from '../../planner/plan';
import type { Part } from '../hoverText';
import { factLine, factOf } from './card';

/** What is to be done next of something that has no columns for it, under the names that those of a clutch have. */
export function agendaFacts({ next, overdue }: Agenda, plan: Plan): readonly Part[] {
  if (next === undefined) return [];
  return factLine(
    factOf('clutches', 'next_action', next.routine.action),
    factOf('clutches', 'next_due', dueText(next.due, next, plan.view.zone)),
    overdue.length === 0 ? undefined : factOf('clutches', 'overdue', String(overdue.length)),
  );
}
