import { holdOne } from '../base/held';
import { blankMoment } from '../base/moment';
import { gapBetween } from '../domain/spawning';
import type { Spawn, SpawnGap } from '../domain/spawning';
import { isFollowing } from '../domain/timeOrder';
import type { Records } from '../records/records';
import { asWritten } from '../records/row';
import type { Row } from '../records/row';
import { clutchOf } from '../records/things';
import { memoryOf } from './clutchMemory';
import type { ClutchMemory } from './clutchMemory';
import { Taught } from './lessons';

/**
 * The broods of a pair, taken one by one: their spawns, and what they teach together. A whole register is taken as it is
 * written, while each row is at hand; that gives what taking each pair's broods by themselves would as long as they
 * turn out to be in the order of their spawns.
 */
export class Broods {
  /** The pair's, while it is known; of a brood that names one itself its own holds. */
  readonly species: string | undefined;
  readonly gaps: SpawnGap[] = [];
  readonly memories: ClutchMemory[] = [];
  isInOrder = true;
  /** Those that lie otherwise behind the one before than when they were last taken. */
  readonly shifted: ClutchMemory[] = [];
  readonly taught = new Taught();
  /** When the last one was spawned, and the one before. */
  #last = blankMoment();
  #before = blankMoment();

  constructor(species: string | undefined) {
    this.species = species;
  }

  get spawnCount(): number {
    return this.memories.length;
  }

  get lastSpawn(): Spawn | undefined {
    return this.memories.at(-1)?.clutch;
  }

  get spawns(): readonly Spawn[] {
    return (this.#spawns ??= this.memories.map(({ clutch }) => clutch));
  }
  #spawns: readonly Spawn[] | undefined;

  /** Takes the next one, and tells it which was before it. */
  add(memory: ClutchMemory): void {
    const before = this.memories[this.memories.length - 1];
    const { clutch } = memory;
    [this.#before, this.#last] = [this.#last, this.#before];
    clutch.fillSpawned(this.#last);
    memory.before = before?.clutch;
    memory.gap = undefined;
    if (before !== undefined) {
      memory.gap = gapBetween(this.#before, this.#last);
      this.gaps.push(memory.gap);
      this.isInOrder &&= isFollowing(this.#last, this.#before) && asWritten(before.row, memory.row) < 0;
    }
    this.memories.push(memory);
    this.#spawns = undefined;
    this.taught.add(memory.observations);
  }
}

/** Those in some rows of a register, in the order of their spawns. Throws where one wasn't read. */
export function broodsIn(rows: readonly Row[]): Broods {
  const broods = new Broods(undefined);
  for (const row of rows) {
    const memory = memoryOf(row);
    if (memory === undefined) throw new Error(`a clutch of the pair ${clutchOf(row)?.pair ?? ''} was not read`);
    const { gap } = memory;
    broods.add(memory);
    if (memory.gap !== gap) broods.shifted.push(memory);
  }
  return broods;
}

/** The broods of a pair that were taken so far. */
export function broodsAmong(pairs: Map<string, Broods>, pair: string, records: Records): Broods {
  let broods = pairs.get(pair);
  if (broods === undefined) pairs.set(pair, (broods = new Broods(records.pair(pair)?.species)));
  return broods;
}

holdOne(new Broods(undefined));
