import type { PairState } from './states';

/** What is known of each pair of the register, by id and by the tank that is its own. */
export class KnownPairs {
  readonly #states = new Map<string, PairState>();
  readonly #byTank = new Map<string, Set<string>>();

  get(id: string): PairState | undefined {
    return this.#states.get(id);
  }

  ids(): IterableIterator<string> {
    return this.#states.keys();
  }

  values(): IterableIterator<PairState> {
    return this.#states.values();
  }

  /** In no order. */
  inTank(tank: string): Iterable<string> {
    return this.#byTank.get(tank) ?? [];
  }

  /** Without a state the pair is forgotten. */
  set(id: string, state: PairState | undefined): void {
    const before = this.#states.get(id)?.pair.tank;
    const tank = state?.pair.tank;
    if (state === undefined) this.#states.delete(id);
    else this.#states.set(id, state);
    if (before === tank) return;
    if (before !== undefined) this.#byTank.get(before)?.delete(id);
    if (tank === undefined) return;
    const there = this.#byTank.get(tank);
    if (there === undefined) this.#byTank.set(tank, new Set([id]));
    else there.add(id);
  }
}
