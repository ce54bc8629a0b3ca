import { asWritten } from './row';
import type { Row } from './row';

/**
 * The ids of one register: which row each stands in. Of several rows with the same id the one written first holds.
 */
export class IdIndex {
  readonly #rows = new Map<string, Row | Row[]>();
  /** Ids by their lower case, made when somebody first asks for clashes and kept from then on. */
  #folded: Map<string, string | Set<string>> | undefined;
  #duplicates = 0;

  get size(): number {
    return this.#rows.size;
  }

  has(id: string): boolean {
    return this.#rows.has(id);
  }

  /** The row that holds for an id: of several, the one written first. */
  row(id: string): Row | undefined {
    const rows = this.#rows.get(id);
    return Array.isArray(rows) ? firstWritten(rows) : rows;
  }

  /** All rows with an id, in no order. */
  rows(id: string): readonly Row[] {
    return this.#rowsOf(id);
  }

  ids(): IterableIterator<string> {
    return this.#rows.keys();
  }

  isDuplicate(id: string): boolean {
    return this.#duplicates > 0 && Array.isArray(this.#rows.get(id));
  }

  /** Groups of rows whose ids are the same but for case, each in written order. */
  clashes(): readonly (readonly Row[])[] {
    const clashes: (readonly Row[])[] = [];
    for (const ids of this.#byCase().values()) {
      const rows = typeof ids === 'string' ? this.#rowsOf(ids) : [...ids].flatMap((id) => this.#rowsOf(id));
      if (rows.length > 1) clashes.push([...rows].sort(asWritten));
    }
    return clashes;
  }

  /** Returns true when the id is new. */
  add(id: string, row: Row): boolean {
    const there = this.#rows.get(id);
    if (there === undefined) {
      this.#rows.set(id, row);
      if (this.#folded !== undefined) fold(this.#folded, id);
      return true;
    }
    if (Array.isArray(there)) {
      there.push(row);
    } else {
      this.#rows.set(id, [there, row]);
      this.#duplicates++;
    }
    return false;
  }

  /** Returns true when the id is gone. */
  remove(id: string, row: Row): boolean {
    const there = this.#rows.get(id);
    if (Array.isArray(there)) {
      const rest = there.filter((other) => other !== row);
      if (rest.length === 1) this.#duplicates--;
      this.#rows.set(id, rest.length === 1 ? (rest[0] as Row) : rest);
      return false;
    }
    this.#rows.delete(id);
    if (this.#folded !== undefined) unfold(this.#folded, id);
    return true;
  }

  #rowsOf(id: string): readonly Row[] {
    const rows = this.#rows.get(id);
    return Array.isArray(rows) ? rows : rows === undefined ? [] : [rows];
  }

  #byCase(): ReadonlyMap<string, string | Set<string>> {
    if (this.#folded === undefined) {
      this.#folded = new Map();
      for (const id of this.#rows.keys()) fold(this.#folded, id);
    }
    return this.#folded;
  }
}

function fold(folded: Map<string, string | Set<string>>, id: string): void {
  const key = id.toLowerCase();
  const there = folded.get(key);
  if (there === undefined) folded.set(key, id);
  else if (typeof there === 'string') folded.set(key, new Set([there, id]));
  else there.add(id);
}

function unfold(folded: Map<string, string | Set<string>>, id: string): void {
  const key = id.toLowerCase();
  const there = folded.get(key);
  if (typeof there === 'object' && there.size > 1) there.delete(id);
  else folded.delete(key);
}

function firstWritten(rows: readonly Row[]): Row {
  return rows.reduce((first, row) => (asWritten(row, first) < 0 ? row : first));
}
