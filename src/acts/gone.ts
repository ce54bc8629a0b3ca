import { say } from '../base/messages';
import { formatDay } from '../base/moment';
import { Draft } from '../planner/draft';
import { outcomesOf } from '../planner/outcomes';
import type { Outcome } from '../planner/outcomes';
import type { Plan } from '../planner/plan';
import { drafted, refused, timeOfAnswer, valueOfAnswer } from './act';
import type { Act, AskedField } from './act';

export interface Gone {
  readonly clutch: string;
  readonly outcome: string;
  /** The day, or the moment; today where it isn't said. */
  readonly ended?: string | undefined;
}

const all: readonly Outcome[] = ['sold', 'kept', 'eaten', 'infertile', 'fungus', 'lost', 'culled', 'unknown'];

/** How a brood may have gone, the likeliest first. One that joined another is written into the log, which says which. */
export function outcomes(clutch: string, { view }: Plan): readonly Outcome[] {
  const state = view.clutch(clutch);
  const likely = state === undefined ? [] : outcomesOf(state);
  return [...likely, ...all.filter((outcome) => !likely.includes(outcome))];
}

/** What is asked where a brood is gone: how, and since when. */
export function goneFields(clutch: string, plan: Plan): readonly AskedField[] {
  return [
    { name: 'outcome', header: 'outcome', isNeeded: true, likely: '', choices: outcomes(clutch, plan) },
    { name: 'ended', header: 'ended', isNeeded: true, likely: formatDay(plan.now.day), choices: [] },
  ];
}

/** "Gone": ends a brood in the register, with its outcome. */
export function gone({ clutch, outcome, ended }: Gone): Act {
  return (plan) => {
    const state = plan.view.clutch(clutch);
    if (state === undefined || state.timeline.ended !== undefined) return refused(say('act.refused.no-clutch', clutch));
    if (outcome === '') return refused(say('act.refused.needed', 'outcome'));
    const checked = valueOfAnswer('clutches', 'outcome', outcome, plan);
    if ('fault' in checked) return refused(checked.fault);
    const when = timeOfAnswer(ended === undefined || ended === '' ? formatDay(plan.now.day) : ended, plan);
    if ('fault' in when) return refused(when.fault);
    const draft = new Draft(plan.records);
    const fault = draft.set(state.row, { ended: when.text, outcome });
    return fault === undefined ? drafted(draft, [clutch, `ended ${when.text}`, outcome]) : refused(fault);
  };
}
