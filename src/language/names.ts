import type { Plan } from '../planner/plan';
import type { Place } from '../planner/problem';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';
import { clutchSpecies } from './clutchSpecies';
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

/** The columns that tell their things beside the id. */
const details: Readonly<Record<Exclude<Searched, 'clutches'>, readonly string[]>> = {
  tanks: ['room', 'position'],
  pairs: ['species'],
  fish: ['species', 'sex', 'origin'],
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
  for (const sheet of searched) {
    const index = plan.records.index(sheet);
    for (const id of index.ids()) {
      const row = index.row(id);
      if (row === undefined) continue;
      const fit = fitOfId(id.toLowerCase(), wanted) ?? fitOfAll(`${id} ${detailOf(plan, row, sheet)}`.toLowerCase(), wanted);
      const group = fit === undefined ? undefined : found[fits.indexOf(fit)];
      if (group !== undefined && group.length < most) group.push({ sheet, id, row });
    }
  }
  const best = found.flat().slice(0, most);
  return best.flatMap(({ sheet, id, row }) => {
    const place = keyPlace(plan, { sheet, id });
    return place === undefined ? [] : { sheet, id, detail: detailOf(plan, row, sheet), place };
  });
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

function detailOf(plan: Plan, row: Row, sheet: Searched): string {
  const parts = sheet === 'clutches' ? [clutchSpecies(plan, row)] : details[sheet].map((name) => valueOf(row, sheet, name));
  return parts.filter((part) => typeof part === 'string').join(' ');
}
