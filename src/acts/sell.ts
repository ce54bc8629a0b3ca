import { say } from '../base/messages';
import type { Stage } from '../domain/ladder';
import { stageAt } from '../domain/timeline';
import type { Plan } from '../planner/plan';
import type { ClutchState } from '../planner/states';
import { keyText } from '../records/row';
import { openOrders } from './likelyAnswer';
import { clutchLogFields, logClutch } from './logClutch';
import type { Act, Answers, AskedField } from './act';
import { refused } from './act';

export interface Sale {
  readonly clutch: string;
  /** In which fish were caught, where the brood stands in several. */
  readonly tank?: string | undefined;
  /** The order, '' for none; undefined while that isn't answered. */
  readonly ref?: string | undefined;
}

/** Of those before, eggs and wrigglers, hardly anybody sells. */
const stages: readonly (Stage | undefined)[] = ['free-swimming', 'juvenile', 'sale-size'];

/** The broods of which fish may be sold: those that have come furthest first, of those alike the youngest. */
export function readiestFirst({ view, now }: Plan): readonly ClutchState[] {
  const broods = view.openClutches().map((state) => ({ state, come: stages.indexOf(stageAt(state.timeline, now)?.stage) }));
  return broods.sort((a, b) => b.come - a.come || b.state.clutch.spawned.instant - a.state.clutch.spawned.instant).map(({ state }) => state);
}

/** Orders that a sale of the brood may be for, the one due first before the others. */
export function ordersFor(clutch: string, plan: Plan): readonly string[] {
  const state = plan.view.clutch(clutch);
  return state === undefined ? [] : openOrders(state, plan).map(keyText);
}

/** What is asked for a sale: how many, from which tank, for which order, at which price. */
export function saleFields(sale: Sale, plan: Plan): readonly AskedField[] {
  return clutchLogFields({ ...sale, event: 'sold' }, plan);
}

/** "Record a sale": takes the fish from the head count and refers to the order. More than there are is refused. */
export function sell({ clutch, tank }: Sale, answers: Answers): Act {
  return (plan) => {
    const ref = answers['ref'] ?? '';
    if (ref !== '' && !ordersFor(clutch, plan).includes(ref)) return refused(say('act.refused.order', ref));
    return logClutch({ clutch, event: 'sold', tank }, { ...answers, ref })(plan);
  };
}
