import type { Count, LogEntry } from './things';

/** Fish in one tank: `count` undefined while not known, `estimate` when a guess went into it. */
export interface Stand {
  readonly count: number | undefined;
  readonly estimate: boolean;
}

/** Why a row counts for nothing in the head count, or for less than it says. */
export interface HeadFault {
  readonly kind: 'count-impossible' | 'not-there' | 'count-missing' | 'tank-missing' | 'target-missing';
  readonly entry: LogEntry;
  /** The tank in question, where there is one. */
  readonly tank?: string;
  /** Fish that were there (count-impossible). */
  readonly there?: number;
}

/** The clutch left `from` whole for `to` with this entry. */
export interface WholeMove {
  readonly entry: LogEntry;
  readonly from: string;
  readonly to: string;
}

export interface HeadCount {
  /** Tanks stood in, in order of arrival. */
  readonly stands: ReadonlyMap<string, Stand>;
  /** Over all tanks stood in. */
  readonly alive: Alive;
  readonly sold: number;
  readonly kept: number;
  /** alive + sold + kept at the first moment at which alive was known. */
  readonly firstKnown: number | undefined;
  readonly faults: readonly HeadFault[];
  readonly wholeMoves: readonly WholeMove[];
}

/** Fish alive over all tanks stood in: undefined while one is unknown, 0 where it stands in none. */
export interface Alive {
  readonly count: number | undefined;
  readonly estimate: boolean;
}

const UNKNOWN: Stand = { count: undefined, estimate: false };

/**
 * Walks a clutch's log and counts its fish, tank by tank. It begins in its register tank with an unknown count, since
 * eggs are not fish. `entries` are in order and not later than now; `afterEach` receives what is alive after each, and where.
 */
export function countHeads(
  tank: string,
  entries: readonly LogEntry[],
  afterEach?: (alive: Alive, index: number, stands: ReadonlyMap<string, Stand>) => void,
): HeadCount {
  if (entries.length === 0) return uncounted(tank);
  const tally = new Tally(tank);
  for (let i = 0; i < entries.length; i++) {
    tally.apply(entries[i] as LogEntry);
    afterEach?.(tally.alive, i, tally.stands);
  }
  return tally;
}

const uncountedIn = new Map<string, HeadCount>();

/** Most registers hold many broods of few tanks whose log says nothing: they share one answer for each tank. */
function uncounted(tank: string): HeadCount {
  let heads = uncountedIn.get(tank);
  if (heads === undefined) {
    if (uncountedIn.size > 10_000) uncountedIn.clear();
    heads = new Tally(tank);
    uncountedIn.set(tank, heads);
  }
  return heads;
}

export function aliveOf(stands: ReadonlyMap<string, Stand>): Alive {
  let count: number | undefined = 0;
  let estimate = false;
  for (const stand of stands.values()) {
    count = count === undefined || stand.count === undefined ? undefined : count + stand.count;
    estimate ||= stand.estimate;
  }
  return { count, estimate: estimate && count !== undefined };
}

/** 100 × (alive + sold + kept) / base; undefined while alive is unknown or base is missing or 0. */
export function survivalPct(heads: HeadCount, eggs: Count | undefined): number | undefined {
  const alive = heads.alive.count;
  const base = survivalBase(heads, eggs);
  if (alive === undefined || base === undefined || base === 0) return undefined;
  return (100 * (alive + heads.sold + heads.kept)) / base;
}

/** Eggs as recorded, else alive + sold + kept at the first moment at which alive was known. */
function survivalBase(heads: HeadCount, eggs: Count | undefined): number | undefined {
  return eggs?.value ?? heads.firstKnown;
}

class Tally implements HeadCount {
  readonly #stands = new Map<string, Stand>();
  /** Sums over all that it stands in, kept so that a row costs the same in however many tanks a brood is spread. */
  #known = 0;
  #unknown = 0;
  #estimates = 0;
  /** Once the sum was more than can be counted exactly, nothing may be taken from it again. */
  #isExact = true;
  sold = 0;
  kept = 0;
  firstKnown: number | undefined;
  readonly faults: HeadFault[] = [];
  readonly wholeMoves: WholeMove[] = [];

  constructor(tank: string) {
    this.#stand(tank, UNKNOWN);
  }

  get stands(): ReadonlyMap<string, Stand> {
    return this.#stands;
  }

  get alive(): Alive {
    if (!this.#isExact) return aliveOf(this.#stands);
    return this.#unknown > 0 ? UNKNOWN : { count: this.#known, estimate: this.#estimates > 0 };
  }

  #stand(tank: string, stand: Stand): void {
    const before = this.#stands.get(tank);
    if (before !== undefined) this.#sum(before, -1);
    this.#stands.set(tank, stand);
    this.#sum(stand, 1);
  }

  #leave(tank: string): void {
    const stand = this.#stands.get(tank);
    if (stand !== undefined) this.#sum(stand, -1);
    this.#stands.delete(tank);
  }

  #sum({ count, estimate }: Stand, way: 1 | -1): void {
    if (count === undefined) this.#unknown += way;
    else this.#known += way * count;
    if (estimate) this.#estimates += way;
    this.#isExact &&= Number.isSafeInteger(this.#known);
  }

  apply(entry: LogEntry): void {
    switch (entry.event) {
      case 'counted':
        this.counted(entry);
        break;
      case 'lost':
      case 'culled':
      case 'sold':
      case 'kept':
        this.taken(entry);
        break;
      case 'moved':
        this.moved(entry);
        break;
      case 'stripped':
        this.stripped(entry);
        break;
      case 'joined':
        for (const tank of [...this.#stands.keys()]) this.#leave(tank);
        break;
      default:
        return;
    }
    this.noteFirstKnown();
  }

  private noteFirstKnown(): void {
    if (this.firstKnown !== undefined) return;
    const alive = this.alive.count;
    if (alive !== undefined) this.firstKnown = alive + this.sold + this.kept;
  }

  /** The tank a row acts on where that is beyond doubt: its own, else the only one stood in. */
  private tankOf(entry: LogEntry): string | undefined {
    if (entry.tank !== undefined) return entry.tank;
    if (this.#stands.size === 1) return this.#stands.keys().next().value;
    this.fault(this.#stands.size === 0 && entry.event !== 'counted' ? 'not-there' : 'tank-missing', entry);
    return undefined;
  }

  private counted(entry: LogEntry): void {
    const tank = this.tankOf(entry);
    if (tank === undefined) return;
    if (entry.count === undefined) return this.fault('count-missing', entry);
    this.put(tank, { count: entry.count.value, estimate: entry.count.about });
  }

  private taken(entry: LogEntry): void {
    const guessed = entry.tank === undefined && this.#stands.size > 1;
    const tank = guessed ? this.fullest() : (entry.tank ?? this.#stands.keys().next().value);
    const wanted = entry.count;
    if (wanted === undefined) return this.fault('count-missing', entry);
    const stand = tank === undefined ? undefined : this.#stands.get(tank);
    if (tank === undefined || stand === undefined) {
      if (!guessed) this.fault('not-there', entry, tank);
      if (this.isUncounted()) this.leaves(entry, wanted.value);
      return;
    }
    const taken = this.take(entry, tank, { count: stand.count, estimate: stand.estimate || guessed });
    this.leaves(entry, taken);
  }

  /** Whether it stands somewhere, but no tank's count is known. */
  private isUncounted(): boolean {
    return this.#stands.size > 0 && this.#unknown === this.#stands.size;
  }

  private leaves(entry: LogEntry, count: number): void {
    if (entry.event === 'sold') this.sold += count;
    if (entry.event === 'kept') this.kept += count;
  }

  /** Takes the entry's count from the tank; returns how many were really taken. */
  private take(entry: LogEntry, tank: string, stand: Stand): number {
    const { value, about } = entry.count as Count;
    const estimate = stand.estimate || about;
    if (stand.count === undefined) {
      this.#stand(tank, UNKNOWN);
      return value;
    }
    if (value <= stand.count) {
      this.put(tank, { count: stand.count - value, estimate });
      return value;
    }
    if (stand.estimate) {
      this.#stand(tank, UNKNOWN);
      return value;
    }
    this.faults.push({ kind: 'count-impossible', entry, tank, there: stand.count });
    this.#leave(tank);
    return stand.count;
  }

  private moved(entry: LogEntry): void {
    const tank = this.tankOf(entry);
    if (tank === undefined) return;
    const target = entry.toTank;
    if (target === undefined) return this.fault('target-missing', entry);
    const stand = this.#stands.get(tank);
    if (stand === undefined) return this.fault('not-there', entry, tank);
    if (target === tank) return;
    if (entry.count === undefined) {
      this.#leave(tank);
      this.arrive(target, stand);
    } else {
      const taken = this.take(entry, tank, stand);
      if (taken > 0) this.arrive(target, { count: taken, estimate: entry.count.about });
    }
    if (!this.#stands.has(tank)) this.wholeMoves.push({ entry, from: tank, to: target });
  }

  private stripped(entry: LogEntry): void {
    const tank = this.tankOf(entry);
    if (tank === undefined) return;
    const stand = this.#stands.get(tank);
    if (stand === undefined) return this.fault('not-there', entry, tank);
    const target = entry.toTank ?? tank;
    const arrived: Stand =
      entry.count === undefined ? stand : { count: entry.count.value, estimate: entry.count.about };
    if (target === tank) return this.put(tank, arrived);
    this.#leave(tank);
    if (arrived.count !== 0) this.arrive(target, arrived);
    this.wholeMoves.push({ entry, from: tank, to: target });
  }

  private arrive(tank: string, arrived: Stand): void {
    const there = this.#stands.get(tank);
    if (there === undefined) {
      this.#stand(tank, arrived);
    } else if (there.count === undefined || arrived.count === undefined) {
      this.#stand(tank, UNKNOWN);
    } else {
      this.#stand(tank, { count: there.count + arrived.count, estimate: there.estimate || arrived.estimate });
    }
  }

  /** A tank at 0 is stood in no more. */
  private put(tank: string, stand: Stand): void {
    if (stand.count === 0) this.#leave(tank);
    else this.#stand(tank, stand);
  }

  private fullest(): string | undefined {
    let best: string | undefined;
    let most = -1;
    for (const [tank, { count }] of this.#stands) {
      if (count !== undefined && count > most) {
        best = tank;
        most = count;
      }
    }
    return best;
  }

  private fault(kind: HeadFault['kind'], entry: LogEntry, tank?: string): void {
    this.faults.push({ kind, entry, ...(tank === undefined ? {} : { tank }) });
  }
}
