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
const numbers = schema.fields.filter(({ type, computed, unitOf }) => type === 'number' && !computed && unitOf === undefined).map(({ name }) => name as SpeciesNumber);

let builtIn: ReadonlyMap<string, Row> | undefined;

function builtInRows(): ReadonlyMap<string, Row> {
  if (builtIn === undefined) {
    const file = new SheetFile(BUILT_IN_SPECIES, schema, undefined);
    file.replace({ text: defaultSpeciesText }, { zone: zoneOf('UTC') as Zone, extraColumns: new Set() });
    builtIn = new Map([...file.rows()].map((row) => [row.values[0] as string, row]));
  }
  return builtIn;
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
  const like = slots.get('like') as number;
  const seen = new Set<string>();
  for (let at: string | undefined = species; at !== undefined && !seen.has(at); ) {
    seen.add(at);
    const own = rowOf(at);
    const shipped = builtInRows().get(at);
    for (const row of [own, shipped]) {
      const value = row?.values[slot];
      if (row !== undefined && value !== undefined) return { value, row, source: row.values[slots.get('source') as number] as string | undefined };
    }
    at = (own?.values[like] ?? shipped?.values[like]) as string | undefined;
  }
  return undefined;
}

/** Everything known of a species; undefined where nobody says how it cares for its brood. */
export function readProfile(species: string, rowOf: (species: string) => Row | undefined): Profile | undefined {
  const care = profileCell(species, 'care', rowOf)?.value as Care | undefined;
  if (care === undefined) return undefined;
  const profile: { -readonly [Key in keyof Profile]: Profile[Key] } = { species, care };
  for (const name of numbers) {
    const cell = profileCell(species, name, rowOf);
    if (cell !== undefined) profile[name] = cell.value as number;
  }
  return profile;
}
