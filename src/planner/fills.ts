import { setCell } from '../csv/edits';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { CellChange, Fills, HandKept } from './cellChange';
import type { Evaluation } from './evaluation';
import { isHandKept, KeepersCells } from './handKept';
import { cellSpan } from './places';
import { expectedCells } from './staleness';
import type { LogRowStates } from './staleness';
import { inDoubt, unreadSource } from './unreadSource';

const NONE: Fills = { changes: [], handKept: [] };

/**
 * The computed cells of a file that aren't what they should be, in the order of the text. Unless told to overwrite them,
 * it leaves what the keeper wrote there: whole columns that were kept by hand, and single cells in the others. None while a
 * sheet from which they come can't be read.
 */
export function fillsOf(path: string, evaluation: Evaluation, overwrite: boolean): Fills {
  const file = evaluation.records.file(path);
  if (file === undefined || file.blocked !== undefined || file.staleCounts.every((count) => count === 0)) return NONE;
  const columns = file.header.computed.map(({ field }, i) => (unreadSource(file, field.name, evaluation.records) === undefined ? new ColumnFill(file, i, evaluation, overwrite) : undefined));
  if (columns.every((column) => column === undefined)) return NONE;
  const changes: CellChange[] = [];
  const logs = new Map<string, LogRowStates>();
  const isInDoubt = inDoubt(file, evaluation.records);
  for (const row of file.staleRows) {
    if (isInDoubt?.(row) === true) continue;
    const cells = expectedCells(file, row, evaluation, logs);
    const record = file.recordOf(row);
    file.header.computed.forEach(({ column, field }, i) => {
      const fill = columns[i];
      if (fill === undefined || ((file.staleOf(row) >>> i) & 1) === 0) return;
      const [before, after] = [file.cellText(row, column) as string, cells[i] as string];
      if (fill.leaves(row, { before, after })) return;
      changes.push({ file: path, span: cellSpan(file, row, column), header: field.name, before, after, edits: setCell(file.doc, record, column, after) });
    });
  }
  return { changes: changes.sort((a, b) => a.span.start - b.span.start), handKept: columns.flatMap((column) => column?.handKept() ?? []) };
}

/** What becomes of a column's cells in a fill, and how many of them are left to the keeper. */
class ColumnFill {
  readonly #file: SheetFile;
  readonly #place: number;
  readonly #isLeft: boolean;
  readonly #keepers: KeepersCells | undefined;
  #left = 0;

  constructor(file: SheetFile, place: number, evaluation: Evaluation, overwrite: boolean) {
    this.#file = file;
    this.#place = place;
    this.#isLeft = !overwrite && file.staleCounts[place] !== 0 && isHandKept(file, place, evaluation);
    this.#keepers = overwrite ? undefined : new KeepersCells(file, place, evaluation);
  }

  leaves(row: Row, cell: { readonly before: string; readonly after: string }): boolean {
    const isLeft = this.#isLeft || this.#keepers?.has(row, cell) === true;
    if (isLeft) this.#left++;
    return isLeft;
  }

  handKept(): readonly HandKept[] {
    if (this.#left === 0) return [];
    const { column, field } = this.#file.header.computed[this.#place] as { column: number; field: { name: string } };
    return [{ file: this.#file.path, span: this.#file.doc.span(0, column), header: field.name, rows: this.#left }];
  }
}
