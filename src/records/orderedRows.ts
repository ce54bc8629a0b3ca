import { asWritten } from './row';
import type { Row } from './row';

/** The rows of one file by what they name, each group from the top down. */
export class RowGroups {
  readonly #groups = new Map<string, OrderedRows>();

  of(name: string): readonly Row[] {
    return this.#groups.get(name)?.all ?? NO_ROWS;
  }

  names(): IterableIterator<string> {
    return this.#groups.keys();
  }

  add(name: string, row: Row): void {
    let rows = this.#groups.get(name);
    if (rows === undefined) this.#groups.set(name, (rows = new OrderedRows()));
    rows.add(row);
  }

  delete(name: string, row: Row): void {
    const rows = this.#groups.get(name);
    if (rows === undefined) return;
    rows.delete(row);
    if (rows.size === 0) this.#groups.delete(name);
  }
}

const NO_ROWS: readonly Row[] = [];

/** Some rows of one file from the top down. They mostly come in that order, so a list does; rows never change places. */
class OrderedRows {
  #rows: Row[] = [];
  /** So many of the first are known to be in order: it is looked at when somebody asks. */
  #inOrder = 0;

  get size(): number {
    return this.#rows.length;
  }

  get all(): readonly Row[] {
    const rows = this.#rows;
    while (this.#inOrder < rows.length && (this.#inOrder === 0 || asWritten(rows[this.#inOrder - 1] as Row, rows[this.#inOrder] as Row) < 0)) this.#inOrder++;
    if (this.#inOrder < rows.length) {
      // A new list: the one before may still be looked at.
      this.#rows = [...rows].sort(asWritten);
      this.#inOrder = rows.length;
    }
    return this.#rows;
  }

  add(row: Row): void {
    this.#rows.push(row);
  }

  delete(row: Row): void {
    const place = this.#rows.indexOf(row);
    if (place < 0) return;
    this.#rows.splice(place, 1);
    if (place < this.#inOrder) this.#inOrder--;
  }
}
