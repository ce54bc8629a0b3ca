import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import { formatDay, formatMoment } from '../base/moment';
import { weekdayOf } from '../base/weekday';
import type { Zone } from '../base/zone';
import { gramsUp, upTo } from '../domain/liveFood';
import type { FoodDay } from '../domain/liveFood';
import type { FoodToStart } from '../planner/liveFood';
import { visible } from './text';

/** As many broods are named in a line; of more their number tells more. */
const NAMED = 3;

/** Brine shrimp for a day in one line for people: what to start, by when, for whom; amounts are rounded up so that they are enough. */
export function foodLine({ day, start, amount, clutches, uncounted }: FoodToStart, zone: Zone): string {
  const by = `${weekdayOf(start.day)} ${formatMoment(start, zone).slice(-5)}`;
  const line = say('cli.due.food', gramsUp(amount.grams), amount.vesselL, Math.ceil(amount.saltG), by, weekdayOf(day), broods(clutches));
  return textOf(uncounted.length === 0 ? line : leftOut(line, uncounted));
}

/** The same for programs; what can't be known is null. */
export function jsonOfFood(food: FoodDay, { folder, zone }: { readonly folder: string; readonly zone: Zone }): unknown {
  const { day, start, ready, amount, clutches, uncounted, coveredBy } = food;
  return {
    folder,
    day: formatDay(day),
    start: formatMoment(start, zone),
    ready: formatMoment(ready, zone),
    grams: amount === undefined ? null : upTo(amount.grams, 1000),
    vessel_l: amount?.vesselL ?? null,
    salt_g: amount?.saltG ?? null,
    fry: amount?.fry ?? null,
    clutches,
    uncounted,
    covered_by: coveredBy,
  };
}

function leftOut(line: Message, uncounted: readonly string[]): Message {
  return say('cli.due.food.uncounted', textOf(line), broods(uncounted));
}

function broods(clutches: readonly string[]): string {
  return clutches.length > NAMED ? textOf(say('cli.due.food.broods', clutches.length)) : visible(clutches.join(', '));
}
