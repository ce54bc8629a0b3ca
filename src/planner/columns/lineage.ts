import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import type { Row } from '../../records/row';
import type { ExplainedInput } from '../explanation';
import { parentsOf } from '../lineages';
import { placeOf } from '../places';
import type { PairState, PlanView } from '../states';
import type { Column } from './column';
import { cellInput } from './inputs';

/** Four decimals, as kinship and inbreeding are shown. */
export function kinshipText(value: number | undefined): string {
  return value === undefined ? '' : value.toFixed(4);
}

export const kinship: Column<PairState> = {
  header: 'kinship',
  value: ({ pair: { male, female } }, { pedigree }) => (male === undefined || female === undefined ? '' : kinshipText(pedigree.kinship(male, female))),
  explain({ pair }, view) {
    const { male, female } = pair;
    const inputs = [cellInput(pair.row, 'male', view), cellInput(pair.row, 'female', view)];
    if (male === undefined || female === undefined) return { formula: say('why.kinship'), inputs, notes: [say('why.kinship.no-fish')] };
    const isKnown = view.pedigree.kinship(male, female) !== undefined;
    return { formula: say('why.kinship'), inputs: [...inputs, ...parentInputs(male, view), ...parentInputs(female, view)], notes: isKnown ? [] : emptyNotes([male, female], view) };
  },
};

export const inbreeding: Column<Row> = {
  header: 'inbreeding_f',
  value: (row, { pedigree }) => kinshipText(pedigree.inbreeding(row.value(0) as string)),
  explain(row, view) {
    const fish = row.value(0) as string;
    const { sire, dam } = parentsOf(row, view.records);
    const isKnown = view.pedigree.inbreeding(fish) !== undefined;
    const founder = sire === undefined || dam === undefined ? [say('why.inbreeding.founder')] : [];
    return { formula: say('why.inbreeding'), inputs: parentInputs(fish, view), notes: isKnown ? founder : emptyNotes([sire ?? fish, dam ?? fish], view) };
  },
};

/** Who a fish's parents are, and where that stands: in its own row, its clutch's or that clutch's pair. */
function parentInputs(fish: string, view: PlanView): readonly ExplainedInput[] {
  const row = view.records.index('fish').row(fish);
  if (row === undefined) return [];
  const { sire, dam, clutch, pair } = parentsOf(row, view.records);
  const place = (name: 'sire' | 'dam'): ExplainedInput['place'] => {
    const own = cellInput(row, name, view);
    if (own.value !== '') return own.place;
    const ofClutch = clutch === undefined ? undefined : cellInput(clutch, name, view);
    if (ofClutch !== undefined && ofClutch.value !== '') return ofClutch.place;
    return pair === undefined ? undefined : placeOf({ row: pair, header: name === 'sire' ? 'male' : 'female' }, view.records);
  };
  return [
    { name: say('input.sire', fish), value: sire ?? '', place: place('sire') },
    { name: say('input.dam', fish), value: dam ?? '', place: place('dam') },
  ];
}

function emptyNotes(fish: readonly string[], { pedigree }: PlanView): readonly Message[] {
  const loop = fish.find((id) => pedigree.inbreeding(id) === undefined);
  return [loop === undefined ? say('why.kinship.origin') : say('why.kinship.unknown', loop)];
}
