import type { Span } from '../base/span';
import type { Plan } from '../planner/plan';
import type { SheetFile } from '../records/sheetFile';

/** How many colours there are before they begin again. */
export const COLOURS = 5;

/** A cell, or what of it stands on one line. */
export interface ColouredSpan {
  readonly span: Span;
  /** From 0 to one less than `COLOURS`, the same down a column and never that of its neighbours; `computed` in a column that isn't the keeper's. */
  readonly colour: number | 'computed';
}

/**
 * The cells of the header and those that a span touches, in order, each piece on one line and none empty; the delimiters between them are
 * nobody's. The header is always among them, since an editor keeps it in sight however far down one looks, and doesn't ask for it by itself.
 * Nothing where the file isn't there. Of a file that can't be read the columns are told by its last readable header.
 */
export function colouredSpans(plan: Plan, path: string, { start, end }: Span): readonly ColouredSpan[] {
  const file = plan.records.file(path);
  if (file === undefined || file.doc.rowCount === 0) return [];
  const { doc } = file;
  const first = Math.min(doc.at(Math.max(0, Math.min(start, doc.length))).row, doc.rowCount - 1);
  const last = Math.min(doc.at(Math.max(0, Math.min(end, doc.length))).row, doc.rowCount - 1);
  const colours = coloursOf(file);
  const spans: ColouredSpan[] = [];
  const add = (record: number, from: number, until: number): void => {
    const count = doc.cellCount(record);
    for (let column = 0; column < count; column++) {
      const colour = colours.at(column);
      for (const span of linesOf(doc.source(record, column), doc.span(record, column).start)) {
        // A cell may be as long as a file.
        if (span.end >= from && span.start <= until) spans.push({ span, colour });
      }
    }
  };
  add(0, 0, Infinity);
  for (let record = Math.max(1, first); record <= last; record++) add(record, start, end);
  return spans;
}

/** By column, counted without the computed ones, so that a computed column between two others doesn't make them alike. */
function coloursOf({ header }: SheetFile): { at(column: number): ColouredSpan['colour'] } {
  let own = 0;
  const ofHeader = header.columns.map(({ field }) => (field?.computed === true ? 'computed' : own++ % COLOURS));
  return { at: (column) => ofHeader[column] ?? (own + column - ofHeader.length) % COLOURS };
}

function linesOf(source: string, start: number): readonly Span[] {
  if (source === '') return [];
  if (!/[\r\n]/.test(source)) return [{ start, end: start + source.length }];
  return [...source.matchAll(/[^\r\n]+/g)].map(({ 0: { length }, index }) => ({ start: start + index, end: start + index + length }));
}
