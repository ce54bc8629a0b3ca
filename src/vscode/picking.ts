import * as vscode from 'vscode';
import type { Act, Answers, AskedField } from '../acts/act';
import { likelyLine, typedAnswers } from '../acts/typedAnswers';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import type { Fishrooms } from './fishrooms';
import { activeFishroom } from './chooseFishroom';
import { explainNothing, noFishroom } from './keeper';
import type { OpenFishroom } from './openFishroom';

/** A line to choose, and what it stands for. */
export interface Choice<Answer> extends vscode.QuickPickItem {
  readonly answer: Answer;
}

/** A step of a command: which command it is, and what is asked. */
export interface Step {
  readonly title: Message;
  readonly question: Message;
}

/** A thing of a fishroom. */
export interface InRoom<Thing> {
  readonly room: OpenFishroom;
  readonly thing: Thing;
}

/** Lets one be chosen; the first is taken by Enter alone. Typing looks into all that is shown. */
export async function pickOne<Answer>(step: Step, choices: readonly Choice<Answer>[]): Promise<Answer | undefined> {
  return (await vscode.window.showQuickPick(choices, { ...shown(step), matchOnDescription: true, matchOnDetail: true }))?.answer;
}

/** The same of things of all fishrooms, those of the active editor's first. Where there is none, the keeper is told why. */
export async function pickThing<Thing>(
  fishrooms: Fishrooms,
  { step, none, choicesIn }: { readonly step: Step; readonly none: Message; readonly choicesIn: (room: OpenFishroom) => readonly Choice<Thing>[] },
): Promise<InRoom<Thing> | undefined> {
  await fishrooms.findAgain();
  const rooms = fishrooms.all();
  const active = activeFishroom(fishrooms);
  const inOrder = active === undefined ? rooms : [active, ...rooms.filter((room) => room !== active)];
  const choices = inOrder.flatMap((room) =>
    choicesIn(room).map(({ answer, description, ...choice }): Choice<InRoom<Thing>> => ({
      ...choice,
      description: [description ?? '', rooms.length > 1 ? room.name : ''].filter((text) => text !== '').join(' · '),
      answer: { room, thing: answer },
    })),
  );
  if (choices.length > 0) return await pickOne(step, choices);
  explainNothing(rooms.length === 0 ? noFishroom() : none);
  return undefined;
}

/** Asks for some fields in one step: a choice where there is a list for the only one, else a line with what is likely filled in. Each line is tried before it is taken. */
export async function askFields({ room, title, fields, act, caution }: { readonly room: OpenFishroom; readonly title: Message; readonly fields: readonly AskedField[]; readonly act: (answers: Answers) => Act; readonly caution?: Message | undefined }): Promise<Answers | undefined> {
  const [only] = fields;
  if (only === undefined) return {};
  if (fields.length === 1 && only.choices.length > 0) {
    const choices = [...new Set([only.likely, ...only.choices])].filter((choice) => choice !== '');
    const answer = await pickOne({ title, question: say('editor.act.field', only.header, '') }, choices.map((choice) => ({ label: choice, answer: choice })));
    return answer === undefined ? undefined : { [only.name]: answer };
  }
  const read = (text: string): ReturnType<typeof typedAnswers> => (fields.length === 1 ? { answers: { [only.name]: text.trim() } } : typedAnswers(text, fields));
  const question = fields.length === 1 ? say('editor.act.field', only.header, caution === undefined ? '' : textOf(caution)) : say('editor.act.fields', fields.map(({ header }) => header).join(' '));
  const text = await typeText(
    { title, question },
    {
      value: fields.length === 1 ? only.likely : likelyLine(fields),
      faultOf: (typed) => {
        const typedIn = read(typed);
        return 'fault' in typedIn ? typedIn.fault : faultOf(act(typedIn.answers), room);
      },
    },
  );
  const answered = text === undefined ? undefined : read(text);
  return answered === undefined || 'fault' in answered ? undefined : answered.answers;
}

/** Asks for a line of text, with what is likely filled in. */
export async function typeText(step: Step, { value, faultOf: fault }: { readonly value: string; readonly faultOf: (text: string) => Message | undefined }): Promise<string | undefined> {
  const { title, placeHolder: prompt, ignoreFocusOut } = shown(step);
  const validateInput = (text: string): string | undefined => {
    const found = fault(text);
    return found === undefined ? undefined : textOf(found);
  };
  return (await vscode.window.showInputBox({ title, prompt, ignoreFocusOut, value, validateInput }))?.trim();
}

/** Why an act would be refused as things stand. */
export function faultOf(act: Act, room: OpenFishroom): Message | undefined {
  const result = act(room.plan);
  return result.kind === 'refused' ? result.why : undefined;
}

/** So that answers aren't lost to a click, or an elbow, beside the box. */
function shown({ title, question }: Step): { readonly title: string; readonly placeHolder: string; readonly ignoreFocusOut: true } {
  return { title: textOf(title), placeHolder: textOf(question), ignoreFocusOut: true };
}
