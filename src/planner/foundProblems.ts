import type { Found } from './found';

/** What the rules found, by the thing it is about, and where it stands. */
export class FoundProblems {
  readonly #byKey = new Map<string, readonly Found[]>();
  readonly #byFile = new Map<string, Set<string>>();

  /** Replaces what was found about a thing; tells the files that this touches. */
  set(key: string, found: readonly Found[], touched: Set<string>): void {
    const before = this.#byKey.get(key);
    if (before === undefined && found.length === 0) return;
    for (const { row } of before ?? []) {
      this.#byFile.get(row.path)?.delete(key);
      touched.add(row.path);
    }
    if (found.length === 0) {
      this.#byKey.delete(key);
      return;
    }
    this.#byKey.set(key, found);
    for (const { row } of found) {
      let keys = this.#byFile.get(row.path);
      if (keys === undefined) this.#byFile.set(row.path, (keys = new Set()));
      keys.add(key);
      touched.add(row.path);
    }
  }

  in(path: string): readonly Found[] {
    const found: Found[] = [];
    for (const key of this.#byFile.get(path) ?? []) for (const one of this.#byKey.get(key) ?? []) if (one.row.path === path) found.push(one);
    return found;
  }
}
