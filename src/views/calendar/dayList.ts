import { say, textOf } from '../../base/messages';
import type { Entry } from '../../planner/entry';
import { clockTime } from '../../planner/feedRounds';
import type { CalendarItem } from './calendarItem';
import type { Days } from './days';

/** All that falls on a day, as a screen lists it: room by room in walking order, what is overdue before all else. */
export interface DayList {
  readonly day: number;
  /** `Wed 10 Jun`. */
  readonly title: string;
  /** `in 3 days`. */
  readonly distance: string;
  readonly sections: readonly DaySection[];
}

/** What is overdue, or a room. */
export interface DaySection {
  /** The room, '' of what belongs to none or to several. */
  readonly room: string;
  readonly title: string;
  readonly isOverdue: boolean;
  readonly feeds: readonly FeedLine[];
  readonly items: readonly CalendarItem[];
}

/** A walk with food. */
export interface FeedLine {
  readonly time: string;
  readonly what: string;
  readonly tanks: string;
}

/** Days from `first` to `last` (days since 1970-01-01) with something on them. Work of several days stands under its first one, or with `isEachDay` under each. */
export function dayLists(days: Days, { first, last, isEachDay = false }: { readonly first: number; readonly last: number; readonly isEachDay?: boolean }): readonly DayList[] {
  const lists: DayList[] = [];
  for (let day = Math.max(first, days.source.words.today); day <= last; day++) {
    const own = days.under(day);
    const list = dayListOf(day, isEachDay ? [...own, ...days.jobsOn(day).filter((job) => !own.includes(job))] : own, days);
    if (list.sections.length > 0) lists.push(list);
  }
  return lists;
}

function dayListOf(day: number, entries: readonly Entry[], days: Days): DayList {
  const { words, roomName } = days.source;
  const overdue = entries.filter(({ state }) => state === 'overdue');
  const sections: DaySection[] = overdue.length === 0 ? [] : [{ room: '', title: textOf(say('calendar.overdue')), isOverdue: true, feeds: [], items: overdue.map((entry) => days.item(entry)) }];
  const others = entries.filter(({ state }) => state !== 'overdue');
  const rooms = new Map<string, { readonly feeds: FeedLine[]; readonly items: CalendarItem[] }>(days.rooms(day, others).map((room) => [room, { feeds: [], items: [] }]));
  for (const entry of others) rooms.get(entry.room)?.items.push(days.item(entry));
  for (const { minute, times, action, tanksByRoom } of days.feeding(day)?.turns ?? []) {
    for (const [room, tanks] of tanksByRoom) rooms.get(room)?.feeds.push({ time: minute === undefined ? '' : clockTime(minute), what: times === 1 ? action : textOf(say('calendar.times', action, times)), tanks: tanks.join(' ') });
  }
  for (const [room, { feeds, items }] of rooms) sections.push({ room, title: room === '' ? textOf(say('calendar.whole')) : roomName(room), isOverdue: false, feeds, items });
  return { day, title: words.day(day), distance: words.distance(day), sections };
}
