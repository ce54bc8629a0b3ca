import * as vscode from 'vscode';
import type { ComingDays } from '../planner/coming';
import type { Plan } from '../planner/plan';
import type { FileText } from '../records/fileStore';
import type { FileChange } from '../records/records';
import { schemaForPath } from '../schema/catalog';
import type { Activity } from './activity';
import { atOnce } from './atOnce';
import { clockSettingFor, instantBy } from './clockSetting';
import type { ClockSetting } from './clockSetting';
import { editsOf, lengthOf, placesInText } from './convert';
import type { PlacesOfFiles, TextPlaces } from './convert';
import { JoinedTask } from './joinedTask';
import type { OpenDocuments } from './openDocuments';
import { stampOf } from './stamp';
import type { Stamp } from './stamp';
import { readStored } from './workspaceStore';

/** Changes of stored files come in bursts, the largest when another version is checked out. */
const JOIN_STORED = 150;
const CONFIG = 'fishroom.json';
/** What is coming is worked out for so many days at least: what a month of a calendar shows, so that one opens at once. */
const LOOK_AHEAD = 42;

/** Up to which version of a document the plan has followed it. */
interface Followed {
  readonly document: vscode.TextDocument;
  readonly version: number;
  readonly eol: vscode.EndOfLine;
  readonly encoding: string;
}

type StoredFaults = Pick<FileText, 'badAt' | 'mixedLineEnds'>;

const NO_FAULTS: StoredFaults = {};

/** A fishroom of the workspace: its plan, kept equal to the open documents and, where none is open, to what is stored. */
export class OpenFishroom implements vscode.Disposable, PlacesOfFiles {
  readonly folder: vscode.Uri;
  readonly plan: Plan;
  readonly #documents: OpenDocuments;
  /** Every file that is to be in the plan. */
  readonly #files = new Set<string>();
  /** Files to read again. */
  readonly #touched = new Set<string>();
  /** Files that are there, but could not be read when that was last tried. */
  readonly #unread = new Set<string>();
  readonly #followed = new Map<string, Followed>();
  /** What an editor would rewrite in stored files; most have nothing. */
  readonly #faults = new Map<string, StoredFaults>();
  /** Of what is stored as it was read last. */
  readonly #stamps = new Map<string, Stamp>();
  readonly #refresh: JoinedTask;
  readonly #changed = new vscode.EventEmitter<ReadonlySet<string>>();
  readonly #prefix: string;
  readonly #activity: Activity;
  /** The places of the texts that aren't open, as long as they stay the same. */
  readonly #places = new WeakMap<object, TextPlaces>();
  #config: FileText | undefined;
  #coming: { readonly days: number; readonly coming: ComingDays } | undefined;
  #isDisposed = false;

  /** Tells the paths whose problems, places or fills may be others now. */
  readonly onDidChange = this.#changed.event;

  constructor(folder: vscode.Uri, { plan, documents, activity }: { readonly plan: Plan; readonly documents: OpenDocuments; readonly activity: Activity }) {
    this.folder = folder;
    this.plan = plan;
    this.#documents = documents;
    this.#activity = activity;
    this.#prefix = folder.path.endsWith('/') ? folder.path : `${folder.path}/`;
    this.#refresh = new JoinedTask(activity, { delay: JOIN_STORED, work: () => this.#readTouched() });
  }

  dispose(): void {
    this.#isDisposed = true;
    this.#refresh.dispose();
    this.#changed.dispose();
  }

  /** Resolves when all that was read and typed by now is in the plan. */
  whenIdle(): Promise<void> {
    return this.#activity.whenIdle();
  }

  get isGone(): boolean {
    return this.#isDisposed;
  }

  /** What a keeper calls it. */
  get name(): string {
    return this.plan.records.config.name ?? this.folder.path.split('/').findLast((part) => part !== '') ?? '';
  }

  get clock(): ClockSetting {
    return clockSettingFor(this.folder, this.plan.records.zone);
  }

  /** Whether a place of the same file system lies in the folder; a file's other versions have other schemes or queries. */
  contains({ scheme, authority, path, query, fragment }: vscode.Uri): boolean {
    const { folder } = this;
    return scheme === folder.scheme && authority === folder.authority && query === folder.query && fragment === folder.fragment && path.startsWith(this.#prefix);
  }

  /** The path that a sheet or `fishroom.json` at that place would have in the fishroom; undefined for other files. */
  pathOf(uri: vscode.Uri): string | undefined {
    if (!this.contains(uri)) return undefined;
    const path = uri.path.slice(this.#prefix.length);
    return path === CONFIG || schemaForPath(path) !== undefined ? path : undefined;
  }

  uriOf(path: string): vscode.Uri {
    return vscode.Uri.joinPath(this.folder, path);
  }

  placesIn(path: string): TextPlaces {
    const followed = this.#followed.get(path);
    if (followed !== undefined) return followed.document;
    const owner = path === CONFIG ? this.#config : this.plan.records.file(path)?.doc;
    if (owner === undefined) return placesInText('');
    let places = this.#places.get(owner);
    if (places === undefined) this.#places.set(owner, (places = placesInText(this.#held(path).text)));
    return places;
  }

  /** Whether the plan holds what stands in the document, so that offsets of one are offsets of the other. */
  follows(path: string, document: vscode.TextDocument): boolean {
    const followed = this.#followed.get(path);
    return followed?.document === document && followed.version === document.version;
  }

  /** Files of the fishroom that nobody could read, so that what they hold now isn't known. */
  unread(): readonly string[] {
    return [...this.#unread];
  }

  /** Whether the fishroom, or one of its files, lies at or below that place. */
  hasPartUnder(uri: vscode.Uri): boolean {
    const below = `${uri.path}/`;
    if (this.#prefix.startsWith(below)) return true;
    return this.contains(uri) && [...this.#files].some((file) => `${this.#prefix}${file}/`.startsWith(below));
  }

  /** Whether that place is its folder or lies in it. */
  hasFolder(uri: vscode.Uri): boolean {
    return this.contains(vscode.Uri.joinPath(uri, 'any'));
  }

  has(path: string): boolean {
    return this.#files.has(path);
  }

  /** Its files by the folders they lie in, which are URIs as texts. */
  filesByFolder(): ReadonlyMap<string, readonly vscode.Uri[]> {
    const byFolder = new Map<string, vscode.Uri[]>();
    for (const path of this.#files) {
      const below = path.slice(0, Math.max(path.lastIndexOf('/'), 0));
      const files = byFolder.get(below);
      if (files === undefined) byFolder.set(below, [this.uriOf(path)]);
      else files.push(this.uriOf(path));
    }
    return new Map([...byFolder].map(([below, files]) => [(below === '' ? this.folder : this.uriOf(below)).toString(), files]));
  }

  /**
   * Says which files a walk found in the fishroom. Those that are new to it are read; of the others those that belong to it no more are forgotten, and the
   * rest is read again: it is gone, or has come since the walk was there.
   */
  setFiles(paths: readonly string[], belongs: (path: string) => boolean): void {
    const found = new Set(paths);
    for (const path of this.#files) {
      if (found.has(path)) continue;
      if (belongs(path)) this.touch(path);
      else this.#forget(path);
    }
    for (const path of paths) if (!this.#files.has(path)) this.touch(path);
  }

  /** Has those of its files read again that are stored otherwise than they were read, or may be. */
  async recheck(paths: readonly string[]): Promise<void> {
    await atOnce(paths, async (path) => {
      if (!this.#files.has(path) || this.#touched.has(path)) return;
      const stamp = await stampOf(this.uriOf(path));
      if (!this.#isDisposed && (stamp === undefined || stamp !== this.#stamps.get(path))) this.touch(path);
    });
  }

  /** A stored file appeared, changed or went: it will be read again. */
  touch(path: string): void {
    this.#files.add(path);
    this.#touched.add(path);
    this.#refresh.trigger();
  }

  /** A document was opened, or changed in a way that no edit tells. */
  take(path: string, document: vscode.TextDocument): void {
    if (!this.#files.has(path) || !this.#isInPlan(path)) {
      // What is stored decides how it counts, so it is taken when that has been read.
      this.touch(path);
      return;
    }
    const change = this.#changeByDocument(path, document);
    if (change !== undefined) this.#apply([change]);
  }

  /** Text was typed or otherwise changed in an open document. */
  takeEdits(path: string, { document, contentChanges }: vscode.TextDocumentChangeEvent): void {
    const followed = this.#followed.get(path);
    if (followed?.document !== document) {
      this.take(path, document);
      return;
    }
    // What is stored decides what can be lost, so it has to be looked at again.
    if (followed.encoding !== document.encoding) this.touch(path);
    if (contentChanges.length === 0 && followed.eol === document.eol) return;
    const isPlain = path !== CONFIG && isUtf8(document.encoding) && followed.eol === document.eol && followed.encoding === document.encoding;
    if (!isPlain) {
      this.take(path, document);
      return;
    }
    this.#follow(path, document);
    const touched = new Set<string>();
    for (const edits of editsOf(contentChanges)) for (const other of this.plan.apply([{ path, edits }])) touched.add(other);
    if (this.plan.records.file(path)?.doc.length === lengthOf(document)) this.#tell(touched.add(path));
    else this.take(path, document);
  }

  /** A document was closed: what is stored counts again. */
  release(path: string): void {
    if (this.#followed.delete(path)) this.touch(path);
  }

  /** Moves the clock to now, which the setting may have fixed. */
  tick(): void {
    const instant = instantBy(this.clock);
    if (instant === this.plan.now.instant) return;
    this.#tell(this.plan.setNow(instant));
  }

  /** What is due and coming until at least so many days after today are over; kept until something changes. */
  coming(days: number): ComingDays {
    if (this.#coming === undefined || this.#coming.days < days) {
      const all = Math.max(days, LOOK_AHEAD);
      this.#coming = { days: all, coming: this.plan.coming(all) };
    }
    return this.#coming.coming;
  }

  #tell(paths: ReadonlySet<string>): void {
    this.#coming = undefined;
    this.#changed.fire(paths);
  }

  async #readTouched(): Promise<void> {
    const paths = [...this.#touched];
    this.#touched.clear();
    const stored = new Map<string, FileText | undefined>();
    await atOnce(paths, async (path) => {
      const uri = this.uriOf(path);
      try {
        // Before it is read, so that what is written meanwhile makes a difference.
        this.#stamps.set(path, await stampOf(uri));
        stored.set(path, await readStored(uri));
        this.#unread.delete(path);
      } catch (error) {
        this.#unread.add(path);
        // It is there, but can't be read now: what was read before goes on to count.
        console.warn(`${uri.toString()} can't be read`, error);
      }
    });
    if (this.#isDisposed) return;
    this.#apply(paths.flatMap((path) => this.#changeByStored(path, stored) ?? []));
  }

  /** What a file that was just read means for the plan, with what is open by now. */
  #changeByStored(path: string, stored: ReadonlyMap<string, FileText | undefined>): FileChange | undefined {
    if (!this.#files.has(path) || !stored.has(path)) return undefined;
    const file = stored.get(path);
    if (file?.badAt === undefined && file?.mixedLineEnds !== true) this.#faults.delete(path);
    else this.#faults.set(path, { ...(file.badAt === undefined ? {} : { badAt: file.badAt }), mixedLineEnds: file.mixedLineEnds === true });
    const document = this.#documents.get(this.uriOf(path));
    // An editor that still shows a deleted file counts as long as it holds something unsaved.
    if (document !== undefined && (file !== undefined || document.isDirty)) return this.#changeByDocument(path, document);
    this.#followed.delete(path);
    if (file !== undefined) return this.#isHeld(path, file) ? undefined : { path, file };
    this.#files.delete(path);
    this.#stamps.delete(path);
    return { path, file };
  }

  /** The document's text as a change of the plan, with what is amiss in the stored file; undefined where the plan holds it already. */
  #changeByDocument(path: string, document: vscode.TextDocument): FileChange | undefined {
    this.#follow(path, document);
    const text = document.getText();
    const stored = this.#faults.get(path) ?? NO_FAULTS;
    const badAt = firstLost(document.encoding, text) ?? (stored.badAt === undefined ? undefined : Math.min(stored.badAt, text.length));
    const file: FileText = { text, ...(badAt === undefined ? {} : { badAt }), mixedLineEnds: stored.mixedLineEnds === true };
    return this.#isHeld(path, file) ? undefined : { path, file };
  }

  /** Whether the plan holds the file just like that. */
  #isHeld(path: string, file: FileText): boolean {
    const held = this.#held(path);
    const isMixed = file.mixedLineEnds === true;
    return held.text === file.text && held.badAt === file.badAt && (held.mixedLineEnds === true) === isMixed && this.#isInPlan(path);
  }

  #isInPlan(path: string): boolean {
    return path === CONFIG ? this.#config !== undefined : this.plan.records.file(path) !== undefined;
  }

  /** The file as the plan holds it. */
  #held(path: string): FileText {
    if (path === CONFIG) return { text: '', mixedLineEnds: false, ...this.#config };
    const file = this.plan.records.file(path);
    if (file === undefined) return { text: '', mixedLineEnds: false };
    return { text: file.doc.text(), ...(file.badAt === undefined ? {} : { badAt: file.badAt }), mixedLineEnds: file.mixedLineEnds };
  }

  #follow(path: string, document: vscode.TextDocument): void {
    const { version, eol, encoding } = document;
    this.#followed.set(path, { document, version, eol, encoding });
  }

  #forget(path: string): void {
    this.#files.delete(path);
    this.#unread.delete(path);
    this.#followed.delete(path);
    this.#faults.delete(path);
    this.#stamps.delete(path);
    this.#apply([{ path, file: undefined }]);
  }

  #apply(batch: readonly FileChange[]): void {
    if (batch.length === 0) return;
    const touched = new Set(this.plan.apply(batch));
    for (const change of batch) {
      touched.add(change.path);
      if (change.path !== CONFIG || !('file' in change)) continue;
      this.#config = change.file;
      // A fixed moment is one of the zone, which may be another now.
      const { clock } = this;
      if (clock.kind !== 'fixed' || clock.moment.instant === this.plan.now.instant) continue;
      for (const path of this.plan.setNow(clock.moment.instant)) touched.add(path);
    }
    this.#tell(touched);
  }
}

function isUtf8(encoding: string): boolean {
  return encoding === 'utf8' || encoding === 'utf8bom';
}

/** Where the text begins to be something else than UTF-8 once it is saved in its encoding. */
function firstLost(encoding: string, text: string): number | undefined {
  if (isUtf8(encoding)) return undefined;
  if (encoding.startsWith('utf16')) return 0;
  const at = text.search(/[^\0-\x7F]/);
  return at < 0 ? undefined : at;
}
