import { holdOne } from '../base/held';
import type { SheetName } from '../schema/descriptor';
import type { Row } from './row';
import { RowSet } from './rowSet';

/** What a change of files touched, by ids. */
export class Changes {
  /** The zone or the reading of cells changed: nothing is as it was. */
  everything = false;
  /** Files whose text changed, or whose references are good or bad anew. */
  readonly files = new Set<string>();
  readonly clutches = new Set<string>();
  /** Rows of the register of clutches that came; their ids are not among `clutches`. */
  readonly clutchRows = new RowSet();
  /** Those that went. */
  readonly clutchRowsGone = new RowSet();

  /** In one batch a row may come and go again. */
  noteClutchRows(rows: readonly Row[], way: 'add' | 'remove'): void {
    const [to, from] = way === 'add' ? [this.clutchRows, this.clutchRowsGone] : [this.clutchRowsGone, this.clutchRows];
    if (from.size > 0) for (const row of rows) from.delete(row);
    to.addNew(rows);
  }
  /** Pairs whose own row changed, and pairs that a clutch came to or left. */
  readonly pairs = new Set<string>();
  readonly pairRows = new Set<string>();
  readonly tanks = new Set<string>();
  /** Tanks whose readings or usual temperature changed. */
  readonly readings = new Set<string>();
  /** Rooms in which something was measured or is so no more, and systems that a tank came to or left. */
  readonly roomReadings = new Set<string>();
  readonly systems = new Set<string>();
  readonly rooms = new Set<string>();
  readonly species = new Set<string>();
  readonly fish = new Set<string>();
  readonly cultures = new Set<string>();
  readonly others = new Set<SheetName>();
  /** Sheets that came, went, or turned readable or not. */
  readonly appeared = new Set<SheetName>();
  readonly #ids = new Map<SheetName, { readonly come: Set<string>; readonly gone: Set<string> }>();

  /** Sheets that were not there or not readable before: all of their ids are new, and nobody need be told which. */
  readonly fresh = new Set<SheetName>();

  noteId(sheet: SheetName, id: string, way: 'add' | 'remove'): void {
    if (this.fresh.has(sheet)) return;
    let ids = this.#ids.get(sheet);
    if (ids === undefined) this.#ids.set(sheet, (ids = { come: new Set(), gone: new Set() }));
    const [to, from] = way === 'add' ? [ids.come, ids.gone] : [ids.gone, ids.come];
    if (from.size === 0 || !from.delete(id)) to.add(id);
  }

  /** Whether an id is in a sheet that wasn't before. */
  isNew(sheet: SheetName, id: string): boolean {
    return this.#ids.get(sheet)?.come.has(id) === true;
  }

  sheetsWithOtherIds(): readonly SheetName[] {
    return [...this.#ids].filter(([, { come, gone }]) => come.size + gone.size > 0).map(([sheet]) => sheet);
  }

  /** Ids that came or went. */
  idsOf(sheet: SheetName): readonly string[] {
    const ids = this.#ids.get(sheet);
    return ids === undefined ? [] : [...ids.come, ...ids.gone];
  }

  /** Sheets from which an id is gone. */
  sheetsWithGone(): readonly SheetName[] {
    return [...this.#ids].filter(([, { gone }]) => gone.size > 0).map(([sheet]) => sheet);
  }
}

holdOne(new Changes());
