import { say } from '../../base/messages';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { ClutchState, PlanView } from '../states';
import { hasUnreadLog } from '../unreadSource';

/** A later milestone is recorded and an earlier one isn't. */
export function milestoneMissing(state: ClutchState, view: PlanView): readonly Found[] {
  const { freeSwimming, hatched } = state.study.recorded;
  // Free swimming is the one milestone with another before it that is recorded too.
  return freeSwimming === undefined || hatched !== undefined || hasUnreadLog(state.clutch.clutch, view.records) ? NOTHING : skipped(state);
}

function skipped({ timeline, row }: ClutchState): readonly Found[] {
  const found: Found[] = [];
  const { milestones } = timeline;
  milestones.forEach((milestone, i) => {
    if (milestone?.basis !== 'expected') return;
    const later = milestones.slice(i + 1).find((other) => other?.basis === 'recorded');
    if (later === undefined) return;
    const name = milestone.rung.milestone;
    found.push({ row, owner: row, header: undefined, code: 'milestone-missing', message: say('milestone-missing', later.rung.milestone, name), related: [] });
  });
  return found;
}
