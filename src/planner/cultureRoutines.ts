import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { Duration } from '../base/duration';
import { isFuture } from '../base/moment';
import type { Moment } from '../base/moment';
import { isRunning, readyOf, renewDueOf } from '../domain/cultures';
import { scheduleOf } from '../domain/routines';
import type { Routine } from '../domain/routines';
import { culturesOf } from '../records/cultures';
import type { Culture } from '../records/cultures';
import type { PlanView } from './states';
import { Thing } from './subjects';

/** What is to be done about a culture, and how it is told. */
export interface CultureRoutine {
  readonly routine: Routine;
  readonly action: Message;
}

/** That a culture can be fed from is news for a day. */
const NEWS: Duration = { days: 1, ms: 0, hasTime: false };

/** What is to be done about a culture while it is there: feed from it once it is ready, set it up anew when that is due. */
export function cultureRoutines(culture: Culture, { now, zone }: PlanView): readonly CultureRoutine[] {
  if (!isRunning(culture, now)) return [];
  const { food, row } = culture;
  const [ready, renew] = [readyOf(culture, zone), renewDueOf(culture, zone)];
  const all: CultureRoutine[] = [];
  if (ready !== undefined) all.push({ routine: onceAt('culture-ready', ready, { lapse: NEWS, source: row }), action: say(food === 'brine_shrimp' ? 'action.culture-ready.hatched' : 'action.culture-ready') });
  if (renew !== undefined) all.push({ routine: onceAt('renew-culture', renew, { lapse: undefined, source: row }), action: say('action.renew-culture') });
  return all;
}

function onceAt(routine: string, offset: Moment, { lapse, source }: Pick<Routine, 'lapse' | 'source'>): Routine {
  return { routine, action: routine, level: 'remind', anchor: undefined, offset, untilAnchor: undefined, untilOffset: undefined, every: undefined, grace: undefined, lapse, doneBy: [], source };
}

/** Cultures have no log: what is to be done of them hangs on their row alone. */
export class CultureSubject extends Thing {
  override anchor(): undefined {
    return undefined;
  }

  override lastOf(): undefined {
    return undefined;
  }
}

/** The earliest instant after now at which time alone changes what is to be done about cultures; bare days change with the calendar. */
export function cultureTurn(view: PlanView): number {
  let turn = Number.POSITIVE_INFINITY;
  const subject = new CultureSubject(view);
  for (const culture of culturesOf(view.records)) {
    if (isFuture(culture.started, view.now) && !culture.started.bare) turn = Math.min(turn, culture.started.instant);
    for (const { routine } of cultureRoutines(culture, view)) turn = Math.min(turn, scheduleOf(routine, subject)?.turn ?? turn);
  }
  return turn;
}
