import type { Row } from './row';

/**
 * The ids of one register: which row each stands in. Rows with the same id, or ids that differ only in case, are kept
 * together; the one written first holds.
 */
export class IdIndex {
  readonly #rows = new Map<string, Row | Row[]>();
  /** By lower case, only where more than one row shares it. */
  readonly #clashes = new Map<string, Set<Row>>();
  readonly #folded = new Map<string, Row>();

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

  ids(): IterableIterator<string> {
    return this.#rows.keys();
  }

  /** Groups of rows whose ids are the same but for case, each in written order. */
  *clashes(): IterableIterator<readonly Row[]> {
    for (const rows of this.#clashes.values()) yield [...rows].sort(asWritten);
  }

  isClash(id: string): boolean {
    return this.#clashes.size > 0 && this.#clashes.has(id.toLowerCase());
  }

  /** Returns true when the id is new. */
  add(id: string, row: Row): boolean {
    const folded = id.toLowerCase();
    const other = this.#folded.get(folded);
    if (other === undefined) this.#folded.set(folded, row);
    else {
      let clash = this.#clashes.get(folded);
      if (clash === undefined) this.#clashes.set(folded, (clash = new Set([other])));
      clash.add(row);
    }
    const there = this.#rows.get(id);
    if (there === undefined) this.#rows.set(id, row);
    else if (Array.isArray(there)) there.push(row);
    else this.#rows.set(id, [there, row]);
    return there === undefined;
  }

  /** Returns true when the id is gone. */
  remove(id: string, row: Row): boolean {
    const folded = id.toLowerCase();
    const clash = this.#clashes.get(folded);
    if (clash !== undefined) {
      clash.delete(row);
      const rest = clash.values().next().value as Row;
      this.#folded.set(folded, rest);
      if (clash.size === 1) this.#clashes.delete(folded);
    } else {
      this.#folded.delete(folded);
    }
    const there = this.#rows.get(id);
    if (Array.isArray(there)) {
      const rest = there.filter((other) => other !== row);
      this.#rows.set(id, rest.length === 1 ? (rest[0] as Row) : rest);
      return false;
    }
    this.#rows.delete(id);
    return true;
  }
}

export function asWritten(a: Row, b: Row): number {
  return a.block.ordinal - b.block.ordinal || a.index - b.index;
}

function firstWritten(rows: readonly Row[]): Row {
  return rows.reduce((first, row) => (asWritten(row, first) < 0 ? row : first));
}
