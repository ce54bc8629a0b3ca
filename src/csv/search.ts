/** The last index whose entry is at most `value`, or -1. `sorted` ascends. */
export function lastAtMost(sorted: Uint32Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((sorted[middle] as number) <= value) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
