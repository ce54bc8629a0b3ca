import { hoverAt } from '../../src/language/hover';
import type { Plan } from '../../src/planner/plan';
import { fileOf } from './typing';
import { stopwatch, timesOf } from './measure';
import type { Times, Took } from './measure';

/** What pointing at a column's cell of each of these records took, each once; throws where there is nothing to tell. */
export function pointAt(plan: Plan, path: string, { header, records }: { readonly header: string; readonly records: readonly number[] }): Times {
  const { doc, header: columns } = fileOf(plan, path);
  const column = columns.columnOf.get(header);
  if (column === undefined) throw new Error(`${path} has no column ${header}`);
  const all = records.map((record): Took => {
    const offset = doc.span(record, column).start;
    const took = stopwatch();
    const hover = hoverAt(plan, path, offset);
    const time = took();
    if (hover === undefined) throw new Error(`nothing to tell of ${header} in record ${record}`);
    return time;
  });
  return timesOf(all);
}
