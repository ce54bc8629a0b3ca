import * as vscode from 'vscode';
import { decode } from '../records/fileStore';
import type { FileStore, FileText, FolderEntry } from '../records/fileStore';
import type { OpenDocuments } from './openDocuments';
import type { Walked } from './watchedFolders';

/** The files below a folder, of whatever scheme, open documents before what is stored; links as what they lead to. What can't be read is as if it weren't there. */
export class WorkspaceStore implements FileStore {
  readonly #folder: vscode.Uri;
  readonly #documents: OpenDocuments;
  readonly #isKept: (folder: vscode.Uri) => boolean;
  /** Folders that were listed, and whether they lie behind a link. */
  readonly #listed = new Map<string, 'here' | 'linked'>();
  readonly #links = new Set<string>();

  /** @param isKept whether a folder was a fishroom before and goes on being one, whatever the header of its register says while it is being edited */
  constructor(folder: vscode.Uri, { documents, isKept }: { readonly documents: OpenDocuments; readonly isKept: (folder: vscode.Uri) => boolean }) {
    this.#folder = folder;
    this.#documents = documents;
    this.#isKept = isKept;
  }

  /** The folders that were asked for by now. */
  walked(): Walked {
    const all = [...this.#listed];
    return { folders: all.map(([folder]) => folder), linked: all.filter(([, where]) => where === 'linked').map(([folder]) => folder) };
  }

  async list(folder: string): Promise<readonly FolderEntry[]> {
    const uri = this.#uriOf(folder);
    const place = uri.toString();
    const isLinked = this.#links.has(place) || this.#listed.get(vscode.Uri.joinPath(uri, '..').toString()) === 'linked';
    this.#listed.set(place, isLinked ? 'linked' : 'here');
    let found: readonly [string, vscode.FileType][];
    try {
      found = await vscode.workspace.fs.readDirectory(uri);
    } catch {
      return [];
    }
    const entries: FolderEntry[] = [];
    for (const [name, type] of found) {
      const kind = (type & vscode.FileType.File) !== 0 ? 'file' : (type & vscode.FileType.Directory) !== 0 ? 'folder' : undefined;
      const isLinkedFolder = kind === 'folder' && (type & vscode.FileType.SymbolicLink) !== 0;
      if (isLinkedFolder) this.#links.add(vscode.Uri.joinPath(uri, name).toString());
      if (kind !== undefined && !(isLinkedFolder && (await leadsBack(vscode.Uri.joinPath(uri, name))))) entries.push({ name, kind });
    }
    const mayStay = entries.some(({ name }) => name === 'clutches.csv' || name === 'tanks.csv') && this.#isKept(uri);
    return mayStay && !entries.some(({ name }) => name === 'fishroom.json') ? [...entries, { name: 'fishroom.json', kind: 'file' }] : entries;
  }

  async read(path: string): Promise<FileText | undefined> {
    const uri = this.#uriOf(path);
    const document = this.#documents.get(uri);
    if (document !== undefined) return { text: document.getText() };
    try {
      return await readStored(uri);
    } catch {
      return undefined;
    }
  }

  #uriOf(path: string): vscode.Uri {
    return path === '' ? this.#folder : vscode.Uri.joinPath(this.#folder, path);
  }
}

/** What is stored of a file, whatever is open; undefined when there is none. Throws where there may be one that can't be read. */
export async function readStored(uri: vscode.Uri): Promise<FileText | undefined> {
  try {
    return decode(await vscode.workspace.fs.readFile(uri));
  } catch (error) {
    if (isMissing(error)) return undefined;
    throw error;
  }
}

/** Whether an error says that there is no such file or folder, rather than that it can't be read. */
export function isMissing(error: unknown): boolean {
  return error instanceof vscode.FileSystemError && ['FileNotFound', 'FileNotADirectory', 'FileIsADirectory'].includes(error.code);
}

/** Whether a linked folder is one of the folders above it, so that a walk would go in circles. The same folder has the same times under every name. */
async function leadsBack(link: vscode.Uri): Promise<boolean> {
  try {
    const target = await vscode.workspace.fs.stat(link);
    for (let at = link; at.path !== '/' && at.path !== ''; ) {
      at = vscode.Uri.joinPath(at, '..');
      const { ctime, mtime, size } = await vscode.workspace.fs.stat(at);
      if (ctime === target.ctime && mtime === target.mtime && size === target.size) return true;
    }
  } catch {
    // A folder above that may not be looked at is none that the walk comes through.
  }
  return false;
}
