import { setCell } from '../csv/edits';
import type { SheetFile } from '../records/sheetFile';
import type { CellChange, Fills, HandKept } from './cellChange';
import type { Evaluation } from './evaluation';
import { isHandKept } from './handKept';
import { cellSpan } from './places';
import { expectedCells } from './staleness';
import type { LogRowStates } from './staleness';

const NONE: Fills = { changes: [], handKept: [] };

/** The computed cells of a file that aren't what they should be, in the order of the text. */
export function fillsOf(path: string, evaluation: Evaluation, overwrite: boolean): Fills {
  const file = evaluation.records.file(path);
  if (file === undefined || file.blocked !== undefined || file.staleCounts.every((count) => count === 0)) return NONE;
  const handKept = overwrite ? [] : handKeptColumns(file, evaluation);
  const left = new Set(handKept.map(({ header }) => header));
  const changes: CellChange[] = [];
  const logs = new Map<string, LogRowStates>();
  for (const row of file.rows()) {
    if (row.stale === 0) continue;
    const cells = expectedCells(file, row, evaluation, logs);
    const record = file.recordOf(row);
    file.header.computed.forEach(({ column, field }, i) => {
      if (((row.stale >>> i) & 1) === 0 || left.has(field.name)) return;
      const after = cells[i] as string;
      changes.push({
        file: path,
        span: cellSpan(file, row, column),
        header: field.name,
        before: file.cellText(row, column) as string,
        after,
        edits: setCell(file.doc, record, column, after),
      });
    });
  }
  return { changes: changes.sort((a, b) => a.span.start - b.span.start), handKept };
}

function handKeptColumns(file: SheetFile, evaluation: Evaluation): readonly HandKept[] {
  return file.header.computed.flatMap(({ column, field }, i) => {
    const rows = file.staleCounts[i] as number;
    if (rows === 0 || !isHandKept(file, i, evaluation)) return [];
    const span = file.doc.span(0, column);
    return [{ file: file.path, span, header: field.name, rows }];
  });
}
