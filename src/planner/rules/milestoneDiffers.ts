import { say } from '../../base/messages';
import { formatMoment } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { dayMs } from '../../base/zone';
import type { LogEntry } from '../../domain/things';
import type { Row } from '../../records/row';
import { setCellFix } from '../fixes';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { ClutchState, PlanView } from '../states';

/** A milestone that the register and the log both have, more than a day apart. The log's row holds, but for the spawn. */
export function milestoneDiffers(state: ClutchState, view: PlanView): readonly Found[] {
  const { clutch, study, row } = state;
  if (study.entries.length === 0) return NOTHING;
  const { recorded } = study;
  // A mouthbrooder's free_swimming is its release.
  const swimming = study.ladder?.question === 'released' ? recorded.released : recorded.freeSwimming;
  return [
    ...differs('spawned', clutch.spawned, study.entries.find(({ event }) => event === 'spawned')),
    ...differs('hatched', clutch.hatched, recorded.hatched?.entry),
    ...differs('free_swimming', clutch.freeSwimming, swimming?.entry),
    ...differs('ended', clutch.ended, recorded.ended?.entry),
  ];

  function differs(header: string, own: Moment | undefined, entry: LogEntry | undefined): readonly Found[] {
    if (own === undefined || entry === undefined || !isOverADayApart(own, entry.time)) return [];
    const logged = formatMoment(entry.time, view.zone);
    return [
      {
        row,
        owner: row,
        header,
        code: 'milestone-differs',
        message: say(header === 'spawned' ? 'milestone-differs.spawned' : 'milestone-differs', header, formatMoment(own, view.zone), logged),
        related: [{ row: entry.row as Row, header: 'time', message: say('related.log-row', entry.event) }],
        fixes: () => setCellFix({ row, header, value: logged, title: say('fix.take-from-log', header, logged) }, view.records),
      },
    ];
  }
}

function isOverADayApart(a: Moment, b: Moment): boolean {
  if (a.bare || b.bare) return Math.abs(a.day - b.day) > 1;
  return Math.abs(a.instant - b.instant) > dayMs;
}
