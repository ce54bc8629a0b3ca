import { say, textOf } from '../base/messages';
import { weekdayOf } from '../base/weekday';
import { gramsUp } from '../domain/liveFood';
import type { FoodToStart } from '../planner/liveFood';

/** What to start of brine shrimp for a day; amounts are rounded up so that they are enough. */
export function foodTitle({ day, amount }: FoodToStart): string {
  return textOf(say('exchange.food', gramsUp(amount.grams), amount.vesselL, Math.ceil(amount.saltG), weekdayOf(day)));
}

/** For which broods, and which are left out since nobody has counted them; of more than so many their number. */
export function foodWhom({ clutches, uncounted }: FoodToStart, { most }: { readonly most: number }): readonly string[] {
  const broods = (ids: readonly string[]): string => (ids.length > most ? textOf(say('cli.due.food.broods', ids.length)) : ids.join(', '));
  const whom = [say('exchange.food.for', broods(clutches))];
  if (uncounted.length > 0) whom.push(say('exchange.food.uncounted', broods(uncounted)));
  return whom.map(textOf);
}
