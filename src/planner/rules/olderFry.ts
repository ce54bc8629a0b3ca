import { say } from '../../base/messages';
import { formatDay } from '../../base/moment';
import { stageAt } from '../../domain/timeline';
import type { Found } from '../found';
import type { ClutchState, PairState, PlanView } from '../states';
import { hasUnreadLog } from '../unreadSource';

/** So many days ahead an expected spawn is told (common practice). */
const AHEAD = 7;

/** Older fry in a tank in which the pair has eggs or wrigglers, or is expected to spawn soon. */
export function olderFry({ pair, lastSpawn: last, next }: PairState, view: PlanView): readonly Found[] {
  if (pair.tank === undefined) return [];
  const standing = view.standingIn(pair.tank).filter(({ timeline, clutch }) => !timeline.unanswered && !hasUnreadLog(clutch.clutch, view.records));
  const stageOf = ({ timeline }: ClutchState): string | undefined => stageAt(timeline, view.now)?.stage;
  const fry = standing.filter((state) => ['free-swimming', 'juvenile'].includes(stageOf(state) ?? ''));
  if (fry.length === 0) return [];
  const brood = standing.find((state) => state.clutch.clutch === last?.clutch && ['egg', 'wriggler', 'holding'].includes(stageOf(state) ?? ''));
  if (brood !== undefined) {
    return fry
      .filter(({ clutch }) => clutch.spawned.instant < brood.clutch.spawned.instant)
      .map(({ row, clutch }) => ({
        row,
        owner: row,
        header: undefined,
        code: 'older-fry' as const,
        message: say('older-fry.spawned', clutch.clutch, pair.tank ?? '', pair.pair, formatDay(brood.clutch.spawned.day)),
        related: [{ row: brood.row, header: 'spawned', message: say('related.clutch', brood.clutch.clutch) }],
      }));
  }
  const soon = next !== undefined && next.expected <= view.now.day + AHEAD && view.now.day <= next.to;
  if (!soon) return [];
  return fry.map(({ row, clutch }) => ({
    row,
    owner: row,
    header: undefined,
    code: 'older-fry' as const,
    message: say('older-fry.expected', clutch.clutch, pair.tank ?? '', pair.pair, formatDay(next.expected), formatDay(next.from), formatDay(next.to)),
    related: [{ row: pair.row, header: undefined, message: say('related.pair', pair.pair) }],
  }));
}
