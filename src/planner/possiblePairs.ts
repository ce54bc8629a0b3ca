import { compareTexts } from '../base/order';
import { hasCome } from '../base/moment';
import type { Moment } from '../base/moment';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';
import type { PlanView } from './states';

/** A male and a female that could be put together. */
export interface PossiblePair {
  readonly male: string;
  readonly female: string;
  /** How inbred their young would be; undefined where it can't be known. */
  readonly kinship: number | undefined;
  /** They are a pair already. */
  readonly pair: string | undefined;
}

/**
 * The pairs that could be made of a species' fish that are still there, the least related first, those of which it can't
 * be known last; no more than `most`.
 */
export function possiblePairs(species: string, most: number, { records, pedigree, now }: PlanView): readonly PossiblePair[] {
  const isThere = (row: Row): boolean => {
    const left = valueOf(row, 'fish', 'left') as Moment | undefined;
    return !hasCome(left, now);
  };
  const fish = [...(records.file('fish.csv')?.rows() ?? [])].filter((row) => valueOf(row, 'fish', 'species') === species && records.index('fish').row(keyText(row)) === row && isThere(row));
  const ofSex = (sex: 'm' | 'f'): readonly string[] => fish.filter((row) => valueOf(row, 'fish', 'sex') === sex).map(keyText).sort();
  const females = ofSex('f');
  const pairs = new Map<string, string>();
  for (const id of records.index('pairs').ids()) {
    const pair = records.pair(id);
    if (pair?.male !== undefined && pair.female !== undefined && !hasCome(pair.retired, now)) pairs.set(`${pair.male} ${pair.female}`, id);
  }
  let best: PossiblePair[] = [];
  for (const male of ofSex('m')) {
    pedigree.kinshipWith(male, females).forEach((kinship, i) => {
      const female = females[i] as string;
      best.push({ male, female, kinship, pair: pairs.get(`${male} ${female}`) });
    });
    if (best.length > 4 * most) best = best.sort(byKinship).slice(0, most);
  }
  return best.sort(byKinship).slice(0, most);
}

function byKinship(a: PossiblePair, b: PossiblePair): number {
  return (a.kinship ?? 2) - (b.kinship ?? 2) || compareTexts(a.male, b.male) || compareTexts(a.female, b.female);
}
