import { holdOne } from '../base/held';
import type { Row } from './row';

/** Some rows, each once. Those of a whole sheet come as a list, and stay one as long as none is looked for, put in or taken out. */
export class RowSet implements Iterable<Row> {
  readonly #list: Row[] = [];
  #set: Set<Row> | undefined;

  get size(): number {
    return this.#set?.size ?? this.#list.length;
  }

  [Symbol.iterator](): IterableIterator<Row> {
    return (this.#set ?? this.#list).values();
  }

  has(row: Row): boolean {
    return this.size > 0 && this.#asSet().has(row);
  }

  add(row: Row): void {
    this.#asSet().add(row);
  }

  /** Puts in rows that are all new. */
  addNew(rows: readonly Row[]): void {
    for (const row of rows) {
      if (this.#set === undefined) this.#list.push(row);
      else this.#set.add(row);
    }
  }

  delete(row: Row): void {
    if (this.size > 0) this.#asSet().delete(row);
  }

  #asSet(): Set<Row> {
    return (this.#set ??= new Set(this.#list));
  }
}

holdOne(new RowSet());
