import type { Moment } from '../../base/moment';
import type { ComingDays } from '../../planner/coming';
import type { Entry, Feeding } from '../../planner/entry';
import { FeedDays } from '../../planner/feedRounds';
import type { FeedDay } from '../../planner/feedRounds';
import type { FishroomConfig } from '../../records/config';
import { dayOf, itemOf } from './calendarItem';
import type { CalendarItem } from './calendarItem';
import type { DayWords } from './dayWords';
import { isFeedingSelected, isSelected } from './selection';
import type { Selection } from './selection';

/** What days are made of. */
export interface DaySource {
  readonly coming: ComingDays;
  readonly selection: Selection;
  readonly words: DayWords;
  readonly now: Moment;
  readonly config: FishroomConfig;
  /** Compares by the walk through the rooms. */
  readonly placeOrder: (a: Entry | Feeding, b: Entry | Feeding) => number;
  readonly roomName: (room: string) => string;
}

/** The entries of each day by the day under which they are told, those that are selected, in walking order. */
function entriesByDay({ coming, selection, words, placeOrder }: DaySource): ReadonlyMap<number, readonly Entry[]> {
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

function feedingsSelected({ coming, selection }: DaySource): readonly Feeding[] {
  return coming.feedings.filter((feeding) => isFeedingSelected(feeding, selection));
}

/** What falls on which day: worked out once for the cells of a month and for the lists. */
export class Days {
  readonly source: DaySource;
  readonly #byDay: ReadonlyMap<number, readonly Entry[]>;
  readonly #jobs: readonly Entry[];
  readonly #feedings: readonly Feeding[];
  readonly #feedDays: FeedDays;
  readonly #items = new Map<Entry, CalendarItem>();

  constructor(source: DaySource) {
    this.source = source;
    this.#byDay = entriesByDay(source);
    this.#jobs = [...this.#byDay.values()].flat().filter(({ kind }) => kind === 'maintenance');
    this.#feedings = feedingsSelected(source);
    this.#feedDays = new FeedDays(this.#feedings, source.config);
  }

  /** What stands under a day (days since 1970-01-01), in walking order, what is overdue first. */
  under(day: number): readonly Entry[] {
    return this.#byDay.get(day) ?? [];
  }

  /** The work in the rooms that goes on on a day, whatever day it stands under. */
  jobsOn(day: number): readonly Entry[] {
    return this.#jobs.filter(({ from, to }) => from.day <= day && day <= to.day);
  }

  /** The feeding of a day, undefined where nobody is fed. */
  feeding(day: number): FeedDay | undefined {
    return this.#feedDays.on(day);
  }

  /** Rooms in walking order: those of some entries, and those in which there are fish to feed on a day. */
  rooms(day: number, entries: readonly Entry[]): readonly string[] {
    const first = new Map<string, Entry | Feeding>();
    for (const each of entries) if (!first.has(each.room)) first.set(each.room, each);
    for (const each of this.#feedings) if (each.firstDay <= day && day <= each.lastDay && !first.has(each.room)) first.set(each.room, each);
    return [...first.values()].sort(this.source.placeOrder).map(({ room }) => room);
  }

  /** An entry as a screen shows it. */
  item(entry: Entry): CalendarItem {
    let item = this.#items.get(entry);
    if (item === undefined) this.#items.set(entry, (item = itemOf(entry, this.source)));
    return item;
  }
}
