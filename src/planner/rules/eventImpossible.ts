import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { compareMoments, formatMoment } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { recordOf } from '../../domain/clutchStudy';
import { isImpossible } from '../../domain/ladder';
import type { RecordedMoment } from '../../domain/recorded';
import type { Row } from '../../records/row';
import type { Found } from '../found';
import type { ClutchState, PlanView } from '../states';

/** Whether one moment is surely before another: a guess may lie on either side. */
function isBefore(a: Moment, b: Moment): boolean {
  return !a.about && !b.about && compareMoments(a, b) < 0;
}

/** Rows and milestones that can't be: events of another ladder, before the spawn or the milestone before, or after the end. */
export function eventImpossible(state: ClutchState, view: PlanView): readonly Found[] {
  const { study, row: owner, clutch } = state;
  const { recorded, profile } = study;
  const found: Found[] = [];
  const tell = (place: { readonly row: Row; readonly header: string }, message: Message): void => {
    const related = place.row === owner ? [] : [{ row: owner, header: undefined, message: say('related.clutch', clutch.clutch) }];
    found.push({ ...place, owner, code: 'event-impossible', message, related });
  };
  for (const entry of study.entries) {
    const place = { row: entry.row as Row, header: 'event' };
    if (profile !== undefined && isImpossible(entry.event, profile.care)) tell(place, say('event-impossible.ladder', entry.event, profile.species, profile.care));
    else if (entry.event !== 'spawned' && isBefore(entry.time, clutch.spawned)) tell({ ...place, header: 'time' }, say('event-impossible.before-spawn', formatMoment(clutch.spawned, view.zone)));
    else if (recorded.ended !== undefined && isBefore(recorded.ended.time, entry.time)) {
      tell({ ...place, header: 'time' }, say('event-impossible.after-end', formatMoment(recorded.ended.time, view.zone)));
    }
  }
  const place = (record: RecordedMoment, header: string): { readonly row: Row; readonly header: string } =>
    record.entry === undefined ? { row: owner, header } : { row: record.entry.row as Row, header: 'time' };
  let before: { readonly name: string; readonly record: RecordedMoment } = { name: 'spawned', record: recorded.spawned };
  for (const { milestone, after } of study.ladder?.rungs ?? []) {
    if (after === undefined) continue;
    const record = recordOf(milestone, recorded);
    if (record === undefined) continue;
    const header = milestone === 'released' ? 'free_swimming' : milestone;
    const told = before.name === 'spawned' && record.entry !== undefined;
    if (!told && isBefore(record.time, before.record.time)) {
      tell(place(record, header), say('event-impossible.order', milestone, before.name, formatMoment(before.record.time, view.zone)));
    }
    if (record.entry === undefined && recorded.ended !== undefined && isBefore(recorded.ended.time, record.time)) {
      tell(place(record, header), say('event-impossible.after-end', formatMoment(recorded.ended.time, view.zone)));
    }
    before = { name: milestone, record };
  }
  const ended = recorded.ended;
  if (ended !== undefined && ended.entry === undefined && isBefore(ended.time, clutch.spawned)) {
    tell({ row: owner, header: 'ended' }, say('event-impossible.order', 'ended', 'spawned', formatMoment(clutch.spawned, view.zone)));
  }
  return found;
}
