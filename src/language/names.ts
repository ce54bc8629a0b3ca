import type { Plan } from '../planner/plan';
import type { Place } from '../planner/problem';
import type { Row } from '../records/row';
import { schemaNamed } from '../schema/catalog';
import { slotOf } from '../schema/slots';
import { keyPlace } from './ids';

/** A thing that was found by a part of its name. */
export interface FoundName {
  readonly sheet: Searched;
  readonly id: string;
  /** What else it is called or told by: a clutch's species, an order's buyer; '' where there is nothing. */
  readonly detail: string;
  readonly place: Place;
}

/** The registers that are searched, in the order in which things are listed that fit equally well. */
const searched = ['clutches', 'tanks', 'pairs', 'fish', 'orders', 'rooms'] as const;
type Searched = (typeof searched)[number];

/** The columns that tell their things beside the id, at most two; a clutch's second stands for its first where that is empty. */
const details: Readonly<Record<Searched, readonly string[]>> = {
  clutches: ['species', 'pair'],
  tanks: ['room', 'position'],
  pairs: ['species'],
  fish: ['species', 'sex'],
  orders: ['buyer', 'species'],
  rooms: ['name'],
};

/** How well a thing fits; the less the better. */
const fits = ['id', 'begins', 'holds', 'detail', 'letters'] as const;
type Fit = (typeof fits)[number];

/**
 * Clutches, tanks, pairs, fish, orders and rooms whose id or detail holds the query, or its letters in their order, whatever the case; the best first, no
 * more than `most`. An empty query finds all. Looks at every thing once.
 */
export function findNames(plan: Plan, query: string, most: number): readonly FoundName[] {
  const wanted = query.toLowerCase().replaceAll(/\s+/g, ' ').trim();
  const found: { readonly sheet: Searched; readonly id: string; readonly row: Row }[][] = fits.map(() => []);
  const detailOf = detailsIn(plan);
  for (const sheet of searched) {
    const index = plan.records.index(sheet);
    for (const id of index.ids()) {
      const lower = id.toLowerCase();
      let fit = fitOfId(lower, wanted);
      // What fits less well isn't wanted any more once there is enough of the better.
      if (fit === undefined && !areEnough(found, most)) {
        const row = index.row(id);
        if (row !== undefined) fit = fitOfAll(`${lower} ${detailOf(row, sheet).toLowerCase()}`, wanted);
      }
      const group = fit === undefined ? undefined : found[fits.indexOf(fit)];
      const row = group === undefined || group.length >= most ? undefined : index.row(id);
      if (row !== undefined) group?.push({ sheet, id, row });
    }
  }
  const best = found.flat().slice(0, most);
  return best.flatMap(({ sheet, id, row }) => {
    const place = keyPlace(plan, { sheet, id });
    return place === undefined ? [] : { sheet, id, detail: detailOf(row, sheet), place };
  });
}

/** Whether so many fit by id or detail that nothing found by its detail or letters is wanted any more. */
function areEnough(found: readonly (readonly unknown[])[], most: number): boolean {
  let better = 0;
  for (let i = 0; i <= fits.indexOf('detail'); i++) better += (found[i] as readonly unknown[]).length;
  return better >= most;
}

function fitOfId(id: string, wanted: string): Fit | undefined {
  const at = id.indexOf(wanted);
  if (at < 0) return undefined;
  return at > 0 ? 'holds' : id.length === wanted.length ? 'id' : 'begins';
}

function fitOfAll(text: string, wanted: string): Fit | undefined {
  if (wanted.split(' ').every((word) => text.includes(word))) return 'detail';
  let at = 0;
  for (const letter of wanted) {
    if (letter === ' ') continue;
    const next = text.indexOf(letter, at);
    if (next < 0) return undefined;
    at = next + letter.length;
  }
  return 'letters';
}

/** Gives details of row after row; what they have in common is looked up once. */
function detailsIn(plan: Plan): (row: Row, sheet: Searched) => string {
  const slots = new Map(searched.map((sheet) => [sheet, details[sheet].map((name) => slotOf(schemaNamed(sheet), name))]));
  const ofPair = new Map<string, string | undefined>();
  const speciesOf = (pair: string): string | undefined => {
    if (!ofPair.has(pair)) ofPair.set(pair, plan.records.pair(pair)?.species);
    return ofPair.get(pair);
  };
  return (row, sheet) => {
    const [first = -1, second = -1] = slots.get(sheet) ?? [];
    const [own, other] = [row.value(first), row.value(second)];
    if (sheet === 'clutches') return (own as string | undefined) ?? (typeof other === 'string' ? speciesOf(other) : undefined) ?? '';
    return [own, other].filter((part) => typeof part === 'string').join(' ');
  };
}
