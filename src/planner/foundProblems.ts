import type { Row } from '../records/row';
import type { Found } from './found';

/** What most things have found about them. */
export const NOTHING: readonly Found[] = [];
const NO_LISTS: ReadonlySet<readonly Found[]> = new Set();

function add(lists: Map<string, Set<readonly Found[]>>, path: string, found: readonly Found[]): void {
  let there = lists.get(path);
  if (there === undefined) lists.set(path, (there = new Set()));
  there.add(found);
}

/** What the rules found, by where it stands. Whoever it is about keeps the list, to hand it back when there is another. */
export class FoundProblems {
  readonly #byFile = new Map<string, Set<readonly Found[]>>();
  /** Lists with something related to a file. */
  readonly #naming = new Map<string, Set<readonly Found[]>>();

  /** Takes a list in place of another; tells the files that this touches. */
  replace(before: readonly Found[], found: readonly Found[], touched: Set<string>): void {
    for (const { row, related } of before) {
      this.#byFile.get(row.path)?.delete(before);
      for (const other of related) this.#naming.get(other.row.path)?.delete(before);
      touched.add(row.path);
    }
    for (const { row, related } of found) {
      add(this.#byFile, row.path, found);
      for (const other of related) add(this.#naming, other.row.path, found);
      touched.add(row.path);
    }
  }

  /** Files with a problem that something in a file is related to. */
  filesNaming(path: string): ReadonlySet<string> {
    const files = new Set<string>();
    for (const list of this.#naming.get(path) ?? NO_LISTS) for (const { row } of list) files.add(row.path);
    return files;
  }

  /** What was found about the thing of a register's row. */
  about(owner: Row): readonly Found[] {
    const all: Found[] = [];
    for (const lists of this.#byFile.values()) for (const list of lists) for (const found of list) if (found.owner === owner && !all.includes(found)) all.push(found);
    return all;
  }

  in(path: string): readonly Found[] {
    return [...(this.#byFile.get(path) ?? [])].flatMap((list) => list.filter(({ row }) => row.path === path));
  }
}

/** Asks every rule; most find nothing. */
export function askAll<State, View>(rules: readonly ((state: State, view: View) => readonly Found[])[], state: State, view: View): readonly Found[] {
  let all: readonly Found[] = NOTHING;
  for (const rule of rules) {
    const found = rule(state, view);
    if (found.length > 0) all = all.length === 0 ? found : [...all, ...found];
  }
  return all;
}
