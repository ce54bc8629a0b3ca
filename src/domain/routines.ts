import { addDuration } from '../base/duration';
import type { Duration } from '../base/duration';
import { compareMoments, momentOfDay } from '../base/moment';
import type { Moment } from '../base/moment';
import { dayMs } from '../base/zone';
import type { Zone } from '../base/zone';

/** What a routine's time is counted from. Of an expected milestone `…_from` and `…_to` are the ends of its window. */
export type Anchor =
  | 'spawned'
  | AnchorWithEnds<'hatched' | 'first_feed' | 'free_swimming' | 'released' | 'juvenile' | 'sale_size'>
  | 'strip'
  | 'next_spawn'
  | 'next_spawn_from'
  | 'reading'
  | 'change'
  | 'due';

type AnchorWithEnds<Name extends string> = Name | `${Name}_from` | `${Name}_to`;

/** `round` is the feeding; `habit` is `warn` for who keeps records of it, else `remind`. */
export type Level = 'warn' | 'habit' | 'remind' | 'round';

/** A row of routines.csv with all that it takes over from less special rows. */
export interface Routine {
  readonly routine: string;
  readonly action: string;
  readonly level: Level;
  readonly anchor: Anchor | undefined;
  /** Without an anchor the moment itself. */
  readonly offset: Duration | Moment | undefined;
  readonly untilAnchor: Anchor | undefined;
  readonly untilOffset: Duration | undefined;
  readonly every: Duration | 'feeds_per_day' | undefined;
  readonly grace: Duration | undefined;
  readonly lapse: Duration | undefined;
  readonly doneBy: readonly string[];
  /** The caller's handle to where it stands. */
  readonly source: object;
}

/** An anchor in time: the point that is counted from, and the window of what it belongs to. */
export interface Anchored {
  readonly time: Moment;
  readonly from: Moment;
  readonly to: Moment;
  readonly isExpected: boolean;
}

/** A time that is known, without a window. */
export function certainly(time: Moment): Anchored {
  return { time, from: time, to: time, isExpected: false };
}

/** A thing that routines are about, as far as they look at it. */
export interface Subject {
  readonly now: Moment;
  readonly zone: Zone;
  readonly feedsPerDay: number | undefined;
  anchor(anchor: Anchor): Anchored | undefined;
  /** The latest moment at which one of the events was recorded. */
  lastOf(events: readonly string[]): Moment | undefined;
  /** What the level comes to for this keeper. */
  levelOf(routine: Routine): 'warn' | 'remind' | 'round';
  /** The one question that a brood leaves open: it never lapses. */
  isQuestion(routine: Routine): boolean;
  /** Whether the anchor hangs on a question that has no answer yet, so that nothing can be due. */
  hangsOnQuestion(routine: Routine): boolean;
  /** Whether what is recorded shows that the time of a one-off is over. */
  isOver(routine: Routine, due: Moment): boolean;
}

/** One time at which a routine is due. */
export interface Occurrence {
  readonly routine: Routine;
  /** From 0. */
  readonly index: number;
  readonly due: Moment;
  /** The same counted from the ends of the anchor's window; `due` itself where the anchor is recorded. */
  readonly from: Moment;
  readonly to: Moment;
  readonly isExpected: boolean;
  readonly level: 'warn' | 'remind' | 'round';
  readonly state: 'overdue' | 'due' | 'upcoming';
  /** How long from one to the next, in ms; undefined for what is done once. */
  readonly turnMs: number | undefined;
  /** Of level `warn`: the last moment at which it isn't overdue yet. */
  readonly lastGood: Moment | undefined;
}

export interface Schedule {
  /** Due by now and neither done nor lapsed. There is never more than one. */
  readonly open: Occurrence | undefined;
  /** The next one after now that isn't done already. */
  readonly next: Occurrence | undefined;
  /** The earliest instant after now at which time alone changes one of them; bare days change with the calendar. */
  readonly turn: number;
}

/** One-offs lapse so long after they became due, where their row doesn't say (common practice). */
const ONE_OFF_LAPSE: Duration = { days: 14, ms: 0, hasTime: false };

/** A one-off that prepares for a spawn is done by what happens so many days before it (common practice). */
const EARLY_DAYS = 7;

/** What is due of a routine for a thing; undefined where its anchor can't be known. Costs the same for old and young things. */
export function scheduleOf(routine: Routine, subject: Subject): Schedule | undefined {
  const course = courseOf(routine, subject);
  if (course === undefined) return undefined;
  const { now } = subject;
  const latest = lastIndex(course, now);
  const open = latest < 0 ? undefined : openAt(course, latest);
  const next = nextAfter(course, latest);
  let turn = Number.POSITIVE_INFINITY;
  const at = (moment: Moment | undefined, after: number): void => {
    if (moment !== undefined && !moment.bare && moment.instant + after > now.instant) turn = Math.min(turn, moment.instant + after);
  };
  if (open !== undefined) {
    at(open.lastGood, 1);
    at(lapseOf(course, open.due), 1);
    at(course.until, 0);
  }
  if (next !== undefined) at(next.due, 0);
  return { open, next, turn };
}

/** What is open, and what comes until a day (days since 1970-01-01) has passed, in order. */
export function occurrencesUntil(routine: Routine, subject: Subject, lastDay: number): readonly Occurrence[] {
  const course = courseOf(routine, subject);
  if (course === undefined) return [];
  const latest = lastIndex(course, subject.now);
  const open = latest < 0 ? undefined : openAt(course, latest);
  const all = open === undefined ? [] : [open];
  for (let next = nextAfter(course, latest); next !== undefined && next.due.day <= lastDay; next = nextAfter(course, next.index)) all.push(next);
  return all;
}

/**
 * What fell due from one day to another (days since 1970-01-01) and is not done, in order: also what has lapsed. Nothing that hangs on a question without
 * answer, is over by later records, or is still to come.
 */
export function missedWithin(routine: Routine, subject: Subject, { firstDay, lastDay }: { readonly firstDay: number; readonly lastDay: number }): readonly Occurrence[] {
  const course = courseOf(routine, subject);
  if (course === undefined || subject.hangsOnQuestion(routine)) return [];
  const missed: Occurrence[] = [];
  for (let index = lastIndex(course, subject.now); index >= 0; index--) {
    const due = at(course, course.first.time, index);
    // One record serves all that was due before it, so what is done has nothing open before it.
    if (due.day < firstDay || isDone(course, due)) break;
    if (due.day <= lastDay && (course.every !== undefined || !subject.isOver(routine, due))) missed.push({ ...occurrenceAt(course, index, due), state: 'due' });
  }
  return missed.reverse();
}

/** Whether `due` is told to the hour, else to the day. */
export function hasHours({ anchor, offset, every }: Routine): boolean {
  if (offset !== undefined && 'instant' in offset) return !offset.bare;
  if (offset?.hasTime === true || every === 'feeds_per_day' || every?.hasTime === true) return true;
  return offset === undefined && every === undefined && anchor !== undefined && /^(hatched|first_feed|free_swimming|released)/.test(anchor);
}

/** Whether it is counted from the early end of a window, so that `due` is when it has to be done and not when something is likely. */
export function isForTheEarliest({ anchor }: Routine): boolean {
  return anchor?.endsWith('_from') === true;
}

/** A routine laid out in time for a thing. */
interface Course {
  readonly routine: Routine;
  readonly subject: Subject;
  readonly first: Anchored;
  readonly every: Duration | undefined;
  readonly until: Moment | undefined;
  readonly lastDone: Moment | undefined;
}

function courseOf(routine: Routine, subject: Subject): Course | undefined {
  const first = firstOf(routine, subject);
  if (first === undefined) return undefined;
  const untilAnchor = routine.untilAnchor === undefined ? undefined : subject.anchor(routine.untilAnchor)?.time;
  return {
    routine,
    subject,
    first,
    every: everyOf(routine, subject),
    until: untilAnchor === undefined ? undefined : later(untilAnchor, routine.untilOffset, subject.zone),
    lastDone: routine.doneBy.length === 0 ? undefined : subject.lastOf(routine.doneBy),
  };
}

/** What is told to the day is due on that day, whatever the hour of its anchor. */
function firstOf(routine: Routine, subject: Subject): Anchored | undefined {
  const { anchor, offset } = routine;
  if (offset !== undefined && 'instant' in offset) {
    return certainly({ ...offset, about: false });
  }
  const base = anchor === undefined ? undefined : subject.anchor(anchor);
  if (base === undefined) return undefined;
  const isToTheHour = hasHours(routine);
  const move = (moment: Moment): Moment => {
    const moved = later(moment, offset, subject.zone);
    return isToTheHour || moved.bare ? moved : momentOfDay(moved.day, subject.zone);
  };
  return { time: move(base.time), from: move(base.from), to: move(base.to), isExpected: base.isExpected };
}

/** What nobody knows the rate of is fed once a day (common practice). */
function everyOf({ every }: Routine, { feedsPerDay }: Subject): Duration | undefined {
  if (every !== 'feeds_per_day') return every;
  return { days: 0, ms: Math.round(dayMs / Math.max(1, feedsPerDay ?? 1)), hasTime: true };
}

/** A moment so much later, told for certain even where it was written as about. */
function later(moment: Moment, duration: Duration | undefined, zone: Zone): Moment {
  const moved = duration === undefined ? moment : addDuration(moment, duration, zone);
  return moved.about ? { ...moved, about: false } : moved;
}

function at({ every, subject }: Course, first: Moment, index: number): Moment {
  if (every === undefined || index === 0) return first;
  return addDuration(first, { days: every.days * index, ms: every.ms * index, hasTime: every.hasTime }, subject.zone);
}

/** The last occurrence that is due by now and before the end, by arithmetic and a step for the clock change; -1: none. */
function lastIndex(course: Course, now: Moment): number {
  const { first, every, until } = course;
  const isPast = (index: number): boolean => {
    const due = at(course, first.time, index);
    return compareMoments(due, now) <= 0 && (until === undefined || compareMoments(due, until) < 0);
  };
  if (every === undefined) return isPast(0) ? 0 : -1;
  const end = until !== undefined && until.instant < now.instant ? until.instant : now.instant;
  // A bare day is there from its midnight on, though it stands for its noon.
  let index = Math.max(-1, Math.floor((end - first.time.instant + dayMs) / lengthOf(every)) + 1);
  while (index >= 0 && !isPast(index)) index--;
  return index;
}

function lengthOf({ days, ms }: Duration): number {
  return days * dayMs + ms;
}

/** The occurrence that is due by now, unless it is done or has lapsed. */
function openAt(course: Course, index: number): Occurrence | undefined {
  const { routine, subject, every, until } = course;
  const { now } = subject;
  const due = at(course, course.first.time, index);
  if (isDone(course, due)) return undefined;
  if (until !== undefined && every !== undefined && compareMoments(now, until) >= 0) return undefined;
  const lapse = lapseOf(course, due);
  const hasLapsed = lapse !== undefined && compareMoments(now, lapse) > 0;
  if (hasLapsed && !subject.isQuestion(routine)) return undefined;
  if (every === undefined && subject.isOver(routine, due)) return undefined;
  const occurrence = occurrenceAt(course, index, due);
  if (subject.hangsOnQuestion(routine)) return occurrence;
  const { lastGood } = occurrence;
  const isOverdue = !hasLapsed && lastGood !== undefined && compareMoments(now, lastGood) > 0;
  return { ...occurrence, state: isOverdue ? 'overdue' : 'due' };
}

function nextAfter(course: Course, index: number): Occurrence | undefined {
  const { routine, every, until, subject } = course;
  if (every === undefined && index >= 0) return undefined;
  for (let next = index + 1; ; next++) {
    const due = at(course, course.first.time, next);
    if (until !== undefined && compareMoments(due, until) >= 0) return undefined;
    // Only what stands soon after the last record can be done before its time.
    if (!isDone(course, due)) return every === undefined && subject.isOver(routine, due) ? undefined : occurrenceAt(course, next, due);
    if (every === undefined) return undefined;
  }
}

function occurrenceAt(course: Course, index: number, due: Moment): Occurrence {
  const { routine, subject, first } = course;
  const level = subject.levelOf(routine);
  // The feeding goes on: when it began says nothing about when it is due.
  const hasWindow = first.isExpected && level !== 'round';
  const [from, to] = hasWindow ? [at(course, first.from, index), at(course, first.to, index)] : [due, due];
  let lastGood: Moment | undefined;
  if (level === 'warn') {
    lastGood = later(due, routine.grace, subject.zone);
    if (first.isExpected && to.instant > lastGood.instant) lastGood = to;
  }
  return { routine, index, due, from, to, isExpected: hasWindow, level, state: 'upcoming', turnMs: course.every === undefined ? undefined : lengthOf(course.every), lastGood };
}

function lapseOf({ routine, every, subject }: Course, due: Moment): Moment | undefined {
  const lapse = routine.lapse ?? (every === undefined ? ONE_OFF_LAPSE : undefined);
  return lapse === undefined ? undefined : later(due, lapse, subject.zone);
}

/** Whether an occurrence is done by what happens at a time, if that is one of the events it is done by. */
export function isDoneAt({ routine, due, turnMs }: Pick<Occurrence, 'routine' | 'due' | 'turnMs'>, time: Moment): boolean {
  return serves(time, due, { routine, length: turnMs });
}

function isDone({ routine, every, lastDone }: Course, due: Moment): boolean {
  return lastDone !== undefined && serves(lastDone, due, { routine, length: every === undefined ? undefined : lengthOf(every) });
}

/** By its events: a one-off by any, one of a series by one of its day or later, or less than half of a turn before it. */
function serves(lastDone: Moment, due: Moment, { routine, length }: { readonly routine: Routine; readonly length: number | undefined }): boolean {
  if (length === undefined) return routine.anchor?.startsWith('next_spawn') !== true || lastDone.day >= due.day - EARLY_DAYS;
  // What comes round more than once a day isn't done for the whole day by one record.
  const isByDay = length >= dayMs || lastDone.bare || due.bare;
  return (isByDay ? lastDone.day >= due.day : lastDone.instant >= due.instant) || lastDone.instant > due.instant - length / 2;
}

/** The days (since 1970-01-01) on which what comes round again and again falls, and how often a day; undefined where none of them lies within the days asked for. */
export interface Run {
  readonly firstDay: number;
  readonly lastDay: number;
  /** At least once. */
  readonly timesADay: number;
}

/** The run of a repeating routine within some days, without laying out each turn of it. What is done once has none. */
export function runOf(routine: Routine, subject: Subject, { firstDay, lastDay }: Pick<Run, 'firstDay' | 'lastDay'>): Run | undefined {
  const course = courseOf(routine, subject);
  if (course?.every === undefined) return undefined;
  const first = Math.max(firstDay, course.first.time.day);
  const { until } = course;
  // Strictly before its end: what ends at midnight or on a bare day isn't done on that day any more.
  const isBegun = until !== undefined && !until.bare && subject.zone.dayOf(until.instant - 1) === until.day;
  const last = until === undefined ? lastDay : Math.min(lastDay, isBegun ? until.day : until.day - 1);
  return first > last ? undefined : { firstDay: first, lastDay: last, timesADay: Math.max(1, Math.round(dayMs / lengthOf(course.every))) };
}
