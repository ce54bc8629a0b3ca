import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { Entry, EntryKind } from '../planner/entry';

/** What a job means for somebody who minds the room, and what not to do with it. */
export interface JobAdvice {
  readonly means: Message;
  readonly beware: Message;
}

/** By kind of job; all of it is common practice, no source. */
export function adviceOn(kind: EntryKind): JobAdvice {
  return { means: say(`exchange.means.${kind}`), beware: say(`exchange.beware.${kind}`) };
}

/** What holds whatever is to be done (common practice, no source). */
export function houseRules(): readonly Message[] {
  return [say('exchange.rule.feed'), say('exchange.rule.move'), say('exchange.rule.eggs'), say('exchange.rule.dead'), say('exchange.rule.medication'), say('exchange.rule.electricity'), say('exchange.rule.glass'), say('exchange.rule.doubt')];
}

/** How to be careful where a job may hurt animals or people. */
export function cautionsOn({ kind, food }: Pick<Entry, 'kind' | 'food'>): readonly Message[] {
  if (kind === 'water') return [say('exchange.caution.water')];
  if (kind === 'maintenance') return [say('exchange.caution.maintenance')];
  return food === undefined ? [] : [say('food.caution')];
}
