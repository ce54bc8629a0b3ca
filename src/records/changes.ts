import type { SheetName } from '../schema/descriptor';

/** What a change of files touched, by ids. */
export class Changes {
  /** The zone or the reading of cells changed: nothing is as it was. */
  everything = false;
  /** Files whose text changed, or whose references are good or bad anew. */
  readonly files = new Set<string>();
  readonly clutches = new Set<string>();
  readonly pairs = new Set<string>();
  readonly tanks = new Set<string>();
  /** Tanks whose readings or usual temperature changed. */
  readonly readings = new Set<string>();
  readonly rooms = new Set<string>();
  readonly species = new Set<string>();
  readonly others = new Set<SheetName>();
  /** Sheets that came, went, or turned readable or not. */
  readonly appeared = new Set<SheetName>();
  readonly #new = new Set<string>();
  readonly #gone = new Set<string>();

  noteId(sheet: SheetName, id: string, way: 'add' | 'remove'): void {
    const key = `${sheet} ${id}`;
    const [to, from] = way === 'add' ? [this.#new, this.#gone] : [this.#gone, this.#new];
    if (!from.delete(key)) to.add(key);
  }

  /** `sheet id` of ids that are there now and weren't before. */
  idsNew(): ReadonlySet<string> {
    return this.#new;
  }

  idsGone(): ReadonlySet<string> {
    return this.#gone;
  }
}
