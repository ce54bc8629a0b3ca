/** What a walk through a folder of the workspace came by; places are URIs as texts. */
export interface Walked {
  readonly folders: readonly string[];
  /** Those of them that lie behind a link, or are one. */
  readonly linked: readonly string[];
}

/**
 * Keeps which folders nothing may be told of. Where a system watches folders one by one, as Linux does, VS Code's watcher misses those inside a folder that
 * is made or moved here with all that it holds: they appear without being told of, and so does everything in them from then on. What lies behind a link is
 * not watched anywhere.
 */
export class WatchedFolders {
  #known = new Set<string>();
  readonly #told = new Set<string>();
  readonly #unwatched = new Set<string>();
  #linked: ReadonlySet<string> = new Set();
  /** Forgotten while a walk was under way that may have come by before; undefined while there is none. */
  #lost: string[] | undefined;

  /** Folders that have to be looked at, since nothing may be told of them. */
  unwatched(): readonly string[] {
    return [...new Set([...this.#unwatched, ...this.#linked])];
  }

  /** Those that the last walk came by. */
  known(): readonly string[] {
    return [...this.#known];
  }

  /** Whether the last walk came by. */
  isKnown(folder: string): boolean {
    return this.#known.has(folder);
  }

  /** The watcher told that something appeared. A folder among it is watched from then on. */
  tellCreated(place: string): void {
    this.#told.add(place);
    this.#unwatched.delete(place);
  }

  /** The watcher told that a file changed, so its folder is watched. */
  tellChanged(file: string): void {
    this.#unwatched.delete(file.slice(0, file.lastIndexOf('/')));
  }

  /** What lay there is gone, or has made room for something else of the same name. */
  forget(place: string): void {
    this.#lost?.push(place);
    this.#told.delete(place);
    if (!this.#known.has(place)) return;
    for (const places of [this.#known, this.#told, this.#unwatched]) for (const other of places) if (isWithin(other, place)) places.delete(other);
  }

  /** Says that a walk through the workspace begins; what is given back says what it came by in each of its folders. */
  beginWalk(): (walked: ReadonlyMap<string, Walked>) => void {
    const before = [...this.#told];
    const lost: string[] = [];
    this.#lost = lost;
    return (walked) => {
      const known = new Set<string>();
      for (const [root, { folders }] of walked) {
        // A watcher that begins looks for all folders there are.
        const isNew = !this.#known.has(root);
        for (const folder of folders) {
          if (lost.some((place) => isWithin(folder, place))) continue;
          known.add(folder);
          if (!isNew && !this.#known.has(folder) && !this.#told.has(folder)) this.#unwatched.add(folder);
        }
      }
      this.#linked = new Set([...walked.values()].flatMap(({ linked }) => linked));
      for (const folder of this.#unwatched) if (!known.has(folder)) this.#unwatched.delete(folder);
      for (const place of before) this.#told.delete(place);
      this.#known = known;
      this.#lost = undefined;
    };
  }
}

function isWithin(place: string, folder: string): boolean {
  return place === folder || place.startsWith(`${folder}/`);
}
