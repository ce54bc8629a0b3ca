import type { Moment } from '../base/moment';
import { HOUR } from '../domain/ladder';
import { latestIn } from '../records/sheetFile';
import type { SheetFile } from '../records/sheetFile';
import type { ClutchMemory } from './clutchMemory';
import type { PlanView } from './states';

/**
 * The earliest instant after now at which time alone may change what is known: the next day of the fishroom, an expected
 * milestone, a question that stays without answer, or a row that was written ahead.
 */
export function nextTurn(states: Iterable<ClutchMemory>, view: PlanView): number {
  const { now, zone } = view;
  let turn = zone.instantOf((now.day + 1) * 24 * HOUR);
  const at = (time: Moment | undefined): void => {
    if (time !== undefined && !time.bare && time.instant > now.instant && time.instant < turn) turn = time.instant;
  };
  for (const memory of states) {
    if (memory.isEnded) continue;
    if (memory.agenda.turn < turn) turn = memory.agenda.turn;
    for (const milestone of memory.timeline.milestones) {
      at(milestone?.time);
      if (milestone !== undefined && !milestone.to.bare) at({ ...milestone.to, instant: milestone.to.instant + 48 * HOUR + 1 });
    }
  }
  for (const file of view.records.files()) for (const time of writtenAhead(file, now)) at(time);
  return turn;
}

/** Whatever in a file may not be later than now, and is. */
function* writtenAhead({ blocks, header }: SheetFile, now: Moment): Iterable<Moment> {
  for (const block of blocks) {
    if (latestIn(block, header) <= now.instant) continue;
    for (const row of block.rows) {
      for (const { slot } of header.notFuture) {
        const time = row.value(slot) as Moment | undefined;
        if (time !== undefined && time.instant > now.instant) yield time;
      }
    }
  }
}
