import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { formatMoment, isFuture, wholeMinute } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Draft } from '../planner/draft';
import type { Plan } from '../planner/plan';
import type { FileEdit } from '../planner/problem';
import { casterOf, CastFailure } from '../schema/cast';
import { schemaNamed } from '../schema/catalog';
import type { SheetName } from '../schema/descriptor';
import type { Value } from '../schema/value';

/** What an act comes to: edits of all files that belong together, with what was written for the keeper to see, or why nothing is written. */
export type ActResult =
  | { readonly kind: 'edits'; readonly edits: readonly FileEdit[]; readonly told: Message; readonly caution?: Message }
  | { readonly kind: 'refused'; readonly why: Message };

/** Something that a keeper does, worked out from the records as they are when it is done. */
export type Act = (plan: Plan) => ActResult;

/** What a keeper answered, as it is to stand in the cell, by the name of what was asked. What is not among them is as it is likely. */
export type Answers = Readonly<Partial<Record<string, string>>>;

/** Something that is asked in place. */
export interface AskedField {
  /** Under this it is answered. */
  readonly name: string;
  /** The column in which the answer will stand. */
  readonly header: string;
  /** Without it nothing can be written. */
  readonly isNeeded: boolean;
  /** '' where no answer is likelier than others. */
  readonly likely: string;
  /** What there is to choose from; empty where it is typed. */
  readonly choices: readonly string[];
}

export function refused(why: Message): ActResult {
  return { kind: 'refused', why };
}

/** The draft's edits, told with the words that were written, or with how many things it is about. */
export function drafted(draft: Draft, what: readonly (string | undefined)[] | number, caution?: Message): ActResult {
  const edits = draft.edits();
  const files = edits.map(({ file }) => file).join(', ');
  const columns = draft.newColumns().join(', ');
  const code = typeof what === 'number' ? 'act.told.day-sheet' : 'act.told';
  const text = typeof what === 'number' ? what : what.filter((word) => word !== undefined && word !== '').join(', ').replace(/(\d)T(\d)/g, '$1 $2');
  const told = columns === '' ? say(code, text, files) : say(`${code}.columns`, text, files, columns);
  return { kind: 'edits', edits, told, ...(caution === undefined ? {} : { caution }) };
}

/** The value of an answer, undefined for an empty one, or what is wrong with it. */
export function valueOfAnswer(sheet: SheetName, header: string, text: string, plan: Plan): { readonly value: Value } | { readonly fault: Message } {
  const field = schemaNamed(sheet).fieldNamed.get(header);
  if (field === undefined) throw new Error(`the sheet ${sheet} has no field ${header}`);
  const value = casterOf(field)(text, plan.records.zone);
  return value instanceof CastFailure ? { fault: value.message } : { value };
}

/** The moment that an answer names, now where there is none; no moment that is still to come. */
export function timeOfAnswer(text: string | undefined, plan: Plan): { readonly time: Moment; readonly text: string } | { readonly fault: Message } {
  if (text === undefined || text === '') {
    const time = wholeMinute(plan.now, plan.records.zone);
    return { time, text: nowText(plan) };
  }
  const answer = valueOfAnswer('log', 'time', text, plan);
  if ('fault' in answer) return answer;
  const time = answer.value as Moment;
  return isFuture(time, plan.now) ? { fault: say('act.refused.future', text) } : { time, text };
}

/** Now as it is written. */
export function nowText(plan: Plan): string {
  return momentText(plan.now, plan);
}

/** A moment as it is written, never later than it. */
export function momentText(moment: Moment, { records: { zone } }: Plan): string {
  return formatMoment(wholeMinute(moment, zone), zone);
}
