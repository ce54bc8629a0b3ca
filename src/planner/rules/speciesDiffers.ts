import { say } from '../../base/messages';
import { valueOf } from '../../records/things';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { ClutchState, PairState, PlanView } from '../states';

/** A clutch of another species than its pair. The clutch's own holds. */
export function clutchSpeciesDiffers({ clutch, row }: ClutchState, view: PlanView): readonly Found[] {
  if (clutch.species === undefined || clutch.pair === undefined) return NOTHING;
  const pair = view.records.pair(clutch.pair);
  if (pair?.species === undefined || pair.species === clutch.species) return NOTHING;
  return [
    {
      row,
      owner: row,
      header: 'species',
      code: 'species-differs',
      message: say('species-differs.clutch', clutch.species, pair.pair, pair.species),
      related: [{ row: pair.row, header: 'species', message: say('related.pair', pair.pair) }],
    },
  ];
}

/** A pair with a fish of another species. */
export function pairSpeciesDiffers({ pair }: PairState, view: PlanView): readonly Found[] {
  const found: Found[] = [];
  for (const header of ['male', 'female'] as const) {
    const id = pair[header];
    const fish = id === undefined ? undefined : view.records.index('fish').row(id);
    const species = fish === undefined ? undefined : (valueOf(fish, 'fish', 'species') as string | undefined);
    if (fish === undefined || species === undefined || pair.species === undefined || species === pair.species) continue;
    found.push({
      row: pair.row,
      owner: pair.row,
      header,
      code: 'species-differs',
      message: say('species-differs.fish', id ?? '', species, pair.species),
      related: [{ row: fish, header: 'species', message: say('related.fish', id ?? '') }],
    });
  }
  return found;
}
