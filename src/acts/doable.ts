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

/** So far ahead an occurrence is looked for, in days. */
const AHEAD = 400;

/** A thing of a register with what is to be done about it. */
export type Doer =
  | { readonly kind: 'clutch'; readonly state: ClutchState; readonly subject: ClutchSubject; readonly routines: readonly Routine[]; readonly row: Row }
  | { readonly kind: 'pair' | 'tank' | 'order'; readonly subject: Subject; readonly routines: readonly Routine[]; readonly row: Row }
  | { readonly kind: 'culture'; readonly culture: Culture; readonly subject: Subject; readonly routines: readonly Routine[]; readonly row: Row };

/** The thing with that id; undefined where there is none of that name, or nothing is to be done about it. */
function doerOf(sheet: string, id: string, { view, records }: Plan): Doer | undefined {
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

/** Every brood that isn't ended and every tank, with what is to be done about it. */
export function* doersOf(plan: Plan): Generator<Doer> {
  for (const { clutch } of plan.view.openClutches()) {
    const doer = doerOf('clutches', clutch.clutch, plan);
    if (doer !== undefined) yield doer;
  }
  for (const id of plan.records.index('tanks').ids()) {
    const doer = doerOf('tanks', id, plan);
    if (doer !== undefined) yield doer;
  }
}

/** An occurrence with its thing as it stands now, and the tank that it is about, '' where none is known. */
export interface Doable {
  readonly occurrence: Occurrence;
  readonly doer: Doer;
  readonly tank: string;
}

/** What the entry with that key asks for; undefined once it is done, has lapsed, or its thing is gone, and for one that no routine asks for. */
export function doableOf(key: string, plan: Plan): Doable | undefined {
  const [sheet = '', id = '', name, index = ''] = key.split('/').map(decodeURIComponent);
  const doer = doerOf(sheet, id, plan);
  const routine = doer?.routines.find((some) => some.routine === name);
  if (doer === undefined || routine === undefined || index === '') return undefined;
  const occurrence = occurrencesUntil(routine, doer.subject, plan.now.day + AHEAD).find((some) => some.index === Number(index));
  return occurrence === undefined ? undefined : { occurrence, doer, tank: tankOf(doer, routine, plan) };
}

/** The tank that a routine asks about. Older fry that are in the way are in the tank of their parents. */
export function tankOf(doer: Doer, { anchor }: Routine, { records }: Plan): string {
  if (doer.kind !== 'clutch') return doer.kind === 'tank' ? keyText(doer.row) : '';
  const { clutch, study } = doer.state;
  const own = anchor?.startsWith('next_spawn') === true && clutch.pair !== undefined ? records.pair(clutch.pair)?.tank : undefined;
  return own !== undefined && study.heads.stands.has(own) ? own : (study.heads.stands.keys().next().value ?? '');
}
