import { say } from '../../base/messages';
import { formatDay } from '../../base/moment';
import { stageAt } from '../../domain/timeline';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { ClutchState, PlanView } from '../states';
import { hasUnreadLog } from '../unreadSource';

/** So many days without a row in the log are told (common practice). */
const QUIET = 60;

/** A brood past sale size of which nothing has been written for long. One without a log is silent since the spawn. */
export function noNews({ timeline, study, clutch, row }: ClutchState, view: PlanView): readonly Found[] {
  if (timeline.ended !== undefined || hasUnreadLog(clutch.clutch, view.records)) return NOTHING;
  const stage = stageAt(timeline, view.now);
  if (stage?.stage !== 'sale-size' || timeline.unanswered) return NOTHING;
  const last = study.entries.at(-1)?.time.day;
  if (view.now.day - (last ?? clutch.spawned.day) < QUIET) return [];
  const message = last === undefined ? say('no-news.never') : say('no-news', formatDay(last));
  return [{ row, owner: row, header: undefined, code: 'no-news', message, related: [] }];
}
