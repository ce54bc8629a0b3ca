import { say, textOf } from '../../base/messages';
import type { Entry, EntryKind } from '../../planner/entry';
import { entryKinds } from '../../planner/entry';
import { dayMs } from '../../base/zone';
import type { Days } from './days';

/** A month as weeks of days. */
export interface MonthModel {
  readonly title: string;
  /** The first of the month, and those of the months around it; days since 1970-01-01. */
  readonly first: number;
  readonly before: number;
  readonly after: number;
  readonly weekdays: readonly string[];
  readonly weeks: readonly (readonly MonthDay[])[];
}

export interface MonthDay {
  readonly day: number;
  /** The number of the day in its month, with the month's name on its first. */
  readonly label: string;
  /** The whole date and what is on it, for those who listen. */
  readonly told: string;
  readonly position: 'past' | 'today' | 'future';
  readonly isOfMonth: boolean;
  readonly lines: readonly MonthLine[];
  /** So many more lines than are shown. */
  readonly more: number;
}

/** One line in a day: a thing by itself, or several of a kind together. */
export interface MonthLine {
  readonly kind: EntryKind | 'overdue';
  readonly text: string;
  /** Whom it is about, or where; '' where that says nothing. It is what is looked for first, so it is never cut off. */
  readonly whom: string;
  /** The same in full, for those who listen. */
  readonly told: string;
  readonly isExpected: boolean;
}

/** More lines than that don't fit into a day that can be taken in at a glance. */
const MOST_LINES = 6;
/** Of the kinds that are few and matter each for itself so many are named. */
const NAMED = 2;

const alone: ReadonlySet<EntryKind> = new Set<EntryKind>(['hatch', 'first-feed', 'free-swimming', 'move', 'next-spawn', 'sale', 'order', 'maintenance']);

/** The first day of the calendar month of a day, moved by some months. */
function monthStart(day: number, move = 0): number {
  const date = new Date(day * dayMs);
  return Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + move, 1) / dayMs;
}

/** The days that are shown of a month: whole weeks. `firstWeekday`: 1 Monday to 7 Sunday. */
export function daysOfMonth(day: number, firstWeekday: number): { readonly first: number; readonly last: number } {
  const [start, end] = [monthStart(day), monthStart(day, 1) - 1];
  // 1970-01-01 was a Thursday.
  const weekday = (of: number): number => (((of + 3 - (firstWeekday - 1)) % 7) + 7) % 7;
  return { first: start - weekday(start), last: end + (6 - weekday(end)) };
}

export function monthOf(all: Days, { day: shown, firstWeekday }: { readonly day: number; readonly firstWeekday: number }): MonthModel {
  const { words } = all.source;
  const { first, last } = daysOfMonth(shown, firstWeekday);
  const [start, next] = [monthStart(shown), monthStart(shown, 1)];
  const weeks: MonthDay[][] = [];
  for (let day = first; day <= last; day++) {
    const entries = [...all.under(day).filter(({ kind }) => kind !== 'maintenance'), ...all.jobsOn(day)];
    const lines = day < words.today ? [] : linesOf(day, entries, all);
    const shownLines = lines.length > MOST_LINES ? lines.slice(0, MOST_LINES - 1) : lines;
    const monthDay: MonthDay = {
      day,
      label: day === first || day === monthStart(day) ? words.short(day) : String(new Date(day * dayMs).getUTCDate()),
      told: [words.long(day), day === words.today ? words.distance(day) : '', ...lines.map(({ told }) => told)].filter((part) => part !== '').join(', '),
      position: day < words.today ? 'past' : day === words.today ? 'today' : 'future',
      isOfMonth: start <= day && day < next,
      lines: shownLines,
      more: lines.length - shownLines.length,
    };
    const week = weeks.at(-1);
    if (week === undefined || week.length === 7) weeks.push([monthDay]);
    else week.push(monthDay);
  }
  return { title: words.month(start), first: start, before: monthStart(shown, -1), after: next, weekdays: (weeks[0] ?? []).map(({ day }) => words.weekday(day)), weeks };
}

/** What is overdue, then what matters each for itself, then the rest by kind. */
function linesOf(day: number, entries: readonly Entry[], all: Days): readonly MonthLine[] {
  const lines: MonthLine[] = [];
  const overdue = entries.filter(({ state }) => state === 'overdue');
  if (overdue.length > NAMED) lines.push(together('overdue', textOf(say('calendar.count-overdue', overdue.length)), false));
  else for (const entry of overdue) lines.push({ ...lineOf(entry, all), kind: 'overdue' });
  const others = entries.filter(({ state }) => state !== 'overdue');
  const kinds = [...entryKinds.filter((kind) => alone.has(kind)), ...entryKinds.filter((kind) => !alone.has(kind))];
  for (const kind of kinds) {
    if (kind === 'feeding') {
      const feed = all.feeding(day);
      if (feed !== undefined) lines.push({ kind, text: textOf(say('calendar.feed.short', feed.rounds, feed.tanks)), whom: '', told: textOf(feed.tanks === 1 ? say('calendar.feed.one', feed.rounds) : say('calendar.feed', feed.rounds, feed.tanks)), isExpected: false });
      continue;
    }
    const ofKind = others.filter((entry) => entry.kind === kind);
    if (ofKind.length > (alone.has(kind) ? NAMED : 1)) lines.push(together(kind, textOf(say('calendar.several', kindName(kind), ofKind.length)), ofKind.every(({ isExpected }) => isExpected)));
    else for (const entry of ofKind) lines.push(lineOf(entry, all));
  }
  return lines;
}

function together(kind: MonthLine['kind'], text: string, isExpected: boolean): MonthLine {
  return { kind, text, whom: '', told: text, isExpected };
}

/** Of jobs and orders a kind says too little. */
const inOwnWords: ReadonlySet<EntryKind> = new Set<EntryKind>(['maintenance', 'order']);

/** `Hatch? K12`: what is expected asks. The rest stands in the list of the day. */
function lineOf(entry: Entry, all: Days): MonthLine {
  const { kind, isExpected } = entry;
  const { what, whom, tank, time, when } = all.item(entry);
  const isOwn = inOwnWords.has(kind);
  const name = isOwn ? what : isExpected ? `${kindName(kind)}?` : kindName(kind);
  return { kind, text: name, whom: isOwn || kind === 'live-food' ? '' : whom === '' ? tank : whom, told: [what, isOwn ? '' : whom, tank, time, when].filter((part) => part !== '').join(' '), isExpected };
}

/** What a kind of entry is called. */
export function kindName(kind: EntryKind): string {
  return textOf(say(`calendar.kind.${kind}`));
}
