import { Pedigree } from '../domain/kinship';
import type { Lineage } from '../domain/kinship';
import type { Changes } from '../records/changes';
import type { Records } from '../records/records';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';

/** What is known of a fish's parents, and where that stands. */
export interface Parents {
  readonly sire: string | undefined;
  readonly dam: string | undefined;
  /** The clutch that it came from, and that clutch's pair, where they say who a parent is. */
  readonly clutch: Row | undefined;
  readonly pair: Row | undefined;
}

/** A fish's own `sire` and `dam`; what is blank is taken from its clutch, else from that clutch's pair. */
export function parentsOf(fish: Row, records: Records): Parents {
  const own = (name: 'sire' | 'dam' | 'clutch'): string | undefined => valueOf(fish, 'fish', name) as string | undefined;
  const id = own('clutch');
  const clutch = id === undefined ? undefined : records.index('clutches').row(id);
  const pairId = clutch === undefined ? undefined : (valueOf(clutch, 'clutches', 'pair') as string | undefined);
  const pair = pairId === undefined ? undefined : records.pair(pairId);
  const ofClutch = (name: 'sire' | 'dam'): string | undefined => (clutch === undefined ? undefined : (valueOf(clutch, 'clutches', name) as string | undefined));
  return { sire: own('sire') ?? ofClutch('sire') ?? pair?.male, dam: own('dam') ?? ofClutch('dam') ?? pair?.female, clutch, pair: pair?.row };
}

/** The descent of all fish of `fish.csv`, made anew only when it is another. */
export class Lineages {
  readonly #records: Records;
  #pedigree = new Pedigree([]);
  #key = '';
  /** Clutches and pairs that say who the parents of a fish are. */
  readonly #named = { clutches: new Set<string>(), pairs: new Set<string>() };

  constructor(records: Records) {
    this.#records = records;
  }

  get pedigree(): Pedigree {
    return this.#pedigree;
  }

  /** Looks again where a change may matter; tells whether the descent of any fish is another now. */
  update(changes: Changes): boolean {
    if (!this.#mayMatter(changes)) return false;
    const { clutches, pairs } = this.#named;
    clutches.clear();
    pairs.clear();
    const all: Lineage[] = [];
    for (const fish of this.#records.index('fish').ids()) {
      const row = this.#records.index('fish').row(fish) as Row;
      const { sire, dam, clutch, pair } = parentsOf(row, this.#records);
      const id = valueOf(row, 'fish', 'clutch') as string | undefined;
      if (id !== undefined) clutches.add(id);
      if (clutch !== undefined) pairs.add((valueOf(clutch, 'clutches', 'pair') as string | undefined) ?? '');
      if (pair !== undefined) pairs.add(pair.value(0) as string);
      all.push({ fish, sire, dam, origin: valueOf(row, 'fish', 'origin') as string | undefined });
    }
    const key = JSON.stringify(all);
    if (key === this.#key) return false;
    this.#key = key;
    this.#pedigree = new Pedigree(all);
    return true;
  }

  #mayMatter({ everything, fish, clutchRows, clutchRowsGone, pairRows }: Changes): boolean {
    if (everything || fish.size > 0) return true;
    const { clutches, pairs } = this.#named;
    if (clutches.size === 0) return false;
    for (const rows of [clutchRows, clutchRowsGone]) for (const row of rows) if (clutches.has(row.value(0) as string)) return true;
    for (const pair of pairRows) if (pairs.has(pair)) return true;
    return false;
  }
}
