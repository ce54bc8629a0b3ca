import type { Plan } from '../../src/planner/plan';
import { timesOf } from './measure';
import type { Times } from './measure';

/** One character to type: into the cell of this header, `at` so many characters from its end. */
export interface Keystroke {
  readonly header: string;
  readonly character: string;
  readonly fromEnd: number;
  readonly path: string;
}

/** What a keystroke and taking it back took, until the problems were known, and until the computed cells were too. */
export interface Typed {
  readonly problems: Times;
  readonly fills: Times;
  /** Most files that one of them touched. */
  readonly touched: number;
}

/**
 * Types the character into each of these records and takes it back; each is one measurement. Records whose cell is empty
 * or quoted are left out. Throws when there are none.
 */
export function type(plan: Plan, records: Iterable<number>, { path, header, character, fromEnd }: Keystroke): Typed {
  const toProblems: number[] = [];
  const toFills: number[] = [];
  let most = 0;
  const act = (start: number, end: number, text: string): void => {
    const begin = performance.now();
    const touched = plan.apply([{ path, edits: [{ start, end, text }] }]);
    for (const other of touched) plan.problems(other);
    const middle = performance.now();
    for (const other of touched) plan.fills(other);
    toProblems.push(middle - begin);
    toFills.push(performance.now() - begin);
    most = Math.max(most, touched.size);
  };
  const column = columnOf(plan, path, header);
  for (const record of records) {
    const { doc } = fileOf(plan, path);
    const { start, end } = doc.span(record, column);
    const at = end - fromEnd;
    if (at < start || start === end || doc.value(record, column).length !== end - start) continue;
    act(at, at, character);
    act(at, at + 1, '');
  }
  if (toProblems.length === 0) throw new Error(`no ${header} to type into`);
  return { problems: timesOf(toProblems), fills: timesOf(toFills), touched: most };
}

export function fileOf(plan: Plan, path: string): NonNullable<ReturnType<Plan['records']['file']>> {
  const file = plan.records.file(path);
  if (file === undefined) throw new Error(`${path} was not read`);
  return file;
}

function columnOf(plan: Plan, path: string, header: string): number {
  const { doc } = fileOf(plan, path);
  for (let column = 0; column < doc.cellCount(0); column++) if (doc.value(0, column) === header) return column;
  throw new Error(`${path} has no column ${header}`);
}
