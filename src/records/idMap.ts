/** How many there is room for at first; a power of 2, as all that follow. */
const fewest = 16;

/**
 * A map from ids, in the order in which they came. `Map` doesn't keep hashes beside its keys, so each search looks at other
 * keys, which lie all over the memory, and it looks at all of them whenever it grows.
 */
export class IdMap<Value> {
  readonly #idOf: (value: Value) => string;
  #values: (Value | undefined)[] = [];
  #size = 0;
  /** The hash of each id and its place from 1, found where the hash says or behind it. At least every other pair is 0. */
  #marks = new Int32Array(4 * fewest);

  constructor(idOf: (value: Value) => string) {
    this.#idOf = idOf;
  }

  get size(): number {
    return this.#size;
  }

  get(id: string): Value | undefined {
    const place = this.#marks[this.#markOf(id, hashOf(id)) + 1] as number;
    return place === 0 ? undefined : this.#values[place - 1];
  }

  /** Takes a value in, unless there is one for the id already, which is given then. */
  add(id: string, value: Value): Value | undefined {
    const hash = hashOf(id);
    const mark = this.#markOf(id, hash);
    const place = this.#marks[mark + 1] as number;
    if (place !== 0) return this.#values[place - 1];
    this.#size++;
    this.#marks[mark] = hash;
    this.#marks[mark + 1] = this.#values.push(value);
    if (4 * this.#values.length === this.#marks.length) this.#makeRoom();
    return undefined;
  }

  /** Takes a value in for an id that is there. */
  replace(id: string, value: Value): void {
    this.#values[(this.#marks[this.#markOf(id, hashOf(id)) + 1] as number) - 1] = value;
  }

  delete(id: string): void {
    const place = this.#marks[this.#markOf(id, hashOf(id)) + 1] as number;
    if (place === 0) return;
    this.#size--;
    this.#values[place - 1] = undefined;
  }

  *keys(): IterableIterator<string> {
    for (const value of this.#values) if (value !== undefined) yield this.#idOf(value);
  }

  /** Where an id is marked, or may be. */
  #markOf(id: string, hash: number): number {
    const marks = this.#marks;
    const last = marks.length - 1;
    let mark = (2 * hash) & last;
    for (let place = marks[mark + 1] as number; place !== 0; place = marks[mark + 1] as number) {
      if (marks[mark] === hash && this.#isAt(place - 1, id)) break;
      mark = (mark + 2) & last;
    }
    return mark;
  }

  #isAt(place: number, id: string): boolean {
    const value = this.#values[place];
    return value !== undefined && this.#idOf(value) === id;
  }

  /** For as many again as there are. Ids that went leave their places. */
  #makeRoom(): void {
    const [values, marks] = [this.#values, this.#marks];
    const places = new Int32Array(values.length);
    this.#values = [];
    values.forEach((value, place) => {
      if (value !== undefined) places[place] = this.#values.push(value);
    });
    let length = 4 * fewest;
    while (length < 8 * this.#size) length *= 2;
    this.#marks = new Int32Array(length);
    for (let mark = 0; mark < marks.length; mark += 2) {
      const place = places[(marks[mark + 1] as number) - 1] ?? 0;
      if (place === 0) continue;
      const hash = marks[mark] as number;
      let to = (2 * hash) & (length - 1);
      while (this.#marks[to + 1] !== 0) to = (to + 2) & (length - 1);
      this.#marks[to] = hash;
      this.#marks[to + 1] = place;
    }
  }
}

function hashOf(id: string): number {
  let hash = 0;
  for (let at = 0; at < id.length; at++) hash = Math.imul(hash ^ id.charCodeAt(at), 0x01000193);
  return hash ^ (hash >>> 15);
}
