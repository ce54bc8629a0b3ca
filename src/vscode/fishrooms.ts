import * as vscode from 'vscode';
import { Plan } from '../planner/plan';
import { findFishrooms, isRegister, LINES_ABOVE } from '../records/discovery';
import { schemaForPath } from '../schema/catalog';
import { Activity } from './activity';
import { Bursts } from './bursts';
import { clockSettingFor, instantBy, machineZone } from './clockSetting';
import { FolderLooks } from './folderLooks';
import { JoinedTask } from './joinedTask';
import { OpenDocuments } from './openDocuments';
import { OpenFishroom } from './openFishroom';
import { RepeatedTask } from './repeatedTask';
import { WatchedFolders } from './watchedFolders';
import type { Walked } from './watchedFolders';
import { WorkspaceStore } from './workspaceStore';

/** A walk through all folders, so bursts of what may ask for one are joined. */
const JOIN_WALKS = 250;
/** Beyond so many new files and folders at a time a walk is cheaper than a look at each. */
const LOOK_AT_MOST = 50;
/** From one look to the next into folders that may not be watched. */
const LOOK_AGAIN = 2_000;
/** A watcher loses events without a word once too many come at a time: 16,384 on Linux, of which a file makes several. */
const MANY_EVENTS = 1_000;
/** After so long without an event a burst of them is over. */
const SETTLED = 1_000;
/** What makes a folder a fishroom. */
const MARKS = ['fishroom.json', 'clutches.csv', 'tanks.csv'];

/** A sheet of a fishroom, or its `fishroom.json`. */
export interface FileOfFishroom {
  readonly room: OpenFishroom;
  readonly path: string;
}

/** The files of a fishroom whose problems, places or fills may be others now. */
export interface FishroomChange {
  readonly room: OpenFishroom;
  readonly paths: ReadonlySet<string>;
}

/** What happened to a file or folder, in the words of a watcher. */
type FileEvent = 'created' | 'changed' | 'deleted';

/** All fishrooms in the folders of the workspace, found again whenever folders or files come and go. */
export class Fishrooms implements vscode.Disposable {
  readonly activity = new Activity();
  readonly #documents = new OpenDocuments();
  readonly #rooms = new Map<string, OpenFishroom>();
  readonly #walk = new JoinedTask(this.activity, { delay: JOIN_WALKS, work: () => this.#findAll() });
  readonly #arrivals = new Set<string>();
  readonly #look = new JoinedTask(this.activity, { delay: JOIN_WALKS, work: () => this.#lookAtArrivals() });
  readonly #watched = new WatchedFolders();
  readonly #looks = new FolderLooks({
    all: () => this.all(),
    fileAt: (uri) => this.fileAt(uri),
    onAppeared: (uri, kind) => this.#onAppeared(uri, kind),
    onVanished: (uri) => this.#onVanished(uri),
  });
  readonly #lookAgain = new RepeatedTask({ rest: LOOK_AGAIN, work: async () => ((await this.#looks.look(this.#watched.unwatched())) > 0 ? 'again' : 'done') });
  readonly #lookAll = new JoinedTask(this.activity, { delay: JOIN_WALKS, work: () => this.#lookEverywhere() });
  readonly #bursts = new Bursts({ many: MANY_EVENTS, quiet: SETTLED, onOver: () => this.#reconsider() });
  readonly #changed = new vscode.EventEmitter<FishroomChange>();
  readonly #removed = new vscode.EventEmitter<OpenFishroom>();
  readonly #added = new vscode.EventEmitter<OpenFishroom>();
  readonly #listeners: vscode.Disposable[] = [];
  #isDisposed = false;

  readonly onDidChange = this.#changed.event;
  readonly onDidRemove = this.#removed.event;
  readonly onDidAdd = this.#added.event;

  constructor() {
    const listen = (...listeners: readonly vscode.Disposable[]): unknown => this.#listeners.push(...listeners);
    const { workspace } = vscode;
    // Everything is watched, since a folder that comes or goes is told by its own name alone.
    const watcher = workspace.createFileSystemWatcher('**/*');
    listen(
      watcher,
      watcher.onDidCreate((uri) => this.#onTold(uri, 'created')),
      watcher.onDidChange((uri) => this.#onTold(uri, 'changed')),
      watcher.onDidDelete((uri) => this.#onTold(uri, 'deleted')),
      // Changes of other machines in a shared folder are told by nobody; a keeper who comes back expects to see them.
      vscode.window.onDidChangeWindowState(({ focused }) => (focused ? this.#lookAll.trigger() : undefined)),
    );
    // Not every file system can be watched; what is done in VS Code itself is told in any case.
    listen(
      workspace.onDidCreateFiles(({ files }) => files.forEach((uri) => this.#onFile(uri, 'created'))),
      workspace.onDidDeleteFiles(({ files }) => files.forEach((uri) => this.#onFile(uri, 'deleted'))),
      workspace.onDidRenameFiles(() => this.#walk.trigger()),
      workspace.onDidSaveTextDocument(({ uri }) => this.#onFile(uri, 'changed')),
      workspace.onDidChangeWorkspaceFolders(() => this.#walk.trigger()),
    );
    listen(
      workspace.onDidOpenTextDocument((document) => this.#onOpened(document)),
      workspace.onDidChangeTextDocument((event) => this.#onEdited(event)),
      workspace.onDidCloseTextDocument(({ uri }) => this.#onClosed(uri)),
    );
    this.#walk.trigger();
  }

  dispose(): void {
    this.#isDisposed = true;
    for (const listener of this.#listeners) listener.dispose();
    for (const room of this.#rooms.values()) room.dispose();
    this.#walk.dispose();
    this.#look.dispose();
    this.#lookAgain.dispose();
    this.#lookAll.dispose();
    this.#bursts.dispose();
    this.#documents.dispose();
    this.#changed.dispose();
    this.#removed.dispose();
    this.#added.dispose();
  }

  all(): readonly OpenFishroom[] {
    return [...this.#rooms.values()];
  }

  /** The nearest fishroom above a place. */
  roomOf(uri: vscode.Uri): OpenFishroom | undefined {
    let nearest: OpenFishroom | undefined;
    for (const room of this.#rooms.values()) {
      if (room.contains(uri) && (nearest === undefined || room.folder.path.length > nearest.folder.path.length)) nearest = room;
    }
    return nearest;
  }

  /** The fishroom that a file belongs to and its path in there; undefined for all other files. */
  fileAt(uri: vscode.Uri): FileOfFishroom | undefined {
    const room = this.roomOf(uri);
    const path = room?.pathOf(uri);
    return room === undefined || path === undefined ? undefined : { room, path };
  }

  /** Walks through the folders once more, for where events may have been missed: before a watcher was up, or in a file system without any. */
  async findAgain(): Promise<void> {
    this.#walk.trigger();
    await this.activity.whenIdle();
  }

  async #findAll(): Promise<void> {
    const found = new Map<string, { readonly folder: vscode.Uri; readonly files: readonly string[] }>();
    const walked = new Map<string, Walked>();
    const endWalk = this.#watched.beginWalk();
    for (const { uri } of vscode.workspace.workspaceFolders ?? []) {
      const store = new WorkspaceStore(uri, { documents: this.#documents, isKept: (folder) => this.#rooms.has(folder.toString()) });
      for (const { folder: below, files } of await findFishrooms(store)) {
        const folder = below === '' ? uri : vscode.Uri.joinPath(uri, below);
        found.set(folder.toString(), { folder, files });
      }
      walked.set(uri.toString(), store.walked());
      if (this.#isDisposed) return;
    }
    endWalk(walked);
    for (const [key, room] of this.#rooms) {
      if (found.has(key)) continue;
      this.#rooms.delete(key);
      room.dispose();
      this.#removed.fire(room);
    }
    // Those that go first, so that a file that changes hands is nobody's in between, never that of two.
    const all = [...found.values()].map(({ folder }) => folder);
    for (const [key, { files }] of found) {
      const room = this.#rooms.get(key);
      const inner = all.filter((folder) => room?.contains(folder) === true).map((folder) => `${folder.path}/`);
      room?.setFiles(files, (path) => !inner.some((folder) => room.uriOf(path).path.startsWith(folder)));
    }
    for (const [key, { folder, files }] of found) {
      if (!this.#rooms.has(key)) this.#open(folder).setFiles(files, () => true);
    }
    this.#lookAgain.start();
  }

  #open(folder: vscode.Uri): OpenFishroom {
    const zone = machineZone();
    const plan = new Plan({ machineZone: zone, now: instantBy(clockSettingFor(folder, zone)) });
    const room = new OpenFishroom(folder, { plan, documents: this.#documents, activity: this.activity });
    this.#rooms.set(folder.toString(), room);
    room.onDidChange((paths) => this.#changed.fire({ room, paths }));
    this.#added.fire(room);
    return room;
  }

  #onTold(uri: vscode.Uri, event: FileEvent): void {
    const place = uri.toString();
    this.#bursts.tell();
    // What was deleted and made anew within a moment is told as changed.
    const isOther = event === 'changed' && this.#watched.isKnown(place);
    if (event === 'deleted' || isOther) this.#watched.forget(place);
    if (event === 'changed' && !isOther) this.#watched.tellChanged(place);
    else if (event !== 'deleted' && isWalked(uri) && !mayBeSheet(uri)) this.#watched.tellCreated(place);
    this.#onFile(uri, isOther ? 'created' : event);
  }

  /** For when events may have been lost anywhere: what there is, and whether all of it is as it was read. */
  #reconsider(): void {
    this.#walk.trigger();
    this.#lookAll.trigger();
  }

  async #lookEverywhere(): Promise<void> {
    const folders = this.#watched.known();
    this.#looks.keep(new Set(folders));
    await this.#looks.look(folders);
  }

  /** A look found something in a folder of a fishroom that nobody told of. */
  #onAppeared(uri: vscode.Uri, kind: 'file' | 'folder'): void {
    if (kind === 'file' && (mayBeSheet(uri) || uri.path.endsWith('/fishroom.json'))) this.#onFile(uri, 'created');
    else if (kind === 'folder' && isWalked(uri) && !this.#watched.isKnown(uri.toString())) this.#walk.trigger();
  }

  #onVanished(uri: vscode.Uri): void {
    const place = uri.toString();
    if (this.#watched.isKnown(place)) this.#walk.trigger();
    this.#watched.forget(place);
    this.#onFile(uri, 'deleted');
  }

  #onFile(uri: vscode.Uri, event: FileEvent): void {
    const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
    const file = this.fileAt(uri);
    file?.room.touch(file.path);
    if (MARKS.includes(name)) {
      const isFishroom = this.#rooms.has(vscode.Uri.joinPath(uri, '..').toString());
      if (event !== 'changed' || (!isFishroom && isWalked(uri))) this.#walk.trigger();
    } else if (file === undefined && event === 'created' && isWalked(uri)) {
      this.#arrivals.add(uri.toString());
      this.#look.trigger();
    } else if (file === undefined && event === 'deleted' && this.all().some((room) => room.hasPartUnder(uri))) {
      this.#walk.trigger();
    }
  }

  /** A folder that arrives brings its files unannounced. */
  async #lookAtArrivals(): Promise<void> {
    const arrivals = [...this.#arrivals];
    this.#arrivals.clear();
    if (arrivals.length > LOOK_AT_MOST) {
      this.#reconsider();
      return;
    }
    for (const arrival of arrivals) {
      try {
        const { type } = await vscode.workspace.fs.stat(vscode.Uri.parse(arrival, true));
        if ((type & vscode.FileType.Directory) !== 0) {
          // Some of its files may have been found before it was told of, and have changed in between.
          this.#reconsider();
          return;
        }
      } catch {
        // Gone again.
      }
    }
  }

  #onOpened(document: vscode.TextDocument): void {
    const file = this.fileAt(document.uri);
    if (file !== undefined) file.room.take(file.path, document);
    else if (mayBeSheet(document.uri) && isWalked(document.uri)) this.#walk.trigger();
  }

  #onEdited(event: vscode.TextDocumentChangeEvent): void {
    const { uri } = event.document;
    const file = this.fileAt(uri);
    if (file !== undefined) file.room.takeEdits(file.path, event);
    else if (event.contentChanges.length > 0) this.#askIfRegister(event.document);
  }

  /** A keeper who is writing the header of a first register is about to have a fishroom. */
  #askIfRegister(document: vscode.TextDocument): void {
    const name = /\/(clutches|tanks)\.csv$/.exec(document.uri.path)?.[1] as 'clutches' | 'tanks' | undefined;
    if (name !== undefined && isWalked(document.uri) && isRegister(name, document.getText(new vscode.Range(0, 0, LINES_ABOVE, 0)))) this.#walk.trigger();
  }

  #onClosed(uri: vscode.Uri): void {
    const file = this.fileAt(uri);
    file?.room.release(file.path);
  }
}

/** Whether a file's name or folder is one of a sheet, whatever lies above it. */
function mayBeSheet({ path }: vscode.Uri): boolean {
  return schemaForPath(path.slice(path.lastIndexOf('/') + 1)) !== undefined || /\/(clutches|tanks)\/.+\.csv$/.test(path);
}

/** Whether a walk comes by there: in a folder of the workspace, and not in a hidden one or in one of packages. */
function isWalked(uri: vscode.Uri): boolean {
  const folder = vscode.workspace.getWorkspaceFolder(uri);
  return folder !== undefined && !/\/(\.|node_modules(\/|$))/.test(uri.path.slice(folder.uri.path.replace(/\/$/, '').length));
}
