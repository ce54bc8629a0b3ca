import { say, textOf } from '../../base/messages';
import type { Moment } from '../../base/moment';
import type { ComingDays } from '../../planner/coming';
import type { Entry, Feeding } from '../../planner/entry';
import { clockTime, feedDay } from '../../planner/feedRounds';
import type { FishroomConfig } from '../../records/config';
import { dayOf, itemOf } from './calendarItem';
import type { CalendarItem } from './calendarItem';
import type { DayWords } from './dayWords';
import { isFeedingSelected, isSelected } from './selection';
import type { Selection } from './selection';

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

/** What days are made of. */
export interface DaySource {
  readonly coming: ComingDays;
  readonly selection: Selection;
  readonly words: DayWords;
  readonly now: Moment;
  readonly config: FishroomConfig;
  /** Compares by the walk through the rooms. */
  readonly placeOrder: (a: Entry, b: Entry) => number;
  readonly roomName: (room: string) => string;
}

/** The entries of each day by the day under which they are told, those that are selected, in walking order. */
export function entriesByDay({ coming, selection, words, placeOrder }: DaySource): ReadonlyMap<number, readonly Entry[]> {
  const days = new Map<number, Entry[]>();
  for (const entry of coming.entries) {
    if (!isSelected(entry, selection)) continue;
    const day = dayOf(entry, words.today);
    const there = days.get(day);
    if (there === undefined) days.set(day, [entry]);
    else there.push(entry);
  }
  for (const entries of days.values()) entries.sort((a, b) => Number(b.state === 'overdue') - Number(a.state === 'overdue') || placeOrder(a, b) || a.due.instant - b.due.instant);
  return days;
}

export function feedingsSelected({ coming, selection }: DaySource): readonly Feeding[] {
  return coming.feedings.filter((feeding) => isFeedingSelected(feeding, selection));
}

/** The work in the rooms that goes on on a day, whatever day it stands under. */
export function jobsOn(day: number, byDay: ReadonlyMap<number, readonly Entry[]>): readonly Entry[] {
  return [...byDay.values()].flat().filter(({ kind, from, to }) => kind === 'maintenance' && from.day <= day && day <= to.day);
}

/** Days from `first` to `last` (days since 1970-01-01) with something on them. Work of several days stands under its first one, or with `isEachDay` under each. */
export function dayLists(source: DaySource, { first, last, isEachDay = false }: { readonly first: number; readonly last: number; readonly isEachDay?: boolean }): readonly DayList[] {
  const byDay = entriesByDay(source);
  const feedings = feedingsSelected(source);
  const lists: DayList[] = [];
  for (let day = Math.max(first, source.words.today); day <= last; day++) {
    const own = byDay.get(day) ?? [];
    const entries = isEachDay ? [...own, ...jobsOn(day, byDay).filter((job) => !own.includes(job))] : own;
    const list = dayListOf(day, { ...source, entries, feedings });
    if (list.sections.length > 0) lists.push(list);
  }
  return lists;
}

function dayListOf(day: number, { entries, feedings, words, now, config, roomName }: DaySource & { readonly entries: readonly Entry[]; readonly feedings: readonly Feeding[] }): DayList {
  const item = (entry: Entry): CalendarItem => itemOf(entry, { words, now });
  const overdue = entries.filter(({ state }) => state === 'overdue');
  const sections: DaySection[] = overdue.length === 0 ? [] : [{ title: textOf(say('calendar.overdue')), isOverdue: true, feeds: [], items: overdue.map(item) }];
  const rooms = new Map<string, { readonly feeds: FeedLine[]; readonly items: CalendarItem[] }>();
  const roomed = (room: string): { readonly feeds: FeedLine[]; readonly items: CalendarItem[] } => {
    let there = rooms.get(room);
    if (there === undefined) rooms.set(room, (there = { feeds: [], items: [] }));
    return there;
  };
  const others = entries.filter(({ state }) => state !== 'overdue');
  // Rooms in walking order, whether they have something to do or only fish to feed.
  const inOrder = [...others.map(({ room }) => room), ...feedings.filter(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay).map(({ room }) => room)];
  for (const room of [...new Set(feedings.map(({ room }) => room))].filter((room) => inOrder.includes(room))) roomed(room);
  for (const entry of others) roomed(entry.room).items.push(item(entry));
  for (const { minute, times, action, tanksByRoom } of feedDay(feedings, { day, config })?.turns ?? []) {
    for (const [room, tanks] of tanksByRoom) roomed(room).feeds.push({ time: minute === undefined ? '' : clockTime(minute), what: times === 1 ? action : textOf(say('calendar.times', action, times)), tanks: tanks.join(' ') });
  }
  for (const [room, { feeds, items }] of rooms) sections.push({ title: room === '' ? textOf(say('calendar.whole')) : roomName(room), isOverdue: false, feeds, items });
  return { day, title: words.day(day), distance: words.distance(day), sections };
}
