import { say } from '../base/messages';
import { Draft } from '../planner/draft';
import { eventsOf } from '../planner/eventNeeds';
import { isBorn } from '../planner/outcomes';
import type { Plan } from '../planner/plan';
import { drafted, refused } from './act';
import type { Act, Answers, AskedField } from './act';
import { cautionOf, draftEvent, eventFields } from './eventRow';
import type { EventRow } from './eventRow';

/** Events of which a keeper can write a row about a brood, those that suit it as it stands first. */
export function clutchEvents(clutch: string, { view }: Plan): readonly string[] {
  const state = view.clutch(clutch);
  const stands = state?.study.heads.stands.size ?? 0;
  const later: ReadonlySet<string> = new Set(state === undefined || isBorn(state) ? ['checked', 'fungus', 'hatched', 'released', 'stripped'] : ['counted', 'measured', 'sold', 'kept', 'culled', 'moved', 'joined', 'fed', 'first_feed', 'free_swimming']);
  const all = stands === 0 ? eventsOf.clutch.filter((event) => event !== 'moved') : eventsOf.clutch;
  return [...all.filter((event) => !later.has(event)), ...all.filter((event) => later.has(event))];
}

/** What is asked for a row of a brood's log. */
export function clutchLogFields(row: ClutchLogRow, plan: Plan): readonly AskedField[] {
  return eventFields(eventRowOf(row), plan);
}

export interface ClutchLogRow {
  readonly clutch: string;
  readonly event: string;
  readonly tank?: string | undefined;
  /** Of a sale the order, '' for none; undefined while that isn't answered. */
  readonly ref?: string | undefined;
}

/** "Log for a clutch": writes what happened to a brood into its log. */
export function logClutch(row: ClutchLogRow, answers: Answers): Act {
  return (plan) => {
    const state = plan.view.clutch(row.clutch);
    if (state === undefined || state.timeline.ended !== undefined) return refused(say('act.refused.no-clutch', row.clutch));
    const draft = new Draft(plan.records);
    const outcome = draftEvent(draft, eventRowOf(row), { answers, plan });
    return 'fault' in outcome ? refused(outcome.fault) : drafted(draft, outcome.words, cautionOf(row.event));
  };
}

function eventRowOf({ clutch, event, tank, ref }: ClutchLogRow): EventRow {
  return { thing: { kind: 'clutch', id: clutch }, event, tank, ref };
}
