import { say } from '../../base/messages';
import type { Plan } from '../../planner/plan';
import { profileCell } from '../../records/profiles';
import type { Fact } from '../hoverText';
import { rowNamed } from '../ids';
import { meaningOf } from '../words';
import { factLine, factOf, linksTo } from './card';
import type { Card } from './card';

const times = ['hatch_h', 'first_feed_h', 'free_swim_h', 'release_d', 'strip_d', 'juvenile_d', 'sale_d', 'interval_d'] as const;
const sizes = ['hatch_mm', 'sale_mm', 'max_mm', 'feeds_per_day'] as const;
const water = ['ref_temp_c', 'temp_min_c', 'temp_max_c', 'ph_min', 'ph_max'] as const;

/** How it cares for its brood and how long things take, from the keeper's row and what comes with the tool. */
export const speciesCard: Card = (id, plan) => {
  const row = rowNamed(plan, { sheet: 'species', id });
  if (row === undefined && !plan.records.targets.isBuiltIn('species', id)) return [];
  const fact = (header: string): Fact | undefined => factOf('species', header, cellOf(id, header, plan));
  const care = cellOf(id, 'care', plan);
  const meaning = care === undefined ? undefined : meaningOf('care', care);
  return [
    ...factLine(fact('common_name'), fact('scientific_name')),
    ...factLine(fact('care')),
    ...(meaning === undefined ? [] : [{ kind: 'text', text: meaning } as const]),
    ...factLine(...times.map(fact)),
    ...factLine(...sizes.map(fact)),
    ...factLine(...water.map(fact)),
    ...(row === undefined ? [{ kind: 'text', text: say('hover.built-in') } as const] : linksTo(row, plan)),
  ];
};

function cellOf(species: string, header: string, plan: Plan): string | undefined {
  const value = profileCell(species, header, (id) => rowNamed(plan, { sheet: 'species', id }))?.value;
  return typeof value === 'string' || typeof value === 'number' ? String(value) : undefined;
}
