import { compareMoments, hasCome } from '../base/moment';
import type { Moment } from '../base/moment';
import type { EventColumn } from '../planner/eventNeeds';
import type { Plan } from '../planner/plan';
import type { ClutchState } from '../planner/states';
import { compareTanks } from '../planner/subjects';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';
import type { AskedField } from './act';
import type { EventRow } from './eventRow';

type Likely = Pick<AskedField, 'likely' | 'choices'>;

const UNKNOWN: Likely = { likely: '', choices: [] };

/** What is likely the answer, as far as the records tell, and what there is to choose from. What can't be known is left blank. */
export function likelyAnswer(name: EventColumn | 'tank', { thing, event, tank, ref }: EventRow, plan: Plan): Likely {
  if (thing.kind === 'tank') return name === 'change_pct' ? { likely: lastChange(thing.id, plan), choices: [] } : UNKNOWN;
  const state = plan.view.clutch(thing.id);
  if (state === undefined) return UNKNOWN;
  switch (name) {
    case 'tank': {
      const choices = [...state.study.heads.stands.keys()];
      return { likely: tank !== undefined && choices.includes(tank) ? tank : (choices[0] ?? ''), choices };
    }
    case 'count':
      return event === 'counted' ? { likely: lastCount(state, tank), choices: [] } : event === 'sold' ? { likely: ordered(state, ref, plan), choices: [] } : UNKNOWN;
    case 'to_tank':
      return { ...targets(state, tank, plan), ...(event === 'moved' ? {} : { likely: '' }) };
    case 'ref':
      return event === 'sold' ? orderChoice(state, plan) : { likely: '', choices: others(state, plan) };
    case 'unit_price':
      return { likely: price(state, ref, plan), choices: [] };
    default:
      return UNKNOWN;
  }
}

/** How much water was changed last, in %. */
function lastChange(tank: string, { records, now }: Plan): string {
  let last: { readonly time: Moment; readonly changePct: number } | undefined;
  for (const { time, changePct } of records.tankEventsOf(tank, 'onWater')) {
    if (changePct !== undefined && hasCome(time, now) && (last === undefined || compareMoments(time, last.time) >= 0)) last = { time, changePct };
  }
  return last === undefined ? '' : String(last.changePct);
}

/** How many are known to be in the tank, or in the only one that the brood stands in. */
function lastCount({ study: { heads } }: ClutchState, tank: string | undefined): string {
  const stand = heads.stands.get(tank ?? '') ?? (heads.stands.size === 1 ? [...heads.stands.values()][0] : undefined);
  return stand?.count === undefined ? '' : `${stand.estimate ? '~' : ''}${stand.count}`;
}

/** Tanks in use, those of the same room first, in walking order; likely is an empty one for growing out, of that room. */
function targets({ study: { heads } }: ClutchState, from: string | undefined, { records, view, now }: Plan): Likely {
  const here = from ?? heads.stands.keys().next().value ?? '';
  const room = records.tank(here)?.room;
  const tanks = [...records.index('tanks').ids()]
    .flatMap((id) => records.tank(id) ?? [])
    .filter((tank) => tank.tank !== here && !hasCome(tank.retired, now))
    .sort((a, b) => Number(a.room !== room) - Number(b.room !== room) || compareTanks(a, b));
  const isEmpty = (tank: string): boolean => view.standingIn(tank).length === 0 && view.pairsIn(tank).length === 0;
  const likely = tanks.find((tank) => room !== undefined && tank.room === room && tank.use === 'grow-out' && isEmpty(tank.tank));
  return { likely: likely?.tank ?? '', choices: tanks.map(({ tank }) => tank) };
}

/** Orders of the brood's species that have not left, the one due first before the others. */
export function openOrders({ species }: ClutchState, { records, now }: Plan): readonly Row[] {
  const dueOf = (row: Row): number => (valueOf(row, 'orders', 'due') as Moment | undefined)?.day ?? Number.MAX_SAFE_INTEGER;
  return [...(records.file('orders.csv')?.rows() ?? [])]
    .filter((row) => keyText(row) !== '' && valueOf(row, 'orders', 'species') === species && !hasCome(valueOf(row, 'orders', 'sent') as Moment | undefined, now))
    .sort((a, b) => dueOf(a) - dueOf(b));
}

/** Likely only where there is a single one: which of several it was, nobody can know. */
function orderChoice(state: ClutchState, plan: Plan): Likely {
  const choices = openOrders(state, plan).map(keyText);
  return { likely: choices.length === 1 ? (choices[0] as string) : '', choices };
}

/** The order that was named, else the only one there is. */
function orderOf(state: ClutchState, ref: string | undefined, plan: Plan): Row | undefined {
  const orders = openOrders(state, plan);
  return ref === undefined ? (orders.length === 1 ? orders[0] : undefined) : orders.find((row) => keyText(row) === ref);
}

/** What the order asks for, where that many are there. */
function ordered(state: ClutchState, ref: string | undefined, plan: Plan): string {
  const order = orderOf(state, ref, plan);
  const wanted = order === undefined ? undefined : (valueOf(order, 'orders', 'quantity') as number | undefined);
  const { count } = state.study.heads.alive;
  return wanted === undefined || (count !== undefined && count < wanted) ? '' : String(wanted);
}

/** By the order, else by the only price of the species. */
function price(state: ClutchState, ref: string | undefined, plan: Plan): string {
  const order = orderOf(state, ref, plan);
  const agreed = order === undefined ? undefined : valueOf(order, 'orders', 'unit_price');
  if (typeof agreed === 'number') return String(agreed);
  const prices = [...(plan.records.file('prices.csv')?.rows() ?? [])].filter((row) => valueOf(row, 'prices', 'species') === state.species);
  const known = prices.length === 1 ? valueOf(prices[0] as Row, 'prices', 'unit_price') : undefined;
  return typeof known === 'number' ? String(known) : '';
}

function others(state: ClutchState, { view }: Plan): readonly string[] {
  return view.openClutches().flatMap(({ clutch, species }) => (clutch.clutch !== state.clutch.clutch && species === state.species ? [clutch.clutch] : []));
}
