import { hasCome } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { valueOf } from '../records/things';
import type { PlanView } from './states';

/** The species that live in some tanks, by id: of clutches that stand there, pairs whose tank it is, and fish that are kept there. */
export function speciesIn(tanks: readonly string[], view: PlanView): readonly string[] {
  const { records, now } = view;
  const species = new Set<string>();
  const add = (id: string | undefined): void => {
    if (id !== undefined) species.add(id);
  };
  for (const tank of tanks) {
    for (const state of view.standingIn(tank)) add(state.species);
    for (const pair of view.pairsIn(tank)) {
      const known = records.pair(pair);
      if (!hasCome(known?.retired, now)) add(known?.species);
    }
    for (const row of fishIn(tank, view)) {
      const left = valueOf(row, 'fish', 'left') as Moment | undefined;
      if (!hasCome(left, now)) add(valueOf(row, 'fish', 'species') as string | undefined);
    }
  }
  return [...species].sort();
}

const fish = new WeakMap<SheetFile['doc'], ReadonlyMap<string, readonly Row[]>>();

/** Rows of `fish.csv` by tank, gathered once for each text of it. */
function fishIn(tank: string, { records }: PlanView): readonly Row[] {
  const file = records.file('fish.csv');
  if (file === undefined) return [];
  let byTank = fish.get(file.doc) as Map<string, Row[]> | undefined;
  if (byTank === undefined) {
    byTank = new Map();
    for (const row of file.rows()) {
      const id = valueOf(row, 'fish', 'tank') as string | undefined;
      if (id === undefined) continue;
      const there = byTank.get(id);
      if (there === undefined) byTank.set(id, [row]);
      else there.push(row);
    }
    fish.set(file.doc, byTank);
  }
  return byTank.get(tank) ?? [];
}
