import { formatMoment } from '../base/moment';
import { dayMs } from '../base/zone';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { clutchOf, tankOf } from '../records/things';
import type { Evaluation } from './evaluation';
import { clutchColumns, pairColumns } from './columns/registry';

/** So many rows are asked when and whether their cells may have been ours; it bounds the work on a long file. */
const ASKED = 40;

/**
 * Whether a computed column (its place among the header's) holds values that the tool never wrote, as in a file that was
 * kept by hand: more of its filled cells say something that the records give at no moment than say what they give now or
 * gave at some earlier one.
 */
export function isHandKept(file: SheetFile, place: number, evaluation: Evaluation): boolean {
  const { column, field } = file.header.computed[place] as { column: number; field: { name: string } };
  const isFilled = (row: Row): boolean => (file.cellText(row, column) ?? '') !== '';
  const strange: Row[] = [];
  for (const { rows } of file.blocks) for (const row of rows) if (((row.stale >>> place) & 1) === 1 && isFilled(row)) strange.push(row);
  let ours = 0;
  // As many of ours settle it, and they mostly stand at the top.
  for (const row of file.rows()) {
    if (ours >= strange.length) return false;
    if (((row.stale >>> place) & 1) === 0 && isFilled(row)) ours++;
  }
  const asked = strange.slice(0, ASKED);
  const explained = asked.filter((row) => wasOurs(file, row, { column, header: field.name, evaluation })).length;
  const share = strange.length / asked.length;
  return (asked.length - explained) * share > ours + explained * share;
}

/** Whether the cell is what would have been written at one of the moments at which something about its thing was recorded. */
function wasOurs(file: SheetFile, row: Row, { column, header, evaluation }: { readonly column: number; readonly header: string; readonly evaluation: Evaluation }): boolean {
  const cell = file.cellText(row, column) as string;
  if (file.schema.name === 'clutches') {
    const known = clutchColumns.find((candidate) => candidate.header === header);
    const clutch = clutchOf(row);
    const state = clutch === undefined ? undefined : evaluation.clutch(clutch.clutch);
    if (known === undefined || clutch === undefined || state === undefined) return false;
    const instants = [
      clutch.spawned.instant,
      ...state.study.entries.map(({ time }) => time.instant),
      ...state.timeline.milestones.flatMap((milestone) => (milestone === undefined ? [] : [milestone.time.instant, milestone.from.instant, milestone.to.instant])),
      ...(/^\d{1,5}$/.test(cell) ? [clutch.spawned.instant + Number(cell) * dayMs] : []),
    ].filter((instant) => instant <= evaluation.now.instant);
    return instants.some((instant) => evaluation.at(instant, (view) => {
      const then = view.stateOf(clutch, row);
      return then !== undefined && known.value(then, view) === cell;
    }));
  }
  if (file.schema.name === 'pairs') {
    const known = pairColumns.find((candidate) => candidate.header === header);
    const state = evaluation.pair(row.values[0] as string);
    if (known === undefined || state === undefined) return false;
    return state.spawns.some(({ time }) => evaluation.at(time.instant, (view) => {
      const then = view.pairStateOf(state.pair);
      return known.value(then, view) === cell;
    }));
  }
  // Nobody keeps these two by hand; a whole number is what was counted here before.
  if (file.schema.name === 'rooms') return /^\d+$/.test(cell);
  if (header === 'last_reading') return evaluation.records.readingsOf(tankOf(row).tank).some(({ time }) => formatMoment(time, evaluation.zone) === cell);
  return false;
}
