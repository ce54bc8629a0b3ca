import { say, textOf } from '../base/messages';
import { formatDay, formatMoment, momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import { weekdayOf } from '../base/weekday';
import type { Zone } from '../base/zone';
import { isForTheEarliest } from '../domain/routines';
import type { Entry, Feeding } from '../planner/entry';

const HOUR = 3_600_000;

/** A day with the name of its weekday. */
export function dayWords(day: number): string {
  return textOf(say('exchange.day', weekdayOf(day), formatDay(day)));
}

/** A moment to the hour, else to the day. */
export function momentWords(moment: Moment, { isToTheHour, zone }: { readonly isToTheHour: boolean; readonly zone: Zone }): string {
  return isToTheHour && !moment.bare ? `${weekdayOf(moment.day)}, ${formatMoment({ ...moment, about: false }, zone).replace('T', ' ')}` : dayWords(moment.day);
}

/** Whether it should have been done, or have come, before today: it is carried along until it is. */
export function isCarried({ state, due, to }: Pick<Entry, 'state' | 'due' | 'to'>, today: number): boolean {
  return state === 'overdue' || Math.max(due.day, to.day) < today;
}

/** Whether it has a window: it is expected, and not known to the day (to the minute, where it is told to the hour). */
export function isSpread({ from, to }: Pick<Entry, 'from' | 'to'>, isToTheHour: boolean): boolean {
  return isToTheHour ? to.instant - from.instant >= 60_000 : to.day > from.day;
}

/** How sure it is, and why, in sentences. */
export function certaintyOf(entry: Entry, { today, isToTheHour, zone }: { readonly today: number; readonly isToTheHour: boolean; readonly zone: Zone }): readonly string[] {
  const { due, from, to, isExpected, observations } = entry;
  const words = (moment: Moment): string => momentWords(moment, { isToTheHour, zone });
  const about = (moment: Moment): string => words(isToTheHour ? momentAt(Math.round(moment.instant / HOUR) * HOUR, zone) : moment);
  const lines: string[] = [];
  if (isCarried(entry, today)) lines.push(textOf(say(entry.state === 'upcoming' ? 'exchange.expected-on' : 'exchange.since', words(due))));
  else if (isSpread(entry, isToTheHour)) {
    const { state, sale, occurrence } = entry;
    // What was expected by now and asked for hasn't come; of fish to sell nobody has looked.
    const isLate = state === 'due' && observations !== undefined && sale === undefined;
    if (!isExpected) lines.push(textOf(say('exchange.span', words(from), words(to))));
    else if (isLate) lines.push(textOf(say('exchange.expected-late', words(due), about(to))));
    else if (occurrence === undefined || !isForTheEarliest(occurrence.routine)) lines.push(textOf(say('exchange.expected', about(from), about(to), about(due))));
  }
  if (isExpected && observations !== undefined) {
    lines.push(textOf(observations === 0 ? say('exchange.from-species') : observations === 1 ? say('exchange.learned.one') : say('exchange.learned', observations)));
  } else if (isExpected) lines.push(textOf(say('exchange.hangs-on-expected')));
  return lines;
}

/** Of fish to sell: how many, and how many of the species in all. */
export function saleLines({ sale }: Pick<Entry, 'sale'>): readonly string[] {
  if (sale === undefined) return [];
  const { fish, total, uncounted, heldUntil } = sale;
  return [
    fish === undefined ? say('exchange.sale.uncounted') : say('exchange.sale.fish', fish),
    uncounted === 0 ? say('exchange.sale.total', total) : say('exchange.sale.total.uncounted', total, uncounted),
    ...(heldUntil === undefined ? [] : [say('exchange.sale.held', formatDay(heldUntil.day))]),
  ].map(textOf);
}

/** Where something is: room and tank, as far as they are known. */
export function whereIs({ room, tank }: Pick<Entry | Feeding, 'room' | 'tank'>): string {
  return [room, tank].filter((each) => each !== '').join(', ');
}
