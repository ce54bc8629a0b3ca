import type { Plan } from '../../src/planner/plan';
import { stopwatch, timesOf } from './measure';
import type { Times, Took } from './measure';

/** What a keystroke and taking it back took, each once: until the problems were known, and until the computed cells were too. */
export interface Typed {
  readonly problems: Times;
  readonly fills: Times;
  /** Most files that one of them touched. */
  readonly touched: number;
}

/** A record of a file; 0 is the header row. */
export interface Place {
  readonly path: string;
  readonly record: number;
}

/**
 * Types a character at the end of a column's cell in each of these records, and takes it back again. Records whose cell
 * is empty or quoted are left out; throws when no other is there.
 */
export function typeInto(plan: Plan, places: readonly Place[], { header, character }: { readonly header: string; readonly character: string }): Typed {
  const strokes = places.flatMap(({ path, record }) => {
    const { doc } = fileOf(plan, path);
    const { start, end } = doc.span(record, columnOf(plan, path, header));
    return start === end || doc.value(record, columnOf(plan, path, header)).length !== end - start ? [] : [{ path, at: end, text: character }];
  });
  return insertEach(plan, strokes);
}

/** Writes a text at the end of each of these files, and takes it back again. */
export function append(plan: Plan, paths: readonly string[], text: string): Typed {
  return insertEach(plan, paths.map((path) => ({ path, at: fileOf(plan, path).doc.length, text })));
}

/** `strokes` are each taken back before the next, so all of their places are those before any. */
function insertEach(plan: Plan, strokes: readonly { readonly path: string; readonly at: number; readonly text: string }[]): Typed {
  if (strokes.length === 0) throw new Error('there was nothing to type into');
  const problems: Took[] = [];
  const fills: Took[] = [];
  let most = 0;
  const act = (path: string, edit: { readonly start: number; readonly end: number; readonly text: string }): void => {
    const took = stopwatch();
    const touched = plan.apply([{ path, edits: [edit] }]);
    for (const other of touched) plan.problems(other);
    problems.push(took());
    for (const other of touched) plan.fills(other);
    fills.push(took());
    most = Math.max(most, touched.size);
  };
  for (const { path, at, text } of strokes) {
    act(path, { start: at, end: at, text });
    act(path, { start: at, end: at + text.length, text: '' });
  }
  return { problems: timesOf(problems), fills: timesOf(fills), touched: most };
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
