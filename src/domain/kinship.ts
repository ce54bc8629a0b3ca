/** A fish with what is known of its parents. */
export interface Lineage {
  readonly fish: string;
  readonly sire?: string | undefined;
  readonly dam?: string | undefined;
  /** Where it comes from: fish of one origin whose parents nobody knows may be related. */
  readonly origin?: string | undefined;
}

const NONE = -1;
const MANY = -2;

/**
 * Descent, inbreeding and kinship of fish: F between 0 and 1, kinship ½·a by the tabular method's rules; founders are not
 * inbred, and parents that nobody knows are unrelated, unless they are of one origin: then it can't be known. Inbreeding
 * after Meuwissen & Luo (1992), Genet. Sel. Evol. 24:305; one fish with all others after Colleau (2002), Genet. Sel. Evol.
 * 34:409 (both from memory). No matrix of all pairs is ever made.
 */
export class Pedigree {
  /** Fish that are their own ancestors, which can't be. */
  readonly loops: ReadonlySet<string>;
  /** Parents stand before their offspring. */
  readonly #ids: readonly string[];
  readonly #place: ReadonlyMap<string, number>;
  readonly #sires: Int32Array;
  readonly #dams: Int32Array;
  /** Inbreeding; NaN where it can't be known. */
  readonly #f: Float64Array;
  /** Variance of Mendelian sampling, in units of that of a founder. */
  readonly #d: Float64Array;
  /** What the two fish that are looked at have of each ancestor; empty again afterwards. */
  readonly #ofA: Float64Array;
  readonly #ofB: Float64Array;
  /** By origin the one founder that a fish goes back to, or MANY. */
  readonly #founders: (ReadonlyMap<string, number> | undefined)[];

  /** Of several fish of one name the first holds; parents that are not among them are founders of no origin. */
  constructor(all: Iterable<Lineage>) {
    const given = new Map<string, Lineage>();
    for (const one of all) if (!given.has(one.fish)) given.set(one.fish, one);
    for (const { sire, dam } of [...given.values()]) for (const parent of [sire, dam]) if (parent !== undefined && !given.has(parent)) given.set(parent, { fish: parent });
    const { order, loops } = inOrder(given);
    this.loops = loops;
    this.#ids = order;
    this.#place = new Map(order.map((id, i) => [id, i]));
    const n = order.length;
    this.#sires = new Int32Array(n).fill(NONE);
    this.#dams = new Int32Array(n).fill(NONE);
    this.#f = new Float64Array(n);
    this.#d = new Float64Array(n);
    this.#ofA = new Float64Array(n);
    this.#ofB = new Float64Array(n);
    this.#founders = new Array<ReadonlyMap<string, number> | undefined>(n);
    order.forEach((id, i) => this.#settle(i, given.get(id) as Lineage));
  }

  /** F; undefined for a fish that isn't there, in a loop or descended from one, or whose parents may be related. */
  inbreeding(fish: string): number | undefined {
    return known(this.#f[this.#place.get(fish) ?? NONE]);
  }

  /** Kinship of two fish, which is F of their young; undefined where it can't be known. */
  kinship(a: string, b: string): number | undefined {
    const [i, j] = [this.#place.get(a), this.#place.get(b)];
    return i === undefined || j === undefined ? undefined : known(this.#kinship(i, j));
  }

  /** Kinship of one fish with many others; undefined where it can't be known. Takes time by the number of fish, not of pairs. */
  kinshipWith(fish: string, others: readonly string[]): readonly (number | undefined)[] {
    const i = this.#place.get(fish);
    if (i === undefined || Number.isNaN(this.#f[i])) return others.map(() => undefined);
    const n = this.#ids.length;
    const share = new Float64Array(n);
    share[i] = 1;
    for (let k = i; k >= 0; k--) this.#toParents(k, share);
    const row = new Float64Array(n);
    for (let k = 0; k < n; k++) row[k] = (share[k] as number) * (this.#d[k] as number) + (at(row, this.#sires[k]) + at(row, this.#dams[k])) / 2;
    return others.map((other) => {
      const j = this.#place.get(other);
      return j === undefined || Number.isNaN(this.#f[j]) || this.#mayBeRelated(i, j) ? undefined : (row[j] as number) / 2;
    });
  }

  #settle(i: number, { fish, sire, dam, origin }: Lineage): void {
    if (this.loops.has(fish)) {
      this.#f[i] = Number.NaN;
      this.#d[i] = 1;
      return;
    }
    const [s, d] = [sire, dam].map((parent) => (parent === undefined ? NONE : (this.#place.get(parent) as number))) as [number, number];
    this.#sires[i] = s;
    this.#dams[i] = d;
    const own = origin === undefined || origin === '' || (s !== NONE && d !== NONE) ? undefined : origin;
    this.#founders[i] = joined(i, own, [this.#founders[s], this.#founders[d]]);
    this.#f[i] = s === NONE || d === NONE ? (unknownParent(this.#f, s, d) ? Number.NaN : 0) : this.#kinship(s, d);
    this.#d[i] = 1 - (s === NONE ? 0 : (1 + (this.#f[s] as number)) / 4) - (d === NONE ? 0 : (1 + (this.#f[d] as number)) / 4);
  }

  /** Follows both to their common ancestors, the youngest first: ½·Σ l_a·l_b·d. NaN where it can't be known. */
  #kinship(a: number, b: number): number {
    if (Number.isNaN(this.#f[a]) || Number.isNaN(this.#f[b])) return Number.NaN;
    if (a === b) return (1 + (this.#f[a] as number)) / 2;
    if (this.#mayBeRelated(a, b)) return Number.NaN;
    const [ofA, ofB] = [this.#ofA, this.#ofB];
    ofA[a] = 1;
    ofB[b] = 1;
    let sum = 0;
    // Ancestors still to come: the walk ends with the oldest, or where what is left of one is nothing any more.
    let waiting = 2;
    for (let k = Math.max(a, b); waiting > 0 && k >= 0; k--) {
      const [shareA, shareB] = [ofA[k] as number, ofB[k] as number];
      if (shareA === 0 && shareB === 0) continue;
      waiting--;
      ofA[k] = 0;
      ofB[k] = 0;
      sum += shareA * shareB * (this.#d[k] as number);
      for (const parent of [this.#sires[k] as number, this.#dams[k] as number]) {
        if (parent === NONE) continue;
        if (ofA[parent] === 0 && ofB[parent] === 0) waiting++;
        ofA[parent] = (ofA[parent] as number) + shareA / 2;
        ofB[parent] = (ofB[parent] as number) + shareB / 2;
      }
    }
    return sum / 2;
  }

  /** Whether both go back to different fish of one origin whose parents nobody knows. */
  #mayBeRelated(a: number, b: number): boolean {
    const [ofA, ofB] = [this.#founders[a], this.#founders[b]];
    if (ofA === undefined || ofB === undefined) return false;
    for (const [origin, founder] of ofA) {
      const other = ofB.get(origin);
      if (other !== undefined && (founder === MANY || other !== founder)) return true;
    }
    return false;
  }

  #toParents(k: number, share: Float64Array): void {
    const half = (share[k] as number) / 2;
    if (half === 0) return;
    for (const parent of [this.#sires[k] as number, this.#dams[k] as number]) if (parent !== NONE) share[parent] = (share[parent] as number) + half;
  }
}

function known(value: number | undefined): number | undefined {
  return value === undefined || Number.isNaN(value) ? undefined : value;
}

function at(values: Float64Array, i: number | undefined): number {
  return i === undefined || i === NONE ? 0 : (values[i] as number);
}

function unknownParent(f: Float64Array, sire: number, dam: number): boolean {
  return [sire, dam].some((parent) => parent !== NONE && Number.isNaN(f[parent]));
}

/** By origin the founders that the parents go back to, and the fish itself where one of its own parents is not known. */
function joined(fish: number, own: string | undefined, parents: readonly (ReadonlyMap<string, number> | undefined)[]): ReadonlyMap<string, number> | undefined {
  const [first, second] = parents;
  if (own === undefined && (first === second || second === undefined)) return first;
  if (own === undefined && first === undefined) return second;
  const all = new Map<string, number>(first);
  for (const [origin, founder] of [...(second ?? []), ...(own === undefined ? [] : [[own, fish] as const])]) {
    const there = all.get(origin);
    all.set(origin, there === undefined || there === founder ? founder : MANY);
  }
  return all;
}

/**
 * Parents before offspring, but for fish in loops, which stand together before their offspring. Tarjan's strongly
 * connected components (1972), with a list in place of recursion: lines of descent may be long.
 */
function inOrder(given: ReadonlyMap<string, Lineage>): { readonly order: readonly string[]; readonly loops: ReadonlySet<string> } {
  const order: string[] = [];
  const loops = new Set<string>();
  const found = new Map<string, { readonly rank: number; low: number; isOpen: boolean }>();
  const open: string[] = [];
  for (const start of given.keys()) {
    if (found.has(start)) continue;
    const path = [{ fish: start, parents: parentsOf(start, given), next: 0 }];
    enter(start);
    for (let step = path.at(-1); step !== undefined; step = path.at(-1)) {
      const parent = step.parents[step.next++];
      const own = found.get(step.fish) as { readonly rank: number; low: number; isOpen: boolean };
      if (parent !== undefined) {
        const there = found.get(parent);
        if (there === undefined) {
          enter(parent);
          path.push({ fish: parent, parents: parentsOf(parent, given), next: 0 });
        } else if (there.isOpen) own.low = Math.min(own.low, there.rank);
        if (parent === step.fish) loops.add(parent);
        continue;
      }
      path.pop();
      const below = path.at(-1);
      if (below !== undefined) {
        const state = found.get(below.fish) as { low: number };
        state.low = Math.min(state.low, own.low);
      }
      if (own.low === own.rank) close(step.fish);
    }
  }
  return { order, loops };

  function enter(fish: string): void {
    found.set(fish, { rank: found.size, low: found.size, isOpen: true });
    open.push(fish);
  }

  function close(fish: string): void {
    const members = open.splice(open.lastIndexOf(fish));
    for (const member of members) {
      (found.get(member) as { isOpen: boolean }).isOpen = false;
      order.push(member);
      if (members.length > 1) loops.add(member);
    }
  }
}

function parentsOf(fish: string, given: ReadonlyMap<string, Lineage>): readonly string[] {
  const { sire, dam } = given.get(fish) as Lineage;
  return [sire, dam].filter((parent) => parent !== undefined);
}
