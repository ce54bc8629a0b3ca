import { CsvDocument } from '../csv/document';
import type { Care } from '../domain/things';
import { schemaNamed } from '../schema/catalog';
import { defaultSpeciesText } from '../schema/defaults';

/** A species that comes with the tool. */
export interface SpeciesChoice {
  readonly id: string;
  readonly commonName: string;
  readonly scientificName: string;
}

/** The species that come with the tool, as they are listed. */
export function speciesChoices(): readonly SpeciesChoice[] {
  const list = CsvDocument.parse(defaultSpeciesText);
  const headers = Array.from({ length: list.cellCount(0) }, (_, column) => list.value(0, column));
  const [id, common, scientific] = ['species', 'common_name', 'scientific_name'].map((header) => headers.indexOf(header)) as [number, number, number];
  return Array.from({ length: list.rowCount - 1 }, (_, i) => ({ id: list.value(i + 1, id), commonName: list.value(i + 1, common), scientificName: list.value(i + 1, scientific) }));
}

/** The ways to breed among which one is chosen for another species. */
export function cares(): readonly Care[] {
  return (schemaNamed('species').fieldNamed.get('care')?.constraints.enum ?? []) as readonly Care[];
}
