import { IdMap } from './idMap';
import { asWritten, inWrittenOrder, keyText } from './row';
import type { Row } from './row';

/**
 * The ids of one register: which row each stands in. Of several rows with the same id the one written first holds.
 */
export class IdIndex {
  readonly #rows = new IdMap<Row | Several>((held) => keyText(held instanceof Several ? (held.inOrder[0] as Row) : held));
  readonly #duplicates = new Set<string>();
  /** Ids by their lower case, made when somebody first asks for clashes and kept from then on. */
  #folded: Map<string, string | Set<string>> | undefined;
  /** The lower cases that several ids share. */
  readonly #shared = new Set<string>();

  get size(): number {
    return this.#rows.size;
  }

  has(id: string): boolean {
    return this.#rows.get(id) !== undefined;
  }

  /** The row that holds for an id: of several, the one written first. */
  row(id: string): Row | undefined {
    const rows = this.#rows.get(id);
    return rows instanceof Several ? rows.inOrder[0] : rows;
  }

  /** All rows with an id, in written order. */
  rows(id: string): readonly Row[] {
    const rows = this.#rows.get(id);
    return rows instanceof Several ? rows.inOrder : rows === undefined ? [] : [rows];
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
    const there = this.#rows.add(id, row);
    if (there === undefined) {
      if (this.#folded !== undefined) this.#fold(this.#folded, id);
      return true;
    }
    if (there instanceof Several) {
      there.add(row);
    } else {
      this.#rows.replace(id, new Several([there, row]));
      this.#duplicates.add(id);
    }
    return false;
  }

  /** Returns true when the id is gone. */
  remove(id: string, row: Row): boolean {
    const there = this.#rows.get(id);
    if (there instanceof Several) {
      there.delete(row);
      if (there.size === 1) {
        this.#rows.replace(id, there.inOrder[0] as Row);
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

/** Rows of one id, put in order when somebody first asks. */
class Several {
  readonly #rows: Set<Row>;
  #inOrder: readonly Row[] | undefined;

  constructor(rows: Iterable<Row>) {
    this.#rows = new Set(rows);
  }

  get size(): number {
    return this.#rows.size;
  }

  /** As they are written. */
  get inOrder(): readonly Row[] {
    return (this.#inOrder ??= inWrittenOrder(this.#rows));
  }

  add(row: Row): void {
    this.#rows.add(row);
    this.#inOrder = undefined;
  }

  delete(row: Row): void {
    this.#rows.delete(row);
    this.#inOrder = undefined;
  }
}
