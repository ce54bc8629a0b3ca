/** Times of one thing done several times, in ms. */
export interface Times {
  readonly median: number;
  readonly best: number;
  readonly worst: number;
}

export function timesOf(all: readonly number[]): Times {
  const sorted = [...all].sort((a, b) => a - b);
  const middle = sorted.length >>> 1;
  const median = sorted.length % 2 === 1 ? sorted[middle] : ((sorted[middle - 1] as number) + (sorted[middle] as number)) / 2;
  return { median: median as number, best: sorted[0] as number, worst: sorted[sorted.length - 1] as number };
}

/** How long it takes, in ms; what earlier work left behind is cleared away first. */
export async function timed(act: () => unknown): Promise<number> {
  globalThis.gc?.();
  const start = performance.now();
  await act();
  return performance.now() - start;
}

/**
 * Does several things in turn, so that what else the machine does falls on all of them alike: first `warmUps` rounds that
 * don't count, then `rounds` that do.
 */
export async function inTurn<Name extends string>(
  acts: Readonly<Record<Name, () => unknown>>,
  { warmUps, rounds }: { readonly warmUps: number; readonly rounds: number },
): Promise<Readonly<Record<Name, Times>>> {
  const all = Object.fromEntries(Object.keys(acts).map((name) => [name, []])) as unknown as Record<Name, number[]>;
  for (let round = -warmUps; round < rounds; round++) {
    for (const name of Object.keys(acts) as Name[]) {
      const took = await timed(acts[name]);
      if (round >= 0) all[name].push(took);
    }
  }
  return Object.fromEntries(Object.entries<number[]>(all).map(([name, times]) => [name, timesOf(times)])) as Record<Name, Times>;
}

/** One line of figures: a name and columns, set to the right. */
export function line(name: string, ...columns: readonly (string | number)[]): void {
  const cells = columns.map((cell) => (typeof cell === 'number' ? figure(cell) : cell).padStart(11));
  console.log(name.padEnd(34) + cells.join(''));
}

function figure(value: number): string {
  if (value >= 100) return value.toFixed(0);
  return value.toPrecision(3);
}
