import { say } from '../../base/messages';
import { formatDay } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { jobOf } from '../../records/jobs';
import type { Row } from '../../records/row';
import type { SheetFile } from '../../records/sheetFile';
import type { Found, RowPlace } from '../found';
import type { ClutchState, PlanView } from '../states';
import type { Message } from '../../base/messages';

/** Work planned on tanks that will then hold eggs or wrigglers, or in which a pair is expected to spawn. One for each job. */
export function maintenanceClash(jobs: SheetFile, view: PlanView): readonly Found[] {
  return [...jobs.rows()].flatMap((row) => clashOf(row, view) ?? []);
}

function clashOf(row: Row, view: PlanView): Found | undefined {
  const job = jobOf(row, view.records);
  if (job === undefined || job.to.day < view.now.day) return undefined;
  const { from, to, tanks } = job;
  const clashes: (RowPlace & { readonly message: Message })[] = [];
  for (const tank of tanks) {
    for (const state of view.standingIn(tank)) {
      if (isTender(state, { from, to })) clashes.push({ row: state.row, header: undefined, message: say('related.tender', state.clutch.clutch, tank) });
    }
    for (const id of view.pairsIn(tank)) {
      const next = view.pair(id)?.next;
      const pair = view.pair(id)?.pair;
      if (next === undefined || pair === undefined || next.expected < from.day || next.expected > to.day) continue;
      clashes.push({ row: pair.row, header: undefined, message: say('related.spawn-expected', id, tank, formatDay(next.expected)) });
    }
  }
  if (clashes.length === 0) return undefined;
  return { row, owner: row, header: undefined, code: 'maintenance-clash', message: say('maintenance-clash', clashes.length), related: clashes };
}

/** Whether the brood is an egg or a wriggler at some time of the work. */
function isTender({ timeline, clutch, study }: ClutchState, work: { readonly from: Moment; readonly to: Moment }): boolean {
  if (timeline.unanswered || study.ladder === undefined || study.ladder.birth === 'spawned') return false;
  const out = timeline.of(study.ladder.birth === 'released' ? 'released' : 'free_swimming');
  if (clutch.spawned.day > work.to.day) return false;
  return out === undefined ? isStillTender(timeline) : out.time.day >= work.from.day;
}

/** Without an expectation of the fry being out, they count as tender while nothing later is known. */
function isStillTender({ milestones }: ClutchState['timeline']): boolean {
  return milestones.every((milestone) => milestone === undefined || milestone.rung.stage === 'egg' || milestone.rung.stage === 'wriggler' || milestone.rung.stage === 'holding');
}
