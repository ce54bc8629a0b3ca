import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { Moment } from '../base/moment';
import { compareMoments } from '../base/moment';
import { countHeads } from '../domain/headcount';
import type { Stand } from '../domain/headcount';
import type { Count } from '../domain/things';
import type { Draft } from '../planner/draft';
import { needsOf } from '../planner/eventNeeds';
import type { EventColumn } from '../planner/eventNeeds';
import { logHeadersOf, logPlaceOf } from '../planner/logRow';
import type { Logged } from '../planner/logRow';
import type { Plan } from '../planner/plan';
import type { ClutchState } from '../planner/states';
import { nowText, timeOfAnswer, valueOfAnswer } from './act';
import type { Answers, AskedField } from './act';
import { likelyAnswer } from './likelyAnswer';

/** A row that a log is to have: whose, what happened, and the tank where it was, as far as it is known. */
export interface EventRow {
  readonly thing: Logged;
  readonly event: string;
  readonly tank?: string | undefined;
  /** Of a sale the order, '' for none; undefined while that isn't answered. */
  readonly ref?: string | undefined;
}

/** Events that change the head count of a tank: without one they count for nothing where a brood stands in several. */
const inOneTank: ReadonlySet<string> = new Set(['counted', 'lost', 'culled', 'sold', 'kept', 'moved', 'stripped']);
/** Those that take fish from a tank. */
const takes: ReadonlySet<string> = new Set(['lost', 'culled', 'sold', 'kept', 'moved']);

const caution: ReadonlySet<string> = new Set(['treated']);

/** What to bear in mind about an event in which work can hurt. */
export function cautionOf(event: string): Message | undefined {
  return caution.has(event) ? say('act.caution.treated') : undefined;
}

/** What is asked for a row, the moment first, each with its likely answer; nothing for an event that the log doesn't know. */
export function eventFields(row: EventRow, plan: Plan): readonly AskedField[] {
  const { thing, event } = row;
  const needs = needsOf(thing.kind, event);
  if (needs === undefined) return [];
  const { records } = plan;
  const headers = logHeadersOf(thing, records);
  const field = (name: EventColumn | 'tank', isNeeded: boolean): AskedField => ({ name, header: headerFor(name, headers), isNeeded, ...likelyAnswer(name, row, plan) });
  const time: AskedField = { name: 'time', header: 'time', isNeeded: true, likely: nowText(plan), choices: [] };
  const fields = [time];
  const stands = thing.kind === 'clutch' ? plan.view.clutch(thing.id)?.study.heads.stands : undefined;
  if (stands !== undefined && stands.size > 1) fields.push(field('tank', inOneTank.has(event)));
  for (const name of needs.needs) fields.push(field(name, true));
  // A sale is asked its order wherever there is one; other columns that a keeper doesn't have aren't asked for.
  for (const name of needs.may) {
    const asked = field(name, false);
    if (headers.includes(asked.header) || (name === 'ref' && asked.choices.length > 0)) fields.push(asked);
  }
  return fields;
}

/** The column in the keeper's unit. */
function headerFor(name: EventColumn | 'tank', headers: readonly string[]): string {
  if (name === 'length') return !headers.includes('length_mm') && headers.includes('length_in') ? 'length_in' : 'length_mm';
  if (name === 'temp') return !headers.includes('temp_c') && headers.includes('temp_f') ? 'temp_f' : 'temp_c';
  return name;
}

/** What was written, for the keeper to see. */
export type RowOutcome = { readonly words: readonly string[]; readonly time: Moment } | { readonly fault: Message };

/** Writes the row as a careful person would, from the answers and, where there are none, from what is likely. */
export function draftEvent(draft: Draft, row: EventRow, { answers, plan }: { readonly answers: Answers; readonly plan: Plan }): RowOutcome {
  const { thing, event } = row;
  const needs = needsOf(thing.kind, event);
  if (needs === undefined) return { fault: say('act.refused.nothing-to-write') };
  const when = timeOfAnswer(answers['time']?.trim(), plan);
  if ('fault' in when) return when;
  const cells: Record<string, string> = { time: when.text, event };
  const given = new Map<string, unknown>();
  // What is likely of the count and the price hangs on the tank and the order.
  const asked: EventRow = { ...row, tank: answers['tank'] ?? row.tank, ref: answers['ref'] ?? row.ref };
  for (const { name, header, isNeeded, likely } of eventFields(asked, plan)) {
    if (name === 'time') continue;
    const text = (answers[name] ?? likely).trim();
    if (text === '' && isNeeded) return { fault: say('act.refused.needed', header) };
    const answer = valueOfAnswer(thing.kind === 'clutch' ? 'log' : 'readings', header, text, plan);
    if ('fault' in answer) return answer;
    given.set(name, answer.value);
    if (text !== '') cells[header] = text;
  }
  // What was answered is written or refused, never left out.
  for (const [name, text] of Object.entries(answers)) {
    if (name === 'time' || given.has(name) || text === undefined || text.trim() === '') continue;
    const answer = valueOfAnswer(thing.kind === 'clutch' ? 'log' : 'readings', headerFor(name as EventColumn, logHeadersOf(thing, plan.records)), text.trim(), plan);
    if ('fault' in answer) return answer;
    cells[headerFor(name as EventColumn, logHeadersOf(thing, plan.records))] = text.trim();
    given.set(name, answer.value);
  }
  const fault = thing.kind === 'clutch' ? clutchFault(row, { time: when.time, given }, plan) : undefined;
  if (fault !== undefined) return { fault };
  const refused = draft.log(logPlaceOf(thing, plan.records), cells);
  if (refused !== undefined) return { fault: refused };
  const { time, ...others } = cells;
  return { words: [thing.id, event, time as string, ...Object.keys(others).flatMap((header) => (header === 'event' ? [] : `${header} ${others[header] ?? ''}`))], time: when.time };
}

/** What can't be right of a row about a brood: fish that aren't there, and things that no register has. */
function clutchFault({ thing, event }: EventRow, { time, given }: { readonly time: Moment; readonly given: ReadonlyMap<string, unknown> }, plan: Plan): Message | undefined {
  const state = plan.view.clutch(thing.id);
  if (state === undefined) return say('act.refused.no-clutch', thing.id);
  for (const tank of [given.get('tank'), given.get('to_tank')]) if (isUnknown('tanks', tank, plan)) return say('act.refused.no-tank', tank as string);
  if (event === 'sold' && isUnknown('orders', given.get('ref'), plan)) return say('act.refused.order', given.get('ref') as string);
  if (event === 'joined' && isUnknown('clutches', given.get('ref'), plan)) return say('act.refused.no-clutch', given.get('ref') as string);
  if (!takes.has(event)) return undefined;
  const stands = standsAt(state, time);
  const tank = (given.get('tank') as string | undefined) ?? (stands.size === 1 ? [...stands.keys()][0] : undefined);
  const stand = tank === undefined ? undefined : stands.get(tank);
  if (tank === undefined || stand === undefined) return say('act.refused.not-in-tank', thing.id, tank ?? '');
  const count = given.get('count') as Count | undefined;
  if (count !== undefined && stand.count !== undefined && !stand.estimate && count.value > stand.count) return say('act.refused.too-many', count.value, thing.id, stand.count);
  return undefined;
}

/** Where the brood stood at a moment. */
function standsAt({ clutch, study }: ClutchState, time: Moment): ReadonlyMap<string, Stand> {
  return countHeads(clutch.tank, study.entries.filter((entry) => compareMoments(entry.time, time) <= 0)).stands;
}

/** References into a sheet that isn't there are not checked. */
function isUnknown(sheet: 'tanks' | 'orders' | 'clutches', id: unknown, { records }: Plan): boolean {
  return typeof id === 'string' && records.targets.index(sheet)?.has(id) === false;
}
