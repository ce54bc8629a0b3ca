/**
 * Keys of a grid with one tab stop: the arrows move among what carries `data-cell` in what carries `data-line`, Home and End within a
 * line, Ctrl+Home and Ctrl+End to the first and last of all. Returns the cell to go to; undefined where a key means nothing here.
 */
export function cellByKey(event: KeyboardEvent, grid: Element): HTMLElement | undefined {
  if (event.altKey || event.metaKey) return undefined;
  const from = (event.target as Element).closest<HTMLElement>('[data-cell]');
  const line = from?.closest('[data-line]');
  if (from === null || line === null || line === undefined || !grid.contains(from)) return undefined;
  const lines = [...grid.querySelectorAll('[data-line]')].filter((each) => each.querySelector('[data-cell]') !== null);
  const cellsOf = (of: Element | undefined): readonly HTMLElement[] => [...(of?.querySelectorAll<HTMLElement>('[data-cell]') ?? [])];
  const cells = cellsOf(line);
  const [row, column] = [lines.indexOf(line), cells.indexOf(from)];
  const inLine = (at: number): HTMLElement | undefined => {
    const there = cellsOf(lines[at]);
    return there[Math.min(column, there.length - 1)];
  };
  switch (event.key) {
    case 'ArrowRight':
      return cells[column + 1] ?? (grid.hasAttribute('data-wraps') ? cellsOf(lines[row + 1])[0] : undefined);
    case 'ArrowLeft':
      return cells[column - 1] ?? (grid.hasAttribute('data-wraps') ? cellsOf(lines[row - 1]).at(-1) : undefined);
    case 'ArrowDown':
      return inLine(row + 1);
    case 'ArrowUp':
      return row === 0 ? undefined : inLine(row - 1);
    case 'Home':
      return event.ctrlKey ? cellsOf(lines[0])[0] : cells[0];
    case 'End':
      return event.ctrlKey ? cellsOf(lines.at(-1)).at(-1) : cells.at(-1);
    default:
      return undefined;
  }
}
