import { zoneOf } from '../base/zone';
import type { Zone } from '../base/zone';
import type { Care, Profile, SpeciesNumber } from '../domain/things';
import { schemaNamed } from '../schema/catalog';
import { defaultSpeciesText } from '../schema/defaults';
import type { Value } from '../schema/value';
import type { Row } from './row';
import { SheetFile } from './sheetFile';

/** The name that stands for the species list that comes with the tool, where a file's path is told. */
export const BUILT_IN_SPECIES = 'built-in species.csv';

const schema = schemaNamed('species');
const slots = new Map(schema.fields.map(({ name }, slot) => [name, slot]));
const [careSlot, likeSlot] = [slots.get('care') as number, slots.get('like') as number];
const numberSlots = schema.fields
  .filter(({ type, computed, unitOf }) => type === 'number' && !computed && unitOf === undefined)
  .map(({ name }) => [name as SpeciesNumber, slots.get(name) as number] as const);

let builtIn: ReadonlyMap<string, Row> | undefined;

function builtInRows(): ReadonlyMap<string, Row> {
  if (builtIn === undefined) {
    const file = new SheetFile(BUILT_IN_SPECIES, schema, undefined);
    file.replace({ text: defaultSpeciesText }, { zone: zoneOf('UTC') as Zone, extraColumns: new Set() });
    builtIn = new Map([...file.rows()].map((row) => [row.value(0) as string, row]));
  }
  return builtIn;
}

/** The species that come with the tool, by their names. */
export function builtInSpecies(): Iterable<string> {
  return builtInRows().keys();
}

export function isBuiltInSpecies(species: string): boolean {
  return builtInRows().has(species);
}

/** Where a number of a profile came from. */
export interface ProfileCell {
  readonly value: Value;
  readonly row: Row;
  /** What the row gives as its source; undefined where it gives none. */
  readonly source: string | undefined;
}

/**
 * The cell that holds for a species: the keeper's own row, then the built-in row of the same key, then the row that it is
 * `like`, filled cell by filled cell. A ring of `like` ends where it closes.
 */
export function profileCell(species: string, name: string, rowOf: (species: string) => Row | undefined): ProfileCell | undefined {
  const slot = slots.get(name);
  if (slot === undefined) throw new Error(`species.csv has no column ${name}`);
  const seen = new Set<string>();
  for (let at: string | undefined = species; at !== undefined && !seen.has(at); ) {
    seen.add(at);
    const own = rowOf(at);
    const shipped = builtInRows().get(at);
    for (const row of [own, shipped]) {
      const value = row?.value(slot);
      if (row !== undefined && value !== undefined) return { value, row, source: row.value(slots.get('source') as number) as string | undefined };
    }
    at = (own?.value(likeSlot) ?? shipped?.value(likeSlot)) as string | undefined;
  }
  return undefined;
}

/** What is said of a species, as far as anything is. */
type Said = Readonly<Partial<Record<SpeciesNumber, number>>> & { readonly care?: Care };

const NOTHING_SAID: Said = {};

/** The profiles of a fishroom's species. Each is worked out once, from that of the species that it is `like`. */
export class Profiles {
  readonly #rowOf: (species: string) => Row | undefined;
  readonly #said = new Map<string, Said>();
  readonly #profiles = new Map<string, Profile | undefined>();

  constructor(rowOf: (species: string) => Row | undefined) {
    this.#rowOf = rowOf;
  }

  /** Everything known of a species; undefined where nobody says how it cares for its brood. */
  of(species: string): Profile | undefined {
    if (!this.#profiles.has(species)) {
      const said = this.#saidOf(species);
      this.#profiles.set(species, said.care === undefined ? undefined : { species, ...said, care: said.care });
    }
    return this.#profiles.get(species);
  }

  /** Species that somebody asked for. */
  asked(): IterableIterator<string> {
    return this.#profiles.keys();
  }

  clear(): void {
    this.#said.clear();
    this.#profiles.clear();
  }

  /** Follows `like` to its end, or to one that is known, and comes back from there. */
  #saidOf(species: string): Said {
    const way = new Set<string>();
    let at: string | undefined = species;
    while (at !== undefined && !way.has(at) && !this.#said.has(at)) {
      way.add(at);
      at = this.#cell(at, likeSlot) as string | undefined;
    }
    const back = [...way].reverse();
    let said = (at === undefined ? undefined : this.#said.get(at)) ?? NOTHING_SAID;
    // In a ring each is like the one at which it closes, which takes over what all others in it say.
    if (at !== undefined && way.has(at)) for (const member of back.slice(0, back.indexOf(at) + 1)) said = this.#over(said, member);
    for (const member of back) {
      said = this.#over(said, member);
      this.#said.set(member, said);
    }
    return said;
  }

  #over(base: Said, species: string): Said {
    const said: { -readonly [Key in keyof Said]: Said[Key] } = {};
    const care = (this.#cell(species, careSlot) as Care | undefined) ?? base.care;
    if (care !== undefined) said.care = care;
    for (const [name, slot] of numberSlots) {
      const value = (this.#cell(species, slot) as number | undefined) ?? base[name];
      if (value !== undefined) said[name] = value;
    }
    return said;
  }

  #cell(species: string, slot: number): Value {
    return this.#rowOf(species)?.value(slot) ?? builtInRows().get(species)?.value(slot);
  }
}
