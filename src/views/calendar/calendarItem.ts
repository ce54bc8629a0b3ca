import { say, textOf } from '../../base/messages';
import type { Moment } from '../../base/moment';
import { whoOf } from '../../planner/entry';
import type { Entry, EntryKind } from '../../planner/entry';
import type { DayWords } from './dayWords';

/** An entry as a screen shows it. */
export interface CalendarItem {
  readonly key: string;
  readonly kind: EntryKind;
  /** What is to be done, or what will be. */
  readonly what: string;
  /** Of whom: `K12`, `T07`, `P4`; '' where that says nothing. */
  readonly whom: string;
  readonly tank: string;
  readonly room: string;
  /** `14:05`, '' where only the day is known. */
  readonly time: string;
  /** How late it is, or between when it is expected; '' for what is certain. */
  readonly when: string;
  readonly state: Entry['state'];
  readonly isExpected: boolean;
  /** Whether it can be recorded as done, or is a question that can be answered. */
  readonly deed: 'done' | 'answer' | 'none';
}

/** The day under which something is told: what is due by now stands under today until it is done, and so do fish that can be sold already. A job stands on its first day that isn't over. */
export function dayOf({ due }: Pick<Entry, 'due'>, today: number): number {
  return Math.max(due.day, today);
}

export function itemOf(entry: Entry, { words, now }: { readonly words: DayWords; readonly now: Moment }): CalendarItem {
  const { key, kind, action, room, tank, due, state, isExpected, hasHours, occurrence } = entry;
  const day = dayOf(entry, words.today);
  return {
    key,
    kind,
    what: textOf(action),
    whom: whoOf(entry),
    tank,
    room,
    time: hasHours && !due.bare && due.day === day ? words.time(due) : '',
    when: whenOf(entry, { words, now }),
    state,
    isExpected,
    deed: occurrence === undefined || state === 'upcoming' || occurrence.routine.doneBy.length === 0 ? 'none' : kind === 'hatch' ? 'answer' : 'done',
  };
}

function whenOf({ due, from, to, state, isExpected, hasHours, kind }: Entry, { words, now }: { readonly words: DayWords; readonly now: Moment }): string {
  if (kind === 'maintenance') return to.day === from.day ? (hasHours ? (words.window(from, to, true) ?? '') : '') : textOf(say('calendar.until', words.day(to.day)));
  if (state === 'overdue') return words.late(due, now, hasHours);
  const window = isExpected && to.instant > now.instant ? words.window(from, to, hasHours) : undefined;
  if (due.day < words.today) return [textOf(say('calendar.since', words.day(due.day))), ...(window === undefined || kind === 'sale' ? [] : [window])].join(', ');
  return window ?? '';
}
