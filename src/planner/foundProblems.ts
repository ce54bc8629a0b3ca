import type { Found } from './found';

/** What a rule is about. */
export type Subject = 'clutch' | 'pair' | 'jobs' | 'species';

const NOTHING: readonly Found[] = [];
const NO_LISTS: ReadonlySet<readonly Found[]> = new Set();

function add(lists: Map<string, Set<readonly Found[]>>, path: string, found: readonly Found[]): void {
  let there = lists.get(path);
  if (there === undefined) lists.set(path, (there = new Set()));
  there.add(found);
}

/** What the rules found, by the thing it is about, and where it stands. */
export class FoundProblems {
  readonly #found: Readonly<Record<Subject, Map<string, readonly Found[]>>> = { clutch: new Map(), pair: new Map(), jobs: new Map(), species: new Map() };
  readonly #byFile = new Map<string, Set<readonly Found[]>>();
  /** Lists with something related to a file. */
  readonly #naming = new Map<string, Set<readonly Found[]>>();

  /** Replaces what was found about a thing; tells the files that this touches. */
  set(subject: Subject, id: string, found: readonly Found[], touched: Set<string>): void {
    const known = this.#found[subject];
    const before = known.get(id);
    if (before === undefined && found.length === 0) return;
    for (const { row, related } of before ?? NOTHING) {
      this.#byFile.get(row.path)?.delete(before as readonly Found[]);
      for (const other of related) this.#naming.get(other.row.path)?.delete(before as readonly Found[]);
      touched.add(row.path);
    }
    if (found.length === 0) {
      known.delete(id);
      return;
    }
    known.set(id, found);
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
