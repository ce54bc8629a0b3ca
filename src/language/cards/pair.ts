import { say } from '../../base/messages';
import type { Plan } from '../../planner/plan';
import type { Row } from '../../records/row';
import { pairOf } from '../../records/things';
import type { Fact } from '../hoverText';
import { rowNamed } from '../ids';
import { agendaFacts } from './agenda';
import { cellFact, computedFact, explained, factLine, factOf, idFact, linksTo } from './card';
import type { Card } from './card';

/** Who they are, when they last spawned and when they should again, and what is to be done next. */
export const pairCard: Card = (id, plan) => {
  const row = rowNamed(plan, { sheet: 'pairs', id });
  if (row === undefined) return [];
  const state = plan.view.pair(id);
  const { species, tank, male, female, kind } = pairOf(row);
  const fact = (header: string): Fact | undefined => computedFact(plan, row, header);
  return [
    ...factLine(idFact(plan, { name: say('hover.species'), sheet: 'species', id: species }), idFact(plan, { name: say('hover.tank'), sheet: 'tanks', id: tank }), kind === 'pair' ? undefined : factOf('pairs', 'kind', kind), cellFact(plan, row, 'retired')),
    ...factLine(idFact(plan, { name: say('hover.male'), sheet: 'fish', id: male }), idFact(plan, { name: say('hover.female'), sheet: 'fish', id: female }), fact('kinship')),
    ...factLine(fact('clutches'), fact('last_spawned'), idFact(plan, { name: say('hover.last-clutch'), sheet: 'clutches', id: state?.lastSpawn?.clutch })),
    ...factLine(nextFact(row, plan)),
    ...(state === undefined ? [] : agendaFacts(state.agenda, plan)),
    ...linksTo(row, plan),
  ];
};

function nextFact(row: Row, plan: Plan): Fact | undefined {
  const told = explained(plan, row, 'next_spawn_expected');
  if (told?.window === undefined || told.value === '') return undefined;
  return { name: say('hover.next-spawn'), pieces: [{ text: told.value }], behind: [{ text: say('hover.between', told.window.from, told.window.to) }] };
}
