import type { Plan } from '../../planner/plan';
import type { Row } from '../../records/row';
import type { Part } from '../hoverText';
import { cellFact, factLine } from './card';

/** Of long rows only so much is told. */
const MOST = 10;

/** What a row says in its own cells, without its key: for things of which nothing is worked out. */
export function rowCard(row: Row | undefined, plan: Plan): readonly Part[] {
  if (row === undefined) return [];
  const { schema, header } = row.block.file;
  const own = header.columns.flatMap(({ field }) => (field === undefined || field.computed || field.name === schema.key || field.name === 'accept' ? [] : [field.name]));
  const facts = own.flatMap((name) => cellFact(plan, row, name) ?? []).slice(0, MOST);
  return facts.flatMap((fact) => factLine(fact));
}
