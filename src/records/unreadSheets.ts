import type { SheetName } from '../schema/descriptor';

/** Files that are there but could never be read, so that nothing is known of what stands in them. */
export class UnreadSheets {
  readonly #paths = new Map<SheetName, Set<string>>();
  #sorted: ReadonlyMap<SheetName, readonly string[]> | undefined;

  /** Gives whether that is new. */
  note(path: string, sheet: SheetName, isUnread: boolean): boolean {
    let paths = this.#paths.get(sheet);
    if ((paths?.has(path) === true) === isUnread) return false;
    if (paths === undefined) this.#paths.set(sheet, (paths = new Set()));
    if (isUnread) paths.add(path);
    else paths.delete(path);
    if (paths.size === 0) this.#paths.delete(sheet);
    this.#sorted = undefined;
    return true;
  }

  get isEmpty(): boolean {
    return this.#paths.size === 0;
  }

  /** Those of a sheet, in the order of their paths. */
  of(sheet: SheetName): readonly string[] {
    this.#sorted ??= new Map([...this.#paths].map(([name, paths]) => [name, [...paths].sort()]));
    return this.#sorted.get(sheet) ?? [];
  }

  /** All, in the order of their paths. */
  all(): readonly string[] {
    return [...this.#paths.values()].flatMap((paths) => [...paths]).sort();
  }
}
