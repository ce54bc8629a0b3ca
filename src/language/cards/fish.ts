import { say } from '../../base/messages';
import { parentsOf } from '../../planner/lineages';
import { valueOf } from '../../records/things';
import { rowNamed } from '../ids';
import { cellFact, computedFact, factLine, idFact, linksTo } from './card';
import type { Card } from './card';

const sexes = { m: 'hover.sex.m', f: 'hover.sex.f', u: 'hover.sex.u' } as const;

/** Its sex, its parents, how inbred it is, and where it lives. */
export const fishCard: Card = (id, plan) => {
  const row = rowNamed(plan, { sheet: 'fish', id });
  if (row === undefined) return [];
  const text = (header: string): string | undefined => valueOf(row, 'fish', header) as string | undefined;
  const sex = text('sex') as keyof typeof sexes | undefined;
  const { sire, dam } = parentsOf(row, plan.records);
  return [
    ...factLine(
      idFact(plan, { name: say('hover.species'), sheet: 'species', id: text('species') }),
      sex === undefined ? undefined : { name: say('hover.sex'), pieces: [{ text: say(sexes[sex]) }] },
      idFact(plan, { name: say('hover.tank'), sheet: 'tanks', id: text('tank') }),
    ),
    ...factLine(idFact(plan, { name: say('hover.sire'), sheet: 'fish', id: sire }), idFact(plan, { name: say('hover.dam'), sheet: 'fish', id: dam }), computedFact(plan, row, 'inbreeding_f')),
    ...factLine(idFact(plan, { name: say('hover.clutch'), sheet: 'clutches', id: text('clutch') }), cellFact(plan, row, 'origin'), cellFact(plan, row, 'born'), cellFact(plan, row, 'left')),
    ...linksTo(row, plan),
  ];
};
