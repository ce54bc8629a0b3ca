import { isFollowing } from '../domain/timeOrder';
import type { Spawn } from '../domain/spawning';
import { asWritten } from '../records/row';
import type { Row } from '../records/row';
import { clutchOf } from '../records/things';
import { memoryOf } from './clutchMemory';
import type { ClutchMemory } from './clutchMemory';
import { NOTHING_TAUGHT, taught } from './lessons';
import type { Taught } from './lessons';

/**
 * The broods of a pair, taken one by one: their spawns, and what they teach together. A whole register is taken as it is
 * written, while each row is at hand; that gives what taking each pair's broods by themselves would as long as they
 * turn out to be in the order of their spawns.
 */
export class Broods {
  readonly spawns: Spawn[] = [];
  readonly memories: ClutchMemory[] = [];
  isInOrder = true;
  #taught: Taught = NOTHING_TAUGHT;

  /** What they teach each other, but of growth. */
  get taught(): Taught {
    return this.#taught;
  }

  /** Takes the next one, and tells it which was before it. */
  add(memory: ClutchMemory): void {
    const before = this.memories[this.memories.length - 1];
    const { clutch } = memory;
    memory.before = before?.clutch;
    if (before !== undefined) this.isInOrder &&= isFollowing(clutch.spawned, before.clutch.spawned) && asWritten(before.row, memory.row) < 0;
    this.memories.push(memory);
    this.spawns.push(clutch);
    this.#taught = taught(this.#taught, memory.observations);
  }
}

/** Those in some rows of a register, in the order of their spawns. Throws where one wasn't read. */
export function broodsIn(rows: readonly Row[]): Broods {
  const broods = new Broods();
  for (const row of rows) {
    const memory = memoryOf(row);
    if (memory === undefined) throw new Error(`a clutch of the pair ${clutchOf(row)?.pair ?? ''} was not read`);
    broods.add(memory);
  }
  return broods;
}

/** Takes a brood among those of its pair; of one that counts for nothing yet only the pair is noted. */
export function takeAmong(pairs: Map<string, Broods>, pair: string, memory: ClutchMemory | undefined): void {
  let broods = pairs.get(pair);
  if (broods === undefined) pairs.set(pair, (broods = new Broods()));
  if (memory !== undefined) broods.add(memory);
}
