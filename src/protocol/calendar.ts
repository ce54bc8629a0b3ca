import * as v from 'valibot';
import type { CalendarModel, CalendarQuery, Choice } from '../views/calendar/calendarModel';
import type { CalendarTexts } from '../views/calendar/calendarTexts';
import type { DayList } from '../views/calendar/dayList';
import type { ShortWhy } from '../views/calendar/why';
import type { ChartOutcome } from '../views/charts/chart';

// What screens are made of, for those who draw them.
export type { CalendarItem } from '../views/calendar/calendarItem';
export type { CalendarModel, CalendarQuery, CalendarView, Choice } from '../views/calendar/calendarModel';
export type { CalendarTexts } from '../views/calendar/calendarTexts';
export type { DayList, DaySection } from '../views/calendar/dayList';
export type { MonthDay, MonthLine, MonthModel } from '../views/calendar/month';
export type { Band, Block, Edge, StripModel, StripRow } from '../views/calendar/strip';
export type { ShortWhy } from '../views/calendar/why';
export type { ChartOutcome } from '../views/charts/chart';

/** What something is about: an entry by its key, or a thing of a register by its id. */
export type Target = { readonly of: 'entry'; readonly key: string } | { readonly of: 'clutch' | 'pair' | 'tank'; readonly id: string };

/** Something that is asked in place before it is written. */
export interface AskedInPlace {
  /** Under this it is answered. */
  readonly name: string;
  readonly label: string;
  /** The likely answer, '' where none is likelier than others. */
  readonly value: string;
  /** What there is to choose from; empty where it is typed. */
  readonly choices: readonly Choice[];
  /** Whether something else than the choices may be typed. */
  readonly isTyped: boolean;
  readonly isNeeded: boolean;
}

/** One way in which something was done, or a question was answered, with what is asked for it. */
export interface WayAsked {
  readonly way: string;
  readonly label: string;
  readonly fields: readonly AskedInPlace[];
  readonly caution: string | undefined;
}

/** From the host to the calendar. */
export type ToCalendar =
  /** The calendar as it is now, for a query that was asked for or because the records or the time changed; `ask` is the number of the last one that was heard. */
  | { readonly kind: 'shown'; readonly ask: number; readonly fishroom: string; readonly fishrooms: readonly Choice[]; readonly query: CalendarQuery; readonly model: CalendarModel; readonly texts: CalendarTexts }
  /** The lists of the days of the month that was shown last. */
  | { readonly kind: 'lists'; readonly ask: number; readonly lists: readonly DayList[] }
  /** There is no fishroom to show. */
  | { readonly kind: 'nothing'; readonly text: string; readonly texts: CalendarTexts }
  | { readonly kind: 'why'; readonly target: Target; readonly why: ShortWhy }
  /** The chart of what a target is about. */
  | { readonly kind: 'chart'; readonly target: Target; readonly outcome: ChartOutcome }
  /** What is asked before an entry is recorded as done. */
  | { readonly kind: 'asked'; readonly key: string; readonly ways: readonly WayAsked[] }
  /** What an act came to; `isDone`: it was written and can be taken back. `key`: that of the entry that it was about. Without `text` there is nothing to say. */
  | { readonly kind: 'told'; readonly key?: string | undefined; readonly text?: string | undefined; readonly isDone: boolean };

/** From the calendar to the host. */
export type FromCalendar =
  /** It can be shown something. With what it showed before its window was closed. */
  | { readonly kind: 'ready'; readonly fishroom?: string | undefined; readonly query?: CalendarQuery | undefined }
  /** Asked for one after the other, numbered, so that an answer that comes too late is known. */
  | { readonly kind: 'show'; readonly ask: number; readonly fishroom?: string | undefined; readonly query: CalendarQuery }
  | { readonly kind: 'why' | 'open' | 'chart'; readonly target: Target }
  /** Records what is asked for; without a way the host asks first, where there is something to ask. */
  | { readonly kind: 'done'; readonly key: string; readonly answer?: { readonly way: string; readonly answers: Readonly<Record<string, string>> } | undefined }
  | { readonly kind: 'takeBack' };

const id = v.pipe(v.string(), v.maxLength(1000));
const names = v.optional(v.pipe(v.array(id), v.maxLength(10_000)));
const day = v.optional(v.pipe(v.number(), v.integer(), v.minValue(-719_000), v.maxValue(2_900_000)));
const kinds = ['hatch', 'first-feed', 'free-swimming', 'check', 'feeding', 'count', 'move', 'water', 'live-food', 'maintenance', 'next-spawn', 'sale', 'order'] as const;

const query = v.object({
  view: v.picklist(['month', 'strip', 'list']),
  day,
  days: v.optional(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(400))),
  selection: v.object({ rooms: names, species: names, kinds: v.optional(v.array(v.picklist(kinds))) }),
});

const target = v.union([v.object({ of: v.literal('entry'), key: id }), v.object({ of: v.picklist(['clutch', 'pair', 'tank']), id })]);

const fromCalendar = v.union([
  v.object({ kind: v.literal('ready'), fishroom: v.optional(id), query: v.optional(query) }),
  v.object({ kind: v.literal('show'), ask: v.pipe(v.number(), v.safeInteger(), v.minValue(0)), fishroom: v.optional(id), query }),
  v.object({ kind: v.picklist(['why', 'open', 'chart']), target }),
  v.object({ kind: v.literal('done'), key: id, answer: v.optional(v.object({ way: id, answers: v.record(id, v.pipe(v.string(), v.maxLength(10_000))) })) }),
  v.object({ kind: v.literal('takeBack') }),
]);

/** What a web view sent, undefined for anything else than what a calendar says. */
export function readFromCalendar(message: unknown): FromCalendar | undefined {
  const read = v.safeParse(fromCalendar, message);
  return read.success ? read.output : undefined;
}
