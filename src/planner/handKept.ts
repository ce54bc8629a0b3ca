import { formatMoment, isFuture } from '../base/moment';
import { dayMs } from '../base/zone';
import { ammoniaOf } from '../domain/ammonia';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { cultureOf } from '../records/cultures';
import { clutchOf, tankOf } from '../records/things';
import { casterOf } from '../schema/cast';
import type { Field } from '../schema/descriptor';
import { CastFailure } from '../schema/value';
import type { Evaluation } from './evaluation';
import { ammoniaText } from './columns/water';
import { clutchColumns, cultureColumns, pairColumns } from './columns/registry';
import { staleRowsIn } from './unreadSource';

/** So many rows are asked when and whether their cells may have been ours; it bounds the work on a long file. */
const ASKED = 40;

/** So few wrong cells prove nothing: one correction by the keeper makes as many in a sheet that has just begun. */
const FEW = 2;

/**
 * Whether a computed column (its place among the header's) holds values that the tool never wrote, as in a file that was
 * kept by hand: more of its filled cells say something that the records give at no moment than say what they give now or
 * gave at some earlier one.
 */
export function isHandKept(file: SheetFile, place: number, evaluation: Evaluation): boolean {
  const { column, field } = file.header.computed[place] as { column: number; field: Field };
  const isFilled = (row: Row): boolean => (file.cellText(row, column) ?? '') !== '';
  const strange = staleRowsIn(file, place, evaluation.records).filter(isFilled);
  const ours = file.filledCount(place) - strange.length;
  // As many of ours settle it.
  if (ours >= strange.length) return false;
  const asked = strange.slice(0, ASKED);
  const explained = asked.filter((row) => wasOurs(file, row, { column, header: field.name, evaluation })).length;
  const share = strange.length / asked.length;
  if ((asked.length - explained) * share <= ours + explained * share) return false;
  return strange.length > FEW || !strange.every((row) => isMostlyRight(file, row) && isWellFormed(file.cellText(row, column) as string, field, evaluation));
}

/** Whether most of the computed cells that the row has filled are as they should be. */
function isMostlyRight(file: SheetFile, row: Row): boolean {
  let [right, wrong] = [0, 0];
  file.header.computed.forEach(({ column }, i) => {
    if ((file.cellText(row, column) ?? '') === '') return;
    if (((file.staleOf(row) >>> i) & 1) === 0) right++;
    else wrong++;
  });
  return right > wrong;
}

function isWellFormed(text: string, field: Field, { zone }: Evaluation): boolean {
  return !(casterOf(field)(text, zone) instanceof CastFailure);
}

/**
 * Tells which filled cells of a column that is otherwise ours are the keeper's own: a text that the tool never writes
 * there, or one in whose place nothing would stand and that the records gave at no moment.
 */
export class KeepersCells {
  readonly #file: SheetFile;
  readonly #evaluation: Evaluation;
  readonly #column: number;
  readonly #field: Field;
  #asked = 0;
  #unexplained = 0;

  constructor(file: SheetFile, place: number, evaluation: Evaluation) {
    const { column, field } = file.header.computed[place] as { column: number; field: Field };
    this.#file = file;
    this.#evaluation = evaluation;
    this.#column = column;
    this.#field = field;
  }

  has(row: Row, { before, after }: { readonly before: string; readonly after: string }): boolean {
    if (before === '') return false;
    if (!isWellFormed(before, this.#field, this.#evaluation)) return true;
    if (after !== '') return false;
    // Of very many, the first ones speak for all.
    if (this.#asked >= ASKED) return this.#unexplained > 0;
    this.#asked++;
    const explained = wasOurs(this.#file, row, { column: this.#column, header: this.#field.name, evaluation: this.#evaluation });
    if (!explained) this.#unexplained++;
    return !explained;
  }
}

/** Whether the cell is what would have been written at one of the moments at which something about its thing was recorded. */
function wasOurs(file: SheetFile, row: Row, { column, header, evaluation }: { readonly column: number; readonly header: string; readonly evaluation: Evaluation }): boolean {
  const cell = file.cellText(row, column) as string;
  // What was next when it was filled may have been anything; whoever has our words for it has what goes with them too.
  if (agendaHeaders.has(header) && isOurAction(file, row, evaluation)) return true;
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
    const state = evaluation.pair(row.value(0) as string);
    if (known === undefined || state === undefined) return false;
    return state.spawns.some(({ spawned }) => evaluation.at(spawned.instant, (view) => {
      const then = view.pairStateOf(state.pair);
      return known.value(then, view) === cell;
    }));
  }
  if (file.schema.name === 'cultures') {
    // Before its end was written down.
    const culture = cultureOf(row);
    const known = cultureColumns.find((candidate) => candidate.header === header);
    return culture !== undefined && known?.value({ ...culture, ended: undefined }, evaluation) === cell;
  }
  // Nobody keeps these two by hand; a whole number is what was counted here before.
  if (file.schema.name === 'rooms') return /^\d+$/.test(cell);
  if (header === 'nh3_mg_l' && file.schema.name === 'tanks') return ammoniaOnceIn(tankOf(row).tank, evaluation).includes(cell);
  if (header === 'last_reading') return evaluation.records.readingsOf(tankOf(row).tank).some(({ time }) => formatMoment(time, evaluation.zone) === cell);
  return false;
}

/** What the latest test of a tank told at one time or another: a test of the whole room changes all tanks of a sheet at once. */
function ammoniaOnceIn(tank: string, { records, now }: Evaluation): readonly string[] {
  const readings = records.readingsOf(tank);
  return readings.flatMap(({ tan, time }, i) => (tan === undefined || isFuture(time, now) ? [] : [ammoniaText(ammoniaOf(readings, i))]));
}

const agendaHeaders: ReadonlySet<string> = new Set(['next_action', 'next_due', 'overdue']);

function isOurAction(file: SheetFile, row: Row, { records }: Evaluation): boolean {
  const column = file.header.columnOf.get('next_action');
  const action = column === undefined ? undefined : file.cellText(row, column);
  return action !== undefined && records.routines.actions.has(action);
}
