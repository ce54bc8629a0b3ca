import type { ClutchMemory } from './clutchMemory';
import type { ClutchState } from './states';

const NO_CLUTCHES: readonly ClutchState[] = [];

/** The open clutches by the tanks that they stand in. */
export class Standing {
  readonly #byTank = new Map<string, { readonly memories: Set<ClutchMemory>; inOrder: readonly ClutchState[] | undefined }>();

  /** By id; put in order when somebody first asks. */
  in(tank: string): readonly ClutchState[] {
    const there = this.#byTank.get(tank);
    if (there === undefined) return NO_CLUTCHES;
    return (there.inOrder ??= [...there.memories].sort((a, b) => (a.clutch.clutch < b.clutch.clutch ? -1 : 1)));
  }

  add(tank: string, memory: ClutchMemory): void {
    let there = this.#byTank.get(tank);
    if (there === undefined) this.#byTank.set(tank, (there = { memories: new Set(), inOrder: undefined }));
    there.memories.add(memory);
    there.inOrder = undefined;
  }

  remove(tank: string, memory: ClutchMemory): void {
    const there = this.#byTank.get(tank);
    if (there?.memories.delete(memory) !== true) return;
    there.inOrder = undefined;
    if (there.memories.size === 0) this.#byTank.delete(tank);
  }
}
