import type { Occurrence, Routine, Subject } from '../domain/routines';
import { occurrencesUntil } from '../domain/routines';
import { cultureRoutines, CultureSubject } from '../planner/cultureRoutines';
import type { Plan } from '../planner/plan';
import type { ClutchState } from '../planner/states';
import { ClutchSubject, clutchRoutines, OrderSubject, orderRoutines, PairSubject, pairRoutines, TankSubject, tankRoutines } from '../planner/subjects';
import { cultureOf } from '../records/cultures';
import type { Culture } from '../records/cultures';
import { keyText } from '../records/row';
import type { Row } from '../records/row';

/** Something that is to be done, as it is listed: what, of which row of a register, and in which tank ('' where none is known). */
export interface Doable {
  readonly occurrence: Occurrence;
  readonly row: Row;
  readonly tank: string;
}

/** Names the same thing to do in the records as they will be later. */
export interface DoableKey {
  readonly sheet: string;
  readonly id: string;
  readonly routine: string;
  readonly index: number;
  readonly tank: string;
  /** The last day on which it may fall due, days since 1970-01-01. */
  readonly lastDay: number;
}

/** What is expected moves with now, but not by so many days while a keeper looks at it. */
const DRIFT = 31;

export function keyOf({ occurrence: { routine, index, due }, row, tank }: Doable): DoableKey {
  return { sheet: row.block.file.schema.name, id: keyText(row), routine: routine.routine, index, tank, lastDay: due.day + DRIFT };
}

/** A thing of a register with what is to be done about it. */
export type Doer =
  | { readonly kind: 'clutch'; readonly state: ClutchState; readonly subject: ClutchSubject; readonly routines: readonly Routine[]; readonly row: Row }
  | { readonly kind: 'pair' | 'tank' | 'order'; readonly subject: Subject; readonly routines: readonly Routine[]; readonly row: Row }
  | { readonly kind: 'culture'; readonly culture: Culture; readonly subject: Subject; readonly routines: readonly Routine[]; readonly row: Row };

/** The thing as it stands now; undefined where there is none of that name, or nothing is to be done about it. */
export function doerOf(sheet: string, id: string, { view, records }: Plan): Doer | undefined {
  switch (sheet) {
    case 'clutches': {
      const state = view.clutch(id);
      return state === undefined ? undefined : { kind: 'clutch', state, subject: new ClutchSubject(state, view), routines: clutchRoutines(state, view), row: state.row };
    }
    case 'pairs': {
      const state = view.pair(id);
      return state === undefined ? undefined : { kind: 'pair', subject: new PairSubject(state, view), routines: pairRoutines(state, view), row: state.pair.row };
    }
    case 'tanks': {
      const tank = records.tank(id);
      return tank === undefined ? undefined : { kind: 'tank', subject: new TankSubject(tank, view), routines: tankRoutines(tank, view), row: tank.row };
    }
    case 'orders': {
      const row = records.index('orders').row(id);
      return row === undefined ? undefined : { kind: 'order', subject: new OrderSubject(row, view), routines: orderRoutines(row, view), row };
    }
    case 'cultures': {
      const row = records.index('cultures').row(id);
      const culture = row === undefined ? undefined : cultureOf(row);
      return culture === undefined ? undefined : { kind: 'culture', culture, subject: new CultureSubject(view), routines: cultureRoutines(culture, view).map(({ routine }) => routine), row: culture.row };
    }
    default:
      return undefined;
  }
}

/** The same thing to do as it stands now; undefined once it is done, has lapsed, or its thing is gone. */
export function doableAgain(key: DoableKey, plan: Plan): { readonly doable: Doable; readonly doer: Doer } | undefined {
  const doer = doerOf(key.sheet, key.id, plan);
  const routine = doer?.routines.find((some) => some.routine === key.routine);
  if (doer === undefined || routine === undefined) return undefined;
  const occurrence = occurrencesUntil(routine, doer.subject, key.lastDay).find(({ index }) => index === key.index);
  return occurrence === undefined ? undefined : { doable: { occurrence, row: doer.row, tank: key.tank }, doer };
}
