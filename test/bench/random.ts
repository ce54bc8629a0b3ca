/** Numbers that look random and are the same in every run: mulberry32, a generator in the public domain. */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed;
  }

  /** From 0 to below 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  /** About 1, mostly within `spread` on either side (on a scale of logarithms), never below 0. */
  factor(spread: number): number {
    return Math.exp(spread * (this.next() + this.next() + this.next() - 1.5));
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  pick<Item>(items: readonly Item[]): Item {
    return items[Math.floor(this.next() * items.length)] as Item;
  }
}
