import { say } from '../base/messages';
import { hasCome } from '../base/moment';
import { Draft } from '../planner/draft';
import type { Plan } from '../planner/plan';
import { drafted, refused } from './act';
import type { Act, Answers, AskedField } from './act';
import { cautionOf, draftEvent, eventFields } from './eventRow';

export interface TankLogRow {
  readonly tank: string;
  readonly event: string;
}

/** What is asked for a row of a tank's log. */
export function tankLogFields({ tank, event }: TankLogRow, plan: Plan): readonly AskedField[] {
  return eventFields({ thing: { kind: 'tank', id: tank }, event }, plan);
}

/** "Log for a tank": writes readings, or what was done at a tank, into its log. */
export function logTank({ tank, event }: TankLogRow, answers: Answers): Act {
  return (plan) => {
    const { records, now } = plan;
    // Without a register of tanks any name may be one.
    if (records.targets.index('tanks')?.has(tank) === false || hasCome(records.tank(tank)?.retired, now)) return refused(say('act.refused.no-tank', tank));
    const draft = new Draft(records);
    const outcome = draftEvent(draft, { thing: { kind: 'tank', id: tank }, event }, { answers, plan });
    return 'fault' in outcome ? refused(outcome.fault) : drafted(draft, outcome.words, cautionOf(event));
  };
}
