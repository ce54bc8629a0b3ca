import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { Evaluation } from './evaluation';
import { withColumnsOf } from './staleness';
import type { LogRowStates } from './staleness';

/** What computed columns that a file doesn't have would hold in a row. */
export interface AbsentCells {
  readonly row: Row;
  readonly record: number;
  /** By header, in the order in which the columns would be added; never empty texts. */
  readonly cells: ReadonlyMap<string, string>;
}

/** Records of a file from one to another, both with. */
export interface RecordRange {
  readonly first: number;
  readonly last: number;
}

/**
 * What a fill would write in these records if the file had the columns of `wanted` that it doesn't have (all of them where it
 * isn't given). Rows of which nothing is known or nothing would be written are left out.
 */
export function absentCells({ file, records, wanted }: { readonly file: SheetFile; readonly records: RecordRange; readonly wanted: ReadonlySet<string> | undefined }, evaluation: Evaluation): readonly AbsentCells[] {
  if (file.blocked !== undefined) return [];
  const { columnOf } = file.header;
  const logs = new Map<string, LogRowStates>();
  const found: AbsentCells[] = [];
  for (let record = Math.max(1, records.first); record <= Math.min(records.last, file.doc.rowCount - 1); record++) {
    const row = file.rowAt(record);
    // Such a row is never filled.
    if (row?.wellFormed !== true) continue;
    const cells = new Map<string, string>();
    withColumnsOf({ file, row, logs }, evaluation, (all, state) => {
      if (state === undefined) return;
      for (const column of all) {
        if (columnOf.has(column.header) || wanted?.has(column.header) === false) continue;
        const text = column.value(state, evaluation);
        if (text !== '') cells.set(column.header, text);
      }
    });
    if (cells.size > 0) found.push({ row, record, cells });
  }
  return found;
}
