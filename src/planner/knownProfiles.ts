import type { Records } from '../records/records';

/** What was known of species, to tell a change of what counts from one of a row's note. */
export class KnownProfiles {
  readonly #records: Records;
  readonly #known = new Map<string, string | undefined>();

  constructor(records: Records) {
    this.#records = records;
  }

  /** Keeps what is known of a species that something hangs on. */
  note(species: string | undefined): void {
    if (species !== undefined && !this.#known.has(species)) this.#known.set(species, this.#textOf(species));
  }

  /** Those of the species of which something else is known than before; keeps it. */
  changed(species: ReadonlySet<string>): ReadonlySet<string> {
    const different = new Set<string>();
    for (const id of species) {
      const profile = this.#textOf(id);
      if (profile !== this.#known.get(id)) different.add(id);
      this.#known.set(id, profile);
    }
    return different;
  }

  #textOf(species: string): string | undefined {
    const profile = this.#records.profile(species);
    return profile === undefined ? undefined : JSON.stringify(profile);
  }
}
