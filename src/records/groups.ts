import type { SheetFile } from './sheetFile';

const NO_FILES: readonly SheetFile[] = [];

/** Files in the order of their paths. */
export function byPath(files: ReadonlySet<SheetFile> | undefined): readonly SheetFile[] {
  if (files === undefined) return NO_FILES;
  if (files.size === 1) return [...files];
  return [...files].sort((a, b) => (a.path < b.path ? -1 : 1));
}

/** The set of a key, made where there is none. */
export function getSet<Key, Value>(map: Map<Key, Set<Value>>, key: Key): Set<Value> {
  let set = map.get(key);
  if (set === undefined) map.set(key, (set = new Set()));
  return set;
}

/** Takes a value out of the set of a key, and the key when nothing is left. */
export function drop<Key, Value>(map: Map<Key, Set<Value>>, key: Key, value: Value): void {
  const set = map.get(key);
  if (set?.delete(value) === true && set.size === 0) map.delete(key);
}
