import * as vscode from 'vscode';
import type { FileOfFishroom } from './fishrooms';
import type { OpenFishroom } from './openFishroom';
import { isMissing } from './workspaceStore';

/** What the looks ask of the fishrooms, and where they tell what they found. */
interface Fishrooms {
  all(): readonly OpenFishroom[];
  fileAt(uri: vscode.Uri): FileOfFishroom | undefined;
  onAppeared(uri: vscode.Uri, kind: 'file' | 'folder'): void;
  onVanished(uri: vscode.Uri): void;
}

/** Finds out by looking what nobody told of the folders of fishrooms. */
export class FolderLooks {
  readonly #fishrooms: Fishrooms;
  /** What was in a folder at the look before. */
  readonly #before = new Map<string, ReadonlySet<string>>();

  constructor(fishrooms: Fishrooms) {
    this.#fishrooms = fishrooms;
  }

  /**
   * Looks into those of the folders that belong to a fishroom: tells what appeared and vanished there, and has those files read again that are others now.
   * Gives into how many it looked.
   */
  async look(folders: readonly string[]): Promise<number> {
    const rooms = this.#fishrooms.all();
    const uris = folders.map((folder) => vscode.Uri.parse(folder, true)).filter((uri) => rooms.some((room) => room.hasFolder(uri)));
    if (uris.length === 0) return 0;
    const held = new Map(rooms.flatMap((room) => [...room.filesByFolder()]));
    for (const uri of uris) await this.#lookInto(uri, held.get(uri.toString()) ?? []);
    return uris.length;
  }

  /** Remembers no other folders than these. */
  keep(folders: ReadonlySet<string>): void {
    for (const folder of this.#before.keys()) if (!folders.has(folder)) this.#before.delete(folder);
  }

  async #lookInto(folder: vscode.Uri, held: readonly vscode.Uri[]): Promise<void> {
    let entries: readonly [string, vscode.FileType][] = [];
    try {
      entries = await vscode.workspace.fs.readDirectory(folder);
    } catch (error) {
      if (!isMissing(error)) return;
      this.#fishrooms.onVanished(folder);
    }
    const names = new Set(entries.map(([name]) => name));
    const before = this.#before.get(folder.toString());
    this.#before.set(folder.toString(), names);
    const stored = new Map<OpenFishroom, string[]>();
    for (const [name, type] of entries) {
      const uri = vscode.Uri.joinPath(folder, name);
      const file = this.#fishrooms.fileAt(uri);
      if (file?.room.has(file.path) === true) {
        const paths = stored.get(file.room) ?? [];
        paths.push(file.path);
        stored.set(file.room, paths);
      } else if (file !== undefined || before?.has(name) !== true) {
        this.#fishrooms.onAppeared(uri, (type & vscode.FileType.Directory) === 0 ? 'file' : 'folder');
      }
    }
    for (const uri of held) if (!names.has(uri.path.slice(uri.path.lastIndexOf('/') + 1))) this.#fishrooms.onVanished(uri);
    for (const [room, paths] of stored) await room.recheck(paths);
  }
}
