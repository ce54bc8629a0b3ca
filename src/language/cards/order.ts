import { say } from '../../base/messages';
import { agendaOf } from '../../planner/agenda';
import { OrderSubject, orderRoutines } from '../../planner/subjects';
import { valueOf } from '../../records/things';
import type { Fact } from '../hoverText';
import { rowNamed } from '../ids';
import { agendaFacts } from './agenda';
import { cellFact, factLine, idFact, linksTo } from './card';
import type { Card } from './card';

/** How many of what, until when, and what is to be done next. */
export const orderCard: Card = (id, plan) => {
  const row = rowNamed(plan, { sheet: 'orders', id });
  if (row === undefined) return [];
  const cell = (header: string): Fact | undefined => cellFact(plan, row, header);
  return [
    ...factLine(idFact(plan, { name: say('hover.species'), sheet: 'species', id: valueOf(row, 'orders', 'species') as string | undefined }), cell('quantity'), cell('min_mm')),
    ...factLine(cell('due'), cell('sent'), cell('buyer'), cell('unit_price')),
    ...agendaFacts(agendaOf(orderRoutines(row, plan.view), new OrderSubject(row, plan.view)), plan),
    ...linksTo(row, plan),
  ];
};
