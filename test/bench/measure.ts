/** What doing one thing took, in ms: on the clock, and of the processors (helping threads included), which tells more while other work goes on. */
export interface Took {
  readonly wall: number;
  readonly cpu: number;
}

/** Of one thing done several times: medians, and the most and least on the clock. */
export interface Times extends Took {
  readonly best: number;
  readonly worst: number;
}

/** Starts to measure; call the result for what it took so far. */
export function stopwatch(): () => Took {
  const cpu = process.cpuUsage();
  const start = performance.now();
  return () => {
    const wall = performance.now() - start;
    const { user, system } = process.cpuUsage(cpu);
    return { wall, cpu: (user + system) / 1000 };
  };
}

export function timesOf(all: readonly Took[]): Times {
  const walls = all.map(({ wall }) => wall);
  return { wall: median(walls), cpu: median(all.map(({ cpu }) => cpu)), best: Math.min(...walls), worst: Math.max(...walls) };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [below, above] = [sorted[Math.ceil(sorted.length / 2) - 1], sorted[middle]];
  if (below === undefined || above === undefined) throw new Error('nothing was measured');
  return (below + above) / 2;
}

/**
 * Does several things in turn, so that what else the machine does falls on all of them alike: first `warmUps` rounds that
 * don't count, then `rounds` that do. What earlier work left behind is cleared away before each.
 */
export async function inTurn<Name extends string>(
  acts: Readonly<Record<Name, () => unknown>>,
  { warmUps, rounds }: { readonly warmUps: number; readonly rounds: number },
): Promise<Readonly<Record<Name, Times>>> {
  const all = Object.fromEntries(Object.keys(acts).map((name) => [name, []])) as unknown as Record<Name, Took[]>;
  for (let round = -warmUps; round < rounds; round++) {
    for (const name of Object.keys(acts) as Name[]) {
      globalThis.gc?.();
      const took = stopwatch();
      await acts[name]();
      if (round >= 0) all[name].push(took());
    }
  }
  return Object.fromEntries(Object.entries<readonly Took[]>(all).map(([name, times]) => [name, timesOf(times)])) as Record<Name, Times>;
}

/** Prints a line of a table: a name, and figures or headings set to the right. */
export function line(name: string, ...columns: readonly (string | number)[]): void {
  const cells = columns.map((cell) => (typeof cell === 'number' ? figure(cell) : cell).padStart(11));
  console.log(name.padEnd(30) + cells.join(''));
}

function figure(value: number): string {
  return value >= 100 || Number.isInteger(value) ? value.toFixed(0) : value.toPrecision(3);
}
