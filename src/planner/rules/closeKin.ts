import { say } from '../../base/messages';
import { hasCome } from '../../base/moment';
import type { SheetFile } from '../../records/sheetFile';
import { kinshipText } from '../columns/lineage';
import type { Found } from '../found';
import type { PairState, PlanView } from '../states';

/** Kinship of half sibs: what comes of such a pair is inbred by an eighth. Common practice, no source. */
const CLOSE = 0.125;

/** A pair that is as close as half sibs or closer. */
export function closeKin({ pair }: PairState, { pedigree, records, now }: PlanView): readonly Found[] {
  const { male, female, row } = pair;
  if (male === undefined || female === undefined || hasCome(pair.retired, now)) return [];
  const kinship = pedigree.kinship(male, female);
  if (kinship === undefined || kinship < CLOSE) return [];
  const related = [male, female].flatMap((fish) => {
    const place = records.index('fish').row(fish);
    return place === undefined ? [] : [{ row: place, header: undefined, message: say('related.fish', fish) }];
  });
  const message = say(kinship >= 2 * CLOSE ? 'close-kin.sibs' : 'close-kin.half-sibs', male, female, kinshipText(kinship));
  return [{ row, owner: row, header: undefined, code: 'close-kin', message, related }];
}

/** Fish that are their own ancestors. */
export function lineageLoops({ path }: SheetFile, { pedigree, records }: PlanView): readonly Found[] {
  return [...pedigree.loops].flatMap((fish) => {
    const row = records.index('fish').row(fish);
    if (row?.path !== path) return [];
    return [{ row, owner: row, header: undefined, code: 'lineage-loop' as const, message: say('lineage-loop', fish), related: [] }];
  });
}
