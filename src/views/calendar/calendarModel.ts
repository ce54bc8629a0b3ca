import { say, textOf } from '../../base/messages';
import { wholeMinute } from '../../base/moment';
import type { ComingDays } from '../../planner/coming';
import { entryKinds } from '../../planner/entry';
import type { EntryKind } from '../../planner/entry';
import type { Plan } from '../../planner/plan';
import { roomName, roomsInOrder } from '../../planner/roomName';
import { compareNames } from '../../base/order';
import { dayLists } from './dayList';
import type { DayList } from './dayList';
import { Days } from './days';
import type { DaySource } from './days';
import { DayWords, firstWeekday } from './dayWords';
import { daysOfMonth, kindName, monthOf } from './month';
import type { MonthModel } from './month';
import type { Selection } from './selection';
import { stripOf } from './strip';
import type { StripModel } from './strip';
import { unreadMessage } from '../unread';

export const calendarViews = ['month', 'strip', 'list'] as const;
export type CalendarView = (typeof calendarViews)[number];

/** The days that a season strip may show at once. */
const zooms = [14, 28, 61, 122, 183, 365] as const;

/** How a calendar is looked at: a way, a place in time, and what of the fishroom. */
export interface CalendarQuery {
  readonly view: CalendarView;
  /** Days since 1970-01-01: a day of the month, the first of the strip; undefined where it begins with today. */
  readonly day?: number | undefined;
  /** Of the strip, and of the list. */
  readonly days?: number | undefined;
  readonly selection: Selection;
}

/** What there is to choose from. */
export interface Choice {
  readonly value: string;
  readonly label: string;
}

/** One view of a fishroom's calendar, ready for the screen. */
export interface CalendarModel {
  readonly today: number;
  /** `Wed 10 Jun, 09:00`. */
  readonly now: string;
  readonly rooms: readonly Choice[];
  readonly species: readonly Choice[];
  readonly kinds: readonly Choice[];
  readonly body: CalendarBody;
  /** What would be here and how it gets here, where there is nothing; which sheets are missing, where some can't be read. */
  readonly empty: string | undefined;
}

export type CalendarBody =
  /** With the list of the day that is looked at first; those of the others come by {@link listsOfMonth}. */
  | { readonly view: 'month'; readonly month: MonthModel; readonly lists: readonly DayList[] }
  | { readonly view: 'strip'; readonly strip: StripModel; readonly before: number; readonly after: number; readonly spans: readonly Choice[] }
  | { readonly view: 'list'; readonly title: string; readonly lists: readonly DayList[]; readonly days: number; readonly mayShowMore: boolean };

/** A list begins with so many days and ends with so many at most. */
export const LIST_DAYS = { first: 7, step: 14, most: 63 } as const;
const STRIP_DAYS = 61;
/** Behind today so much of a strip is seen: a fifth. */
const STRIP_PAST = 0.2;

/** How many days from today on have to be known for a view. */
export function daysNeeded({ view, day, days }: CalendarQuery, { today, locale }: { readonly today: number; readonly locale: string }): number {
  switch (view) {
    case 'month':
      return Math.max(0, daysOfMonth(day ?? today, firstWeekday(locale)).last - today);
    case 'strip': {
      const { firstDay, shown } = stripRange({ day, days }, today);
      return Math.max(0, firstDay + shown - 1 - today);
    }
    case 'list':
      return listDays(days);
  }
}

/** What a calendar is made from. */
export interface CalendarSource {
  readonly query: CalendarQuery;
  readonly coming: ComingDays;
  readonly locale: string;
}

function sourceOf(plan: Plan, { query, coming, locale }: CalendarSource): DaySource {
  const { now, records } = plan;
  const words = new DayWords({ locale, today: now.day, zone: records.zone });
  return { coming, selection: query.selection, words, now, config: records.config, placeOrder: plan.placeOrder(), roomName: (room) => roomName(room, records) };
}

/** The lists of all days of a month. */
export function listsOfMonth(plan: Plan, source: CalendarSource): readonly DayList[] {
  const { query, locale } = source;
  return dayLists(new Days(sourceOf(plan, source)), { ...daysOfMonth(query.day ?? plan.now.day, firstWeekday(locale)), isEachDay: true });
}

export function calendarModel(plan: Plan, { query, coming, locale }: CalendarSource): CalendarModel {
  const { now } = plan;
  const today = now.day;
  const source = sourceOf(plan, { query, coming, locale });
  const { words } = source;
  const body = bodyOf(plan, source, { query, locale });
  return { today, now: words.moment(wholeMinute(now, plan.records.zone), true), rooms: roomsInOrder(plan.records).map((room) => ({ value: room, label: roomName(room, plan.records) })), species: speciesOf(plan), kinds: entryKinds.map((kind: EntryKind) => ({ value: kind, label: kindName(kind) })), body, empty: emptyOf(plan, body) };
}

function bodyOf(plan: Plan, source: DaySource, { query, locale }: { readonly query: CalendarQuery; readonly locale: string }): CalendarBody {
  const { today } = source.words;
  switch (query.view) {
    case 'month': {
      const weekday = firstWeekday(locale);
      const day = query.day ?? today;
      const days = new Days(source);
      const { first, last } = daysOfMonth(day, weekday);
      const looked = first <= today && today <= last ? today : day;
      return { view: 'month', month: monthOf(days, { day, firstWeekday: weekday }), lists: dayLists(days, { first: looked, last: looked, isEachDay: true }) };
    }
    case 'strip': {
      const { firstDay, shown } = stripRange(query, today);
      const lives = plan.lives({ first: firstDay, last: firstDay + shown - 1 });
      const strip = stripOf({ ...source, lives, entries: source.coming.entries, tanks: tanksInOrder(plan), zone: plan.records.zone }, { firstDay, days: shown });
      const step = Math.max(1, Math.round(shown / 2));
      return { view: 'strip', strip, before: firstDay - step, after: firstDay + step, spans: zooms.map((zoom) => ({ value: String(zoom), label: textOf(say(`calendar.span.${zoom}`)) })) };
    }
    case 'list': {
      const days = listDays(query.days);
      return { view: 'list', title: textOf(say('calendar.window', source.words.day(today), source.words.day(today + days))), lists: dayLists(new Days(source), { first: today, last: today + days }), days, mayShowMore: days < LIST_DAYS.most };
    }
  }
}

function listDays(days: number | undefined): number {
  return Math.min(LIST_DAYS.most, Math.max(LIST_DAYS.first, days ?? LIST_DAYS.first));
}

function stripRange({ day, days }: Pick<CalendarQuery, 'day' | 'days'>, today: number): { readonly firstDay: number; readonly shown: number } {
  const shown = zooms.find((zoom) => zoom === days) ?? STRIP_DAYS;
  return { firstDay: day ?? today - Math.round(shown * STRIP_PAST), shown };
}

/** The species of the pairs and broods. */
function speciesOf(plan: Plan): readonly Choice[] {
  const kept = new Set<string>();
  for (const id of plan.records.index('pairs').ids()) kept.add(plan.records.pair(id)?.species ?? '');
  for (const { species } of plan.view.openClutches()) kept.add(species ?? '');
  kept.delete('');
  return [...kept].sort(compareNames).map((species) => ({ value: species, label: species }));
}

function tanksInOrder(plan: Plan): readonly { readonly tank: string; readonly room: string }[] {
  const order = plan.placeOrder();
  const tanks = [...plan.records.index('tanks').ids()].map((id) => plan.records.tank(id)).filter((tank) => tank !== undefined);
  return tanks
    .map(({ tank, room, row }) => ({ tank, room: room ?? '', row, pair: '', clutch: '' }))
    .sort(order)
    .map(({ tank, room }) => ({ tank, room }));
}

function emptyOf(plan: Plan, body: CalendarBody): string | undefined {
  const isEmpty = body.view === 'strip' ? body.strip.rows.length === 0 : body.view === 'list' ? body.lists.length === 0 : body.month.weeks.every((week) => week.every(({ lines }) => lines.length === 0));
  const unread = unreadMessage(plan.unreadPaths());
  if (unread !== undefined) return textOf(unread);
  if (!isEmpty) return undefined;
  return textOf(plan.records.index('clutches').ids().next().done === true ? say('calendar.empty.no-clutch') : say('calendar.empty.nothing'));
}
