import { say, textOf } from '../base/messages';
import { formatDay } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { dayMs } from '../base/zone';
import type { ComingDays } from '../planner/coming';
import { whoOf } from '../planner/entry';
import type { Entry, EntryKind } from '../planner/entry';
import type { FishroomConfig } from '../records/config';
import type { CalendarEvent, EventTime } from './calendarEvent';
import { certaintyOf, isCarried, isSpread, saleLines, whereIs } from './entryText';
import { clockTime, FeedDays } from '../planner/feedRounds';
import type { FeedDay } from '../planner/feedRounds';
import { foodTitle, foodWhom } from './foodText';
import { cautionsOn } from './jobGuide';

export interface EventsOptions {
  /** No other fishroom in the same file has it. */
  readonly fishroom: string;
  readonly now: Moment;
  readonly zone: Zone;
  readonly config: FishroomConfig;
  /** Only of these rooms; brine shrimp, which are for all rooms together, are left out then. */
  readonly rooms?: ReadonlySet<string> | undefined;
  readonly kinds?: ReadonlySet<EntryKind> | undefined;
}

const MINUTE = 60_000;

const HOUR = 60 * MINUTE;

/** Expected windows of more than this are told by the day: an hour of them says nothing. */
const LONGEST_TIMED = 48 * HOUR;

/** What has a moment and no length takes so long in a calendar, else it could hardly be seen there. */
const QUARTER = 15 * MINUTE;

/** Windows of more days than this (next spawns, fish to sell) stand on their most likely day and in words: a dozen bars across all weeks hide the rest. */
const LONGEST_SPAN = 14;

/** Phones keep still at night (minutes after midnight; common practice). */
const [MORNING, EVENING] = [7 * 60, 21 * 60];

/**
 * What falls on some days as events: each entry one, to the day on whole days, to the hour from the first to the last hour of its window; the feeding one a
 * day. A phone that takes the file in again should find only that changed which did: what is told to the hour and has begun is told by
 * the day from then on, else it would be another with each minute. What is overdue stands on today.
 */
export function roomEvents({ entries, feedings }: ComingDays, options: EventsOptions): readonly CalendarEvent[] {
  const { rooms, kinds } = options;
  const isWanted = (kind: EntryKind, room: string): boolean => kinds?.has(kind) !== false && rooms?.has(room) !== false;
  const events = entries.filter(({ kind, room }) => isWanted(kind, room)).map((entry) => eventOf(entry, options));
  const fed = feedings.filter(({ room }) => isWanted('feeding', room));
  const first = Math.min(...fed.map(({ firstDay }) => firstDay));
  const last = Math.max(...fed.map(({ lastDay }) => lastDay));
  const days = new FeedDays(fed, options.config);
  for (let day = first; day <= last; day++) {
    const event = feedEvent(days.on(day), { ...options, day });
    if (event !== undefined) events.push(event);
  }
  return events;
}

function eventOf(entry: Entry, { fishroom, now, zone }: EventsOptions): CalendarEvent {
  const { kind, clutch, pair, species } = entry;
  const when = timeOf(entry, now, zone);
  const isToTheHour = when.kind === 'times';
  const title = titleOf(entry);
  return {
    uid: uidOf(fishroom, entry.key),
    summary: entry.state === 'overdue' ? textOf(say('exchange.overdue', title)) : title,
    description: [
      ...certaintyOf(entry, { today: now.day, isToTheHour, zone }),
      ...(clutch === '' ? [] : [textOf(say('exchange.clutch', clutch))]),
      ...(pair === '' ? [] : [textOf(say('exchange.pair', pair))]),
      ...(species === '' ? [] : [species]),
      ...(entry.food === undefined ? [] : foodWhom(entry.food, { most: Number.POSITIVE_INFINITY })),
      ...saleLines(entry),
      ...cautionsOn(entry).map(textOf),
    ],
    location: whereIs(entry),
    category: textOf(say(`calendar.kind.${kind}`)),
    when,
  };
}

/** What it is about and where, then what is to be done. */
function titleOf(entry: Entry): string {
  if (entry.food !== undefined) return foodTitle(entry.food);
  const whom = [whoOf(entry), entry.tank].filter((each) => each !== '').join(' ');
  return whom === '' ? textOf(entry.action) : `${whom}: ${textOf(entry.action)}`;
}

function timeOf(entry: Entry, now: Moment, zone: Zone): EventTime {
  const { due, from, to, isExpected, hasHours, food } = entry;
  // To start food too late is worse than to be called the evening before.
  const at = food === undefined ? 'later' : 'earlier';
  if (isCarried(entry, now.day)) return onDay(now.day);
  const isToTheHour = hasHours && !due.bare && !from.bare && !to.bare;
  if (to.day - from.day > LONGEST_SPAN && isExpected) return onDay(Math.max(due.day, now.day));
  if (!isToTheHour || (isExpected && to.instant - from.instant > LONGEST_TIMED)) return { kind: 'days', first: from.day, last: Math.max(from.day, to.day) };
  if (!isSpread(entry, true)) return timed({ start: due.instant, end: due.instant + QUARTER, zone, at });
  if (from.instant <= now.instant) return { kind: 'days', first: from.day, last: to.day };
  // What hangs on a window that is running moves on with the clock; by whole hours it seldom does.
  const [start, end] = isExpected ? [Math.floor(from.instant / HOUR) * HOUR, Math.ceil(to.instant / HOUR) * HOUR] : [from.instant, to.instant];
  return timed({ start, end, zone, at });
}

function onDay(day: number): EventTime {
  return { kind: 'days', first: day, last: day };
}

interface Timed {
  readonly start: number;
  readonly end: number;
  readonly zone: Zone;
  /** Whether an alarm that would ring at night waits for the morning, or comes in the evening before. */
  readonly at: 'earlier' | 'later';
}

function timed({ start, end, zone, at }: Timed): EventTime {
  const [first, last] = [toMinute(start), toMinute(end)];
  const day = zone.dayOf(first);
  const morning = zone.instantOf(day * dayMs + MORNING * MINUTE);
  const evening = zone.instantOf(day * dayMs + EVENING * MINUTE);
  let alarm = first;
  if (at === 'later' && first < morning) alarm = morning;
  else if (at === 'later' && first > evening) alarm = zone.instantOf((day + 1) * dayMs + MORNING * MINUTE);
  else if (at === 'earlier' && first > evening) alarm = evening;
  else if (at === 'earlier' && first < morning) alarm = zone.instantOf((day - 1) * dayMs + EVENING * MINUTE);
  return { kind: 'times', start: first, end: Math.max(last, first + QUARTER), alarm, zone };
}

function toMinute(instant: number): number {
  return Math.round(instant / MINUTE) * MINUTE;
}

/** One for a day: an event for each round would bury all that differs from day to day. */
function feedEvent(fed: FeedDay | undefined, { fishroom, day }: EventsOptions & { readonly day: number }): CalendarEvent | undefined {
  if (fed === undefined) return undefined;
  const rooms = new Set(fed.turns.flatMap(({ tanksByRoom }) => [...tanksByRoom.keys()]));
  const [only = ''] = rooms;
  return {
    uid: uidOf(fishroom, `feeding.${formatDay(day)}`),
    summary: feedTitle(fed.rounds, fed.tanks),
    description: fed.turns.flatMap(({ minute, times, action, tanksByRoom }) => {
      const when = minute === undefined ? (times === 1 ? '' : textOf(say('exchange.feed.times', times))) : clockTime(minute);
      return [...tanksByRoom].map(([room, tanks]) => `${[when, rooms.size > 1 ? room : '', action].filter((each) => each !== '').join(' · ')}: ${tanks.join(' ')}`);
    }),
    location: rooms.size === 1 ? only : '',
    category: textOf(say('calendar.kind.feeding')),
    when: onDay(day),
  };
}

function feedTitle(rounds: number, tanks: number): string {
  if (rounds === 1) return textOf(tanks === 1 ? say('exchange.feed.tank') : say('exchange.feed.tanks', tanks));
  return textOf(tanks === 1 ? say('exchange.feed.rounds.tank', rounds) : say('exchange.feed.rounds.tanks', rounds, tanks));
}

/** Of what the keeper wrote alone, so that it is the same on every machine; in signs that stand for themselves everywhere. */
function uidOf(fishroom: string, key: string): string {
  const plain = (text: string): string => text.replaceAll(/\p{Cs}/gu, '\uFFFD').replaceAll(/[^\w.~%/-]/gu, encodeURIComponent);
  return `${plain(key)}@${plain(fishroom)}`;
}
