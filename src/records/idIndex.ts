import { asWritten } from './row';
import type { Row } from './row';

/**
 * The ids of one register: which row each stands in. Of several rows with the same id the one written first holds.
 */
export class IdIndex {
  /** The row of an id; several of one id in the order in which they are written. */
  readonly #rows = new Map<string, Row | Row[]>();
  readonly #duplicates = new Set<string>();
  /** Ids by their lower case, made when somebody first asks for clashes and kept from then on. */
  #folded: Map<string, string | Set<string>> | undefined;
  /** The lower cases that several ids share. */
  readonly #shared = new Set<string>();

  get size(): number {
    return this.#rows.size;
  }

  has(id: string): boolean {
    return this.#rows.has(id);
  }

  /** The row that holds for an id: of several, the one written first. */
  row(id: string): Row | undefined {
    const rows = this.#rows.get(id);
    return Array.isArray(rows) ? rows[0] : rows;
  }

  /** All rows with an id, in written order. */
  rows(id: string): readonly Row[] {
    const rows = this.#rows.get(id);
    return Array.isArray(rows) ? rows : rows === undefined ? [] : [rows];
  }

  ids(): IterableIterator<string> {
    return this.#rows.keys();
  }

  get anyDuplicate(): boolean {
    return this.#duplicates.size > 0;
  }

  isDuplicate(id: string): boolean {
    return this.#duplicates.has(id);
  }

  /** Groups of rows whose ids are the same but for case, each in written order. */
  clashes(): readonly (readonly Row[])[] {
    const folded = this.#byCase();
    const keys = new Set(this.#shared);
    for (const id of this.#duplicates) keys.add(id.toLowerCase());
    return [...keys].map((key) => {
      const ids = folded.get(key) ?? key;
      return typeof ids === 'string' ? this.rows(ids) : [...ids].flatMap((id) => this.rows(id)).sort(asWritten);
    });
  }

  /** Returns true when the id is new. */
  add(id: string, row: Row): boolean {
    const there = this.#rows.get(id);
    if (there === undefined) {
      this.#rows.set(id, row);
      if (this.#folded !== undefined) this.#fold(this.#folded, id);
      return true;
    }
    if (Array.isArray(there)) {
      insert(there, row);
    } else {
      this.#rows.set(id, asWritten(there, row) < 0 ? [there, row] : [row, there]);
      this.#duplicates.add(id);
    }
    return false;
  }

  /** Returns true when the id is gone. */
  remove(id: string, row: Row): boolean {
    const there = this.#rows.get(id);
    if (Array.isArray(there)) {
      there.splice(there.indexOf(row), 1);
      if (there.length === 1) {
        this.#rows.set(id, there[0] as Row);
        this.#duplicates.delete(id);
      }
      return false;
    }
    this.#rows.delete(id);
    if (this.#folded !== undefined) this.#unfold(this.#folded, id);
    return true;
  }

  #byCase(): ReadonlyMap<string, string | Set<string>> {
    if (this.#folded === undefined) {
      this.#folded = new Map();
      for (const id of this.#rows.keys()) this.#fold(this.#folded, id);
    }
    return this.#folded;
  }

  #fold(folded: Map<string, string | Set<string>>, id: string): void {
    const key = id.toLowerCase();
    const there = folded.get(key);
    if (there === undefined) {
      folded.set(key, id);
      return;
    }
    this.#shared.add(key);
    if (typeof there === 'string') folded.set(key, new Set([there, id]));
    else there.add(id);
  }

  #unfold(folded: Map<string, string | Set<string>>, id: string): void {
    const key = id.toLowerCase();
    const there = folded.get(key);
    if (typeof there !== 'object') {
      folded.delete(key);
      return;
    }
    there.delete(id);
    if (there.size > 1) return;
    this.#shared.delete(key);
    folded.set(key, there.values().next().value as string);
  }
}

/** Puts a row among others of its file where it is written. */
function insert(rows: Row[], row: Row): void {
  let at = rows.length;
  while (at > 0 && asWritten(rows[at - 1] as Row, row) > 0) at--;
  rows.splice(at, 0, row);
}
