import { say, textOf } from '../base/messages';
import type { ComingDays } from '../planner/coming';
import type { Entry } from '../planner/entry';
import { feedDay } from '../planner/feedRounds';
import type { Plan } from '../planner/plan';
import { roomName, roomsInOrder } from '../planner/roomName';
import { dayOf, itemOf } from './calendar/calendarItem';
import type { CalendarItem } from './calendar/calendarItem';
import { DayWords } from './calendar/dayWords';

/** What is due in a fishroom: room by room, in each what is overdue, what is for today, and the next days. */
export interface DueTree {
  readonly rooms: readonly DueRoom[];
  readonly overdue: number;
  /** Due today and not overdue. */
  readonly today: number;
}

export interface DueRoom {
  /** '' for what belongs to the fishroom as a whole. */
  readonly room: string;
  readonly label: string;
  readonly overdue: number;
  readonly groups: readonly DueGroup[];
}

export interface DueGroup {
  readonly when: 'overdue' | 'today' | 'next';
  readonly label: string;
  /** Who is fed today; '' where nobody is. */
  readonly feeding: string;
  readonly items: readonly DueItem[];
}

export interface DueItem extends CalendarItem {
  /** Where and whom, since that is what one walks to; what is to be done where that is nowhere. */
  readonly label: string;
  /** The rest, in few words. */
  readonly description: string;
}

/** So many days after today are looked ahead. */
export const DUE_DAYS = 7;

/** `rooms` undefined for all of them. */
export function dueTree(plan: Plan, { coming, rooms, locale }: { readonly coming: ComingDays; readonly rooms: ReadonlySet<string> | undefined; readonly locale: string }): DueTree {
  const { now, records } = plan;
  const words = new DayWords({ locale, today: now.day, zone: records.zone });
  const order = plan.placeOrder();
  const byRoom = new Map<string, Entry[]>();
  for (const room of roomsInOrder(records)) byRoom.set(room, []);
  for (const entry of coming.entries) {
    // What is ready to sell is no work until it is to be offered.
    if (dayOf(entry, now.day) > now.day + DUE_DAYS || (entry.kind === 'sale' && entry.occurrence === undefined)) continue;
    const there = byRoom.get(entry.room);
    if (there === undefined) byRoom.set(entry.room, [entry]);
    else there.push(entry);
  }
  const item = (entry: Entry): DueItem => {
    const shown = itemOf(entry, { words, now });
    const day = dayOf(entry, now.day);
    const place = [shown.tank, shown.whom].filter((part) => part !== '').join(' ');
    return {
      ...shown,
      label: place === '' ? shown.what : place,
      // How late it is comes first: a narrow view cuts off what is last.
      description: [entry.state === 'overdue' ? shown.when : '', day === now.day ? '' : words.day(day), place === '' ? '' : shown.what, shown.time, entry.state === 'overdue' ? '' : shown.when].filter((part) => part !== '').join(' · '),
    };
  };
  const all: DueRoom[] = [];
  for (const [room, entries] of byRoom) {
    if (rooms?.has(room) === false) continue;
    const feed = feedDay(coming.feedings.filter((feeding) => feeding.room === room), { day: now.day, config: records.config });
    const inOrder = entries.sort((a, b) => dayOf(a, now.day) - dayOf(b, now.day) || order(a, b) || a.due.instant - b.due.instant);
    const group = (when: DueGroup['when'], of: readonly Entry[], feeding = ''): readonly DueGroup[] => (of.length === 0 && feeding === '' ? [] : [{ when, label: textOf(say(`due.${when}`)), feeding, items: of.map(item) }]);
    const overdue = inOrder.filter(({ state }) => state === 'overdue');
    const others = inOrder.filter(({ state }) => state !== 'overdue');
    const groups = [
      ...group('overdue', overdue),
      ...group('today', others.filter((entry) => dayOf(entry, now.day) === now.day), feed === undefined ? '' : textOf(feed.tanks === 1 ? say('calendar.feed.one', feed.rounds) : say('calendar.feed', feed.rounds, feed.tanks))),
      ...group('next', others.filter((entry) => dayOf(entry, now.day) > now.day)),
    ];
    if (groups.length > 0) all.push({ room, label: room === '' ? textOf(say('calendar.whole')) : roomName(room, records), overdue: overdue.length, groups });
  }
  const count = (when: DueGroup['when']): number => all.reduce((sum, { groups }) => sum + groups.filter((each) => each.when === when).reduce((inAll, { items }) => inAll + items.length, 0), 0);
  return { rooms: all, overdue: count('overdue'), today: count('today') };
}
