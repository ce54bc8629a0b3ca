import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { formatDay, isFuture } from '../base/moment';
import { isDoneAt } from '../domain/routines';
import { Draft } from '../planner/draft';
import { needsOf } from '../planner/eventNeeds';
import { outcomesOf } from '../planner/outcomes';
import type { Plan } from '../planner/plan';
import { keyText } from '../records/row';
import { drafted, momentText, refused, timeOfAnswer } from './act';
import type { Act, Answers, AskedField } from './act';
import { doableOf } from './doable';
import type { Doable } from './doable';
import { cautionOf, draftEvent, eventFields } from './eventRow';
import type { EventRow } from './eventRow';
import { gone, goneFields } from './gone';
import { recordSpawn, spawners, spawnFields } from './recordSpawn';
import { renewalFields, renewCulture } from './renewCulture';
import { sendOrder, sendingFields } from './sendOrder';

/** One way in which something was done, or a question was answered, with what is asked for it. */
export interface DoneWay {
  /** The event, or one of `gone`, `not-known`, `sent`, `renewed`. */
  readonly way: string;
  readonly title: Message;
  readonly fields: readonly AskedField[];
  readonly caution: Message | undefined;
}

/**
 * The ways in which it can be done, the likeliest first; none where no row makes it go away, so that only its row can be opened. A brood's question is answered
 * by its event, by how the brood has gone, or by that nobody knows. `key` is that of the entry.
 */
export function doneWays(key: string, plan: Plan): readonly DoneWay[] {
  const doable = doableOf(key, plan);
  if (doable === undefined) return [];
  const { occurrence: { routine }, doer } = doable;
  if (doer.kind === 'order') return [{ way: 'sent', title: say('act.way.sent'), fields: sendingFields(plan), caution: undefined }];
  if (doer.kind === 'culture') {
    const isRenewal = routine.routine === 'renew-culture';
    return isRenewal ? [{ way: 'renewed', title: say('act.way.renewed'), fields: renewalFields(doer.culture, plan), caution: undefined }] : [];
  }
  const ways = routine.doneBy.flatMap((event) => wayOf(event, doable, plan) ?? []);
  if (doer.kind !== 'clutch' || !doer.subject.isQuestion(routine)) return ways;
  const likely = outcomesOf(doer.state).filter((outcome) => outcome !== 'unknown');
  const [outcome, ended] = goneFields(keyText(doer.row), plan) as [AskedField, AskedField];
  return [
    ...ways,
    { way: 'gone', title: say('act.way.gone'), fields: [{ ...outcome, choices: [...likely, ...outcome.choices.filter((other) => other !== 'unknown' && !likely.includes(other as never))] }, ended], caution: undefined },
    { way: 'not-known', title: say('act.way.not-known'), fields: [ended], caution: undefined },
  ];
}

/** The way where there is only one and nothing to ask but when it was, which is now: it needs no question. */
export function unaskedWay(ways: readonly DoneWay[]): DoneWay | undefined {
  const [only] = ways;
  return ways.length === 1 && only?.caution === undefined && only?.fields.every(({ name }) => name === 'time') === true ? only : undefined;
}

function wayOf(event: string, doable: Doable, plan: Plan): DoneWay | undefined {
  const { doer } = doable;
  const common = { way: event, title: say('action.routine', event), caution: cautionOf(event) };
  if (event === 'ended' && doer.kind === 'clutch') return { ...common, fields: goneFields(keyText(doer.row), plan) };
  if (event === 'spawned' && doer.kind === 'pair') {
    const spawner = spawners(plan).find(({ pair }) => pair === keyText(doer.row));
    return spawner === undefined ? undefined : { ...common, fields: spawnFields(spawner, plan) };
  }
  const row = rowFor(event, doable, plan);
  if (row === undefined) return undefined;
  const { due } = doable.occurrence;
  const [time, ...fields] = eventFields(row, plan) as [AskedField, ...AskedField[]];
  const choices = isFuture(due, plan.now) ? [time.likely] : [time.likely, momentText({ ...due, about: true }, plan)];
  return { ...common, fields: [{ ...time, choices }, ...fields] };
}

/** The log in which an event counts for the thing: a pair's are those of its broods since the last spawn. */
function rowFor(event: string, { doer, tank }: Doable, plan: Plan): EventRow | undefined {
  const id = doer.kind === 'pair' ? plan.view.pair(keyText(doer.row))?.lastSpawn?.clutch : keyText(doer.row);
  const kind = doer.kind === 'tank' ? 'tank' : 'clutch';
  if (id === undefined || needsOf(kind, event) === undefined) return undefined;
  return { thing: { kind, id }, event, tank: tank === '' ? undefined : tank };
}

/** "Done": writes the row that makes the entry with that key go away. `way` is one of those of {@link doneWays}. */
export function done(key: string, way: string, answers: Answers): Act {
  return (plan) => {
    const doable = doableOf(key, plan);
    if (doable === undefined) return refused(say('act.refused.not-due'));
    if (!doneWays(key, plan).some((some) => some.way === way)) return refused(say('act.refused.nothing-to-write'));
    const { occurrence, doer } = doable;
    const id = keyText(doer.row);
    if (way === 'sent') return sendOrder(id, answers)(plan);
    if (way === 'renewed') return renewCulture(id, answers)(plan);
    if (way === 'gone' || way === 'ended') return gone({ clutch: id, outcome: answers['outcome'] ?? '', ended: answers['ended'] })(plan);
    if (way === 'not-known') return gone({ clutch: id, outcome: 'unknown', ended: answers['ended'] })(plan);
    if (way === 'spawned') return spawned(id, answers)(plan);
    const when = timeOfAnswer(answers['time']?.trim(), plan);
    if ('fault' in when) return refused(when.fault);
    if (!isDoneAt(occurrence, when.time)) return refused(say('act.refused.too-early', formatDay(occurrence.due.day)));
    const draft = new Draft(plan.records);
    const outcome = draftEvent(draft, rowFor(way, doable, plan) as EventRow, { answers, plan });
    return 'fault' in outcome ? refused(outcome.fault) : drafted(draft, outcome.words, cautionOf(way));
  };
}

function spawned(pair: string, answers: Answers): Act {
  return (plan) => {
    const spawner = spawners(plan).find((some) => some.pair === pair);
    return spawner === undefined ? refused(say('act.refused.no-pair', pair)) : recordSpawn(spawner, answers)(plan);
  };
}
