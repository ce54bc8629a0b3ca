import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { formatDay } from '../base/moment';
import type { Moment } from '../base/moment';
import { hasHours, missedWithin } from '../domain/routines';
import type { Routine } from '../domain/routines';
import { keyOfOccurrence } from '../planner/coming';
import { Draft } from '../planner/draft';
import { Places } from '../planner/due';
import { isUnsaid, needsOf } from '../planner/eventNeeds';
import type { Plan } from '../planner/plan';
import { keyText } from '../records/row';
import { drafted, momentText, refused } from './act';
import type { Act } from './act';
import { doersOf, tankOf } from './doable';
import type { Doer } from './doable';
import { draftEvent } from './eventRow';

/** Something that was due in the days of a sheet, and is not recorded. */
export interface SheetLine {
  readonly key: string;
  readonly action: Message;
  readonly room: string;
  readonly tank: string;
  readonly clutch: string;
  readonly due: Moment;
  readonly hasHours: boolean;
  /** The event that a tick stands for; undefined where a tick says too little: a count, a tank, or the answer to a question is needed. */
  readonly event: string | undefined;
}

interface Due {
  readonly line: SheetLine;
  readonly doer: Doer;
}

/** Days since 1970-01-01, both within. */
export interface Days {
  readonly firstDay: number;
  readonly lastDay: number;
}

/** What was due in those days and isn't recorded, day by day in walking order. Feeding leaves no row. */
export function sheetLines(days: Days, plan: Plan): readonly SheetLine[] {
  return dueOf(days, plan).map(({ line }) => line);
}

function dueOf(days: Days, plan: Plan): readonly Due[] {
  const places = new Places(plan.view);
  const all: Due[] = [];
  for (const doer of doersOf(plan)) {
    for (const routine of doer.routines) {
      if (routine.level === 'round') continue;
      for (const occurrence of missedWithin(routine, doer.subject, days)) {
        const tank = tankOf(doer, routine, plan);
        const line: SheetLine = {
          key: keyOfOccurrence({ occurrence, row: doer.row }),
          action: say('action.routine', routine.action),
          room: places.roomOf(tank),
          tank,
          clutch: doer.kind === 'clutch' ? keyText(doer.row) : '',
          due: occurrence.due,
          hasHours: hasHours(routine),
          event: eventOfTick(doer, routine),
        };
        all.push({ line, doer });
      }
    }
  }
  const inOrder = (a: Due, b: Due): number => a.line.due.day - b.line.due.day || places.compare(placedAs(a), placedAs(b)) || a.line.due.instant - b.line.due.instant;
  return all.sort(inOrder);
}

function placedAs({ line: { room, tank, clutch }, doer: { row } }: Due): Parameters<Places['compare']>[0] {
  return { room, tank, clutch, pair: '', row };
}

/** A tick says that it was done, in the way that is named first: of a question, or where it may have been done otherwise, it doesn't say what was. */
function eventOfTick(doer: Doer, routine: Routine): string | undefined {
  const [event] = routine.doneBy;
  if (event === undefined || (doer.kind !== 'clutch' && doer.kind !== 'tank')) return undefined;
  if (doer.kind === 'clutch' && doer.subject.isQuestion(routine)) return undefined;
  const { kind } = doer;
  return routine.doneBy.some((name) => needsOf(kind, name) === undefined || isUnsaid(kind, name)) ? undefined : event;
}

/**
 * "Enter the day sheet": writes what was ticked, by its keys, into the logs: on an earlier day as about the moment at which it was due, where it is told to the
 * day, and on this day, by the day alone. All of it or nothing.
 */
export function enterDaySheet(days: Days, keys: ReadonlySet<string>): Act {
  return (plan) => {
    const draft = new Draft(plan.records);
    const ticked = dueOf(days, plan).filter(({ line }) => keys.has(line.key) && line.event !== undefined);
    if (ticked.length === 0) return refused(say('act.refused.nothing-ticked'));
    for (const { line, doer } of ticked) {
      const { event = '', due, tank } = line;
      const isToTheHour = line.hasHours && !due.bare && due.day < plan.now.day;
      const time = isToTheHour ? momentText({ ...due, about: true }, plan) : formatDay(due.day);
      const thing = { kind: doer.kind === 'tank' ? 'tank' : 'clutch', id: keyText(doer.row) } as const;
      const outcome = draftEvent(draft, { thing, event, tank: tank === '' ? undefined : tank }, { answers: { time }, plan });
      if ('fault' in outcome) return refused(outcome.fault);
    }
    return drafted(draft, ticked.length);
  };
}
