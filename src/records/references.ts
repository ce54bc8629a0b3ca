import { holdOne } from '../base/held';
import { say } from '../base/messages';
import { schemaNamed } from '../schema/catalog';
import type { Field, SheetName } from '../schema/descriptor';
import { nearest } from '../schema/nearest';
import { slotOf } from '../schema/slots';
import { NO_HEADER } from './header';
import type { IdIndex } from './idIndex';
import type { CellFault, Row } from './row';
import type { SheetFile } from './sheetFile';

/** One id that a cell names. */
export interface Reference {
  readonly sheet: SheetName;
  readonly id: string;
  readonly column: number;
}

/** What may be named: the ids of a sheet, or undefined where the sheet isn't there or can't be read. */
export interface ReferenceTargets {
  readonly index: (sheet: SheetName) => IdIndex | undefined;
  readonly isBuiltIn: (sheet: SheetName, id: string) => boolean;
}

type SheetLike = Pick<SheetFile, 'header' | 'schema'>;

interface ReferringColumn {
  readonly column: number;
  readonly slot: number;
  readonly field: Field;
}

const referring = new WeakMap<object, readonly ReferringColumn[]>();

function referringColumns(file: SheetLike): readonly ReferringColumn[] {
  let columns = referring.get(file.header);
  if (columns === undefined) {
    columns = file.header.columns.flatMap(({ field, slot }, column) =>
      field !== undefined && slot >= 0 && (field.references !== undefined || field.referencesBy !== undefined) ? [{ column, slot, field }] : [],
    );
    referring.set(file.header, columns);
  }
  return columns;
}

/** The sheet that a cell refers to where another cell of the row says which; undefined where that says none. */
export function sheetReferredTo(file: SheetLike, row: Row, field: Field): SheetName | undefined {
  const by = field.referencesBy;
  if (by === undefined) return undefined;
  const slot = slotOf(file.schema, by.field);
  return by.sheets[row.value(slot) as string];
}

/** Whether any cell of the file may name something. */
export function mayRefer(file: SheetFile): boolean {
  return referringColumns(file).length > 0;
}

/** Everything that the row names, whether it is there or not. */
export function referencesOf(file: SheetFile, row: Row): readonly Reference[] {
  const found: Reference[] = [];
  for (const { column, slot, field } of referringColumns(file)) {
    const value = row.value(slot);
    const sheet = value === undefined ? undefined : (field.references ?? sheetReferredTo(file, row, field));
    if (sheet === undefined) continue;
    if (typeof value === 'string') found.push({ sheet, id: value, column });
    else for (const id of value as readonly string[]) found.push({ sheet, id, column });
  }
  return found;
}

/** Whether a cell of the row names a thing. Makes no list, since long sheets are asked row by row. */
export function refersTo(file: SheetFile, row: Row, { sheet, id }: { readonly sheet: SheetName; readonly id: string }): boolean {
  for (const { slot, field } of referringColumns(file)) {
    const value = row.value(slot);
    if (value === undefined || (typeof value === 'string' ? value !== id : !(value as readonly string[]).includes(id))) continue;
    if ((field.references ?? sheetReferredTo(file, row, field)) === sheet) return true;
  }
  return false;
}

/** Looks in row after row of a file for references into sheets that are there but don't have the id. */
export class ReferenceCheck {
  readonly #file: SheetLike;
  readonly #targets: ReferenceTargets;
  /** The sheet and index of a column that always names things of one sheet, which are looked up once for all rows. */
  readonly #columns: readonly (ReferringColumn & { readonly named: SheetName | undefined; readonly index: IdIndex | undefined })[];

  constructor(file: SheetLike, targets: ReferenceTargets) {
    this.#file = file;
    this.#targets = targets;
    this.#columns = referringColumns(file).map(({ column, slot, field }) => {
      const named = field.references;
      return { column, slot, field, named, index: named === undefined ? undefined : targets.index(named) };
    });
  }

  unknownIn(row: Row): readonly Reference[] {
    let unknown: Reference[] | undefined;
    for (const { column, slot, field, named, index } of this.#columns) {
      if (index === undefined && named !== undefined) continue;
      const value = row.value(slot);
      if (value === undefined) continue;
      const sheet = named ?? sheetReferredTo(this.#file, row, field);
      const ids = sheet === undefined ? undefined : (index ?? this.#targets.index(sheet));
      if (sheet === undefined || ids === undefined) continue;
      if (typeof value === 'string') {
        if (!ids.has(value) && !this.#targets.isBuiltIn(sheet, value)) (unknown ??= []).push({ sheet, id: value, column });
      } else {
        for (const id of value as readonly string[]) if (!ids.has(id)) (unknown ??= []).push({ sheet, id, column });
      }
    }
    return unknown ?? NO_REFERENCES;
  }
}

holdOne(new ReferenceCheck({ header: NO_HEADER, schema: schemaNamed('clutches') }, { index: () => undefined, isBuiltIn: () => false }));

/** Of most rows. */
export const NO_REFERENCES: readonly Reference[] = [];

/** What an id of a sheet is called in a sentence. */
const nouns = {
  tanks: 'ref-unknown.tank',
  pairs: 'ref-unknown.pair',
  clutches: 'ref-unknown.clutch',
  species: 'ref-unknown.species',
  rooms: 'ref-unknown.room',
  orders: 'ref-unknown.order',
  fish: 'ref-unknown.fish',
} as const;

/**
 * Tells each unknown reference of a file, with the id that was likely meant. Looking for that stops after a number of
 * comparisons, so that a file of nothing but strange ids costs no more than a long one.
 */
export function tellUnknown(references: readonly { readonly row: Row; readonly reference: Reference; readonly cell: string }[], targets: ReferenceTargets): readonly { readonly row: Row; readonly fault: CellFault }[] {
  let budget = 4_000_000;
  const known = new Map<string, string | undefined>();
  return references.map(({ row, reference: { sheet, id, column }, cell }) => {
    const index = targets.index(sheet);
    const key = `${sheet} ${id}`;
    if (index !== undefined && !known.has(key)) {
      budget -= index.size;
      known.set(key, budget < 0 ? undefined : nearest(id, index.ids()));
    }
    const near = known.get(key);
    const base = sheet in nouns ? nouns[sheet as keyof typeof nouns] : 'ref-unknown.thing';
    if (near === undefined) return { row, fault: { code: 'ref-unknown', column, message: say(base, id, `${sheet}.csv`), suggestions: [] } };
    const suggestion = cell.split(/(\s+)/).map((part) => (part === id ? near : part)).join('');
    return { row, fault: { code: 'ref-unknown', column, message: say(`${base}.near`, id, `${sheet}.csv`, near), suggestions: [suggestion] } };
  });
}
