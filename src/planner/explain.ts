import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { cultureOf } from '../records/cultures';
import { tankOf } from '../records/things';
import { slotOf } from '../schema/slots';
import type { Column } from './columns/column';
import { clutchColumns, cultureColumns, fishColumns, logColumns, pairColumns, roomColumns, tankColumns, waterColumns } from './columns/registry';
import type { Evaluation } from './evaluation';
import type { Explanation } from './explanation';
import { logRowStates, waterRowOf } from './staleness';

/** How the computed cell at an offset came about; undefined where there is none or it isn't ours. */
export function explainAt(path: string, offset: number, evaluation: Evaluation): Explanation | undefined {
  const file = evaluation.records.file(path);
  if (file === undefined || file.blocked !== undefined) return undefined;
  const at = file.doc.at(offset);
  const header = file.header.columns[at.column]?.header;
  return header === undefined || at.row >= file.doc.rowCount ? undefined : explainCell({ path, record: at.row, header }, evaluation);
}

export function explainCell({ path, record, header }: { readonly path: string; readonly record: number; readonly header: string }, evaluation: Evaluation): Explanation | undefined {
  const file = evaluation.records.file(path);
  const row = file === undefined || file.blocked !== undefined ? undefined : file.rowAt(record);
  if (file === undefined || row === undefined) return undefined;
  return explainRow(file, row, header, evaluation);
}

function explainRow(file: SheetFile, row: Row, header: string, evaluation: Evaluation): Explanation | undefined {
  const id = row.value(slotOf(file.schema, file.schema.name === 'log' ? 'clutch' : file.schema.key)) as string | undefined;
  const tell = <State>(columns: readonly Column<State>[], state: State | undefined): Explanation | undefined => {
    const column = columns.find((candidate) => candidate.header === header);
    if (column === undefined || state === undefined) return undefined;
    const { formula, notes = [], inputs = [], constants = [], window } = column.explain(state, evaluation);
    return { header, value: column.value(state, evaluation), formula, notes, inputs, constants, window };
  };
  switch (file.schema.name) {
    case 'clutches':
      return tell(clutchColumns, id === undefined ? undefined : evaluation.clutch(id));
    case 'pairs':
      return tell(pairColumns, id === undefined ? undefined : evaluation.pair(id));
    case 'tanks':
      return tell(tankColumns, id === undefined ? undefined : tankOf(row));
    case 'rooms':
      return tell(roomColumns, id);
    case 'tank-log':
    case 'readings':
      return tell(waterColumns, waterRowOf(file, row));
    case 'fish':
      return tell(fishColumns, id === undefined ? undefined : row);
    case 'cultures':
      return tell(cultureColumns, cultureOf(row));
    case 'clutch-log':
    case 'log': {
      const clutch = file.thing ?? id;
      return tell(logColumns, clutch === undefined ? undefined : logRowStates(evaluation.clutch(clutch), evaluation)?.(row, file.schema.name));
    }
    default:
      return undefined;
  }
}
