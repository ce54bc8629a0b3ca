import { compareTexts } from '../base/order';
import { CsvDocument } from '../csv/document';
import { schemaForPath, schemaNamed } from '../schema/catalog';
import type { FileStore } from './fileStore';

/** Folders that never hold records; walked past whatever is in them. */
const PASSED_OVER = new Set(['node_modules']);
/** A walk stops here: a fishroom this deep, or a folder with more entries, is no fishroom. */
const DEEPEST = 12;
const MOST_FOLDERS = 20_000;

export interface Fishroom {
  /** Relative to the folder that was searched, '' for that folder itself. */
  readonly folder: string;
  /** Sheets and `fishroom.json`, relative to the fishroom, in order of their names. */
  readonly files: readonly string[];
}

/**
 * All fishrooms in a folder. One is a folder with a `fishroom.json`; without one, a folder whose `clutches.csv` or
 * `tanks.csv` has in its header the key and every required column. A sheet belongs to the nearest fishroom above it.
 */
export async function findFishrooms(store: FileStore): Promise<readonly Fishroom[]> {
  const found: { folder: string; files: string[] }[] = [];
  let budget = MOST_FOLDERS;
  const walk = async (folder: string, owner: { folder: string; files: string[] } | undefined, depth: number): Promise<void> => {
    if (depth > DEEPEST || budget-- <= 0) return;
    const entries = await store.list(folder);
    const files = entries.filter(({ kind }) => kind === 'file').map(({ name }) => name);
    const own = (await isFishroom(store, folder, files)) ? { folder, files: [] } : owner;
    if (own !== undefined && own !== owner) found.push(own);
    if (own !== undefined) {
      const prefix = own.folder === '' ? '' : `${own.folder}/`;
      for (const name of files) {
        const path = join(folder, name).slice(prefix.length);
        if (path === 'fishroom.json' || schemaForPath(path) !== undefined) own.files.push(path);
      }
    }
    for (const { name, kind } of entries) {
      if (kind === 'folder' && !name.startsWith('.') && !PASSED_OVER.has(name)) await walk(join(folder, name), own, depth + 1);
    }
  };
  await walk('', undefined, 0);
  for (const fishroom of found) fishroom.files.sort(compareTexts);
  return found;
}

async function isFishroom(store: FileStore, folder: string, files: readonly string[]): Promise<boolean> {
  if (files.includes('fishroom.json')) return true;
  for (const name of ['clutches', 'tanks'] as const) {
    if (files.includes(`${name}.csv`) && isRegister(name, (await store.read(join(folder, `${name}.csv`)))?.text ?? '')) return true;
  }
  return false;
}

/** A slip of the keys or an unfinished merge leaves no more lines than these above a header. */
export const LINES_ABOVE = 20;

/** Whether the text's header holds the key and every required column, so that it is surely one of ours, also where lines stand above it that make it unreadable. */
export function isRegister(name: 'clutches' | 'tanks', text: string): boolean {
  const lines = text.split(/\r\n?|\n/, LINES_ABOVE);
  const doc = CsvDocument.parse(lines.find((line) => /[^\s,;"]/.test(line) && !line.startsWith('<<<<<<<')) ?? '');
  if (doc.rowCount === 0) return false;
  const headers = new Set<string>();
  for (let column = 0; column < doc.cellCount(0); column++) headers.add(doc.value(0, column));
  return schemaNamed(name).fields.every((field) => field.constraints.required !== true || headers.has(field.name));
}

function join(folder: string, name: string): string {
  return folder === '' ? name : `${folder}/${name}`;
}
