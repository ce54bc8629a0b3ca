import { readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import type { Dirent } from 'node:fs';
import { join, sep } from 'node:path';
import type { Message } from '../base/messages';
import { decode } from '../records/fileStore';
import type { FileStore, FileText, FolderEntry } from '../records/fileStore';
import { reasonOf } from './reason';

/**
 * Files on disk. What can't be read counts as not there and is kept in `failures`, so that all the rest can go on. Calls
 * are synchronous inside: for many small files that's several times quicker than waiting for each.
 */
export class NodeFileStore implements FileStore {
  /** By path relative to the root, why it couldn't be read. */
  readonly failures = new Map<string, Message>();
  readonly #root: string;

  /** `root` is absolute. */
  constructor(root: string) {
    this.#root = root;
  }

  /** Files and folders, links as what they lead to. A link to a folder that it lies in is left out, and so is whatever is neither. */
  async list(folder: string): Promise<readonly FolderEntry[]> {
    let entries: readonly Dirent[];
    try {
      entries = readdirSync(join(this.#root, folder), { withFileTypes: true });
    } catch (error) {
      this.failures.set(folder, reasonOf(error));
      return [];
    }
    return entries.flatMap((entry) => {
      const kind = entry.isSymbolicLink() ? this.#kindOfLink(folder, entry.name) : kindOf(entry);
      return kind === undefined ? [] : [{ name: entry.name, kind }];
    });
  }

  async read(path: string): Promise<FileText | undefined> {
    try {
      return decode(readFileSync(join(this.#root, path)));
    } catch (error) {
      this.failures.set(path, reasonOf(error));
      return undefined;
    }
  }

  #kindOfLink(folder: string, name: string): FolderEntry['kind'] | undefined {
    const path = join(this.#root, folder, name);
    let kind: FolderEntry['kind'] | undefined;
    try {
      kind = kindOf(statSync(path));
    } catch {
      // It leads nowhere: as a sheet it will be missed when it's read.
      return 'file';
    }
    return kind === 'folder' && this.#leadsBack(folder, realpathSync(path)) ? undefined : kind;
  }

  /** Whether one of the folders on the way to `folder` is the target or lies in it. */
  #leadsBack(folder: string, target: string): boolean {
    const parts = folder === '' ? [] : folder.split('/');
    const inside = target.endsWith(sep) ? target : target + sep;
    for (let depth = 0; depth <= parts.length; depth++) {
      const real = realpathSync(join(this.#root, ...parts.slice(0, depth)));
      if (real === target || real.startsWith(inside)) return true;
    }
    return false;
  }
}

function kindOf(entry: { isFile(): boolean; isDirectory(): boolean }): FolderEntry['kind'] | undefined {
  if (entry.isFile()) return 'file';
  return entry.isDirectory() ? 'folder' : undefined;
}
