import { rowNamed } from '../ids';
import { cellFact, computedFact, factLine, linksTo } from './card';
import type { Card } from './card';

/** What stands in it, and how much is overdue there. */
export const roomCard: Card = (id, plan) => {
  const row = rowNamed(plan, { sheet: 'rooms', id });
  if (row === undefined) return [];
  return [
    ...factLine(cellFact(plan, row, 'name'), cellFact(plan, row, 'note')),
    ...factLine(computedFact(plan, row, 'tanks'), computedFact(plan, row, 'open_clutches'), computedFact(plan, row, 'overdue')),
    ...linksTo(row, plan),
  ];
};
