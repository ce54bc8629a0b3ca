import * as vscode from 'vscode';
import type { Act, Answers, AskedField } from '../acts/act';
import { likelyLine, typedAnswers } from '../acts/typedAnswers';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import type { Fishrooms } from './fishrooms';
import { askLine } from './askLine';
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
export async function pickOne<Answer>(step: Step, choices: readonly Choice<Answer>[] | Promise<readonly Choice<Answer>[]>, token?: vscode.CancellationToken): Promise<Answer | undefined> {
  return (await vscode.window.showQuickPick(choices, { ...shown(step), matchOnDescription: true, matchOnDetail: true }, token))?.answer;
}

/**
 * The same of things of all fishrooms, those of the active editor's first. It is on the screen at once, also while the
 * fishrooms are still being read: a hasty key must not go into the sheet behind it. Where there is none, the keeper is told why.
 */
export async function pickThing<Thing>(
  fishrooms: Fishrooms,
  { step, none, choicesIn }: { readonly step: Step; readonly none: Message; readonly choicesIn: (room: OpenFishroom) => readonly Choice<Thing>[] },
): Promise<InRoom<Thing> | undefined> {
  const nothing = new vscode.CancellationTokenSource();
  let found: readonly OpenFishroom[] = [];
  const find = async (): Promise<readonly Choice<InRoom<Thing>>[]> => {
    await fishrooms.findAgain();
    found = fishrooms.all();
    const choices = choicesOf(found, { active: activeFishroom(fishrooms), choicesIn });
    if (choices.length === 0) nothing.cancel();
    return choices;
  };
  try {
    const picked = await pickOne(step, find(), nothing.token);
    if (nothing.token.isCancellationRequested) explainNothing(found.length === 0 ? noFishroom() : none);
    return picked;
  } finally {
    nothing.dispose();
  }
}

function choicesOf<Thing>(
  rooms: readonly OpenFishroom[],
  { active, choicesIn }: { readonly active: OpenFishroom | undefined; readonly choicesIn: (room: OpenFishroom) => readonly Choice<Thing>[] },
): readonly Choice<InRoom<Thing>>[] {
  const inOrder = active === undefined ? rooms : [active, ...rooms.filter((room) => room !== active)];
  return inOrder.flatMap((room) =>
    choicesIn(room).map(({ answer, description, ...choice }) => ({
      ...choice,
      description: [description ?? '', rooms.length > 1 ? room.name : ''].filter((text) => text !== '').join(' · '),
      answer: { room, thing: answer },
    })),
  );
}

/** Asks for some fields in one step: a choice where there is a list for the only one, else a line with what is likely filled in. Each line is tried before it is taken. */
export async function askFields({ room, title, fields, act, caution }: { readonly room: OpenFishroom; readonly title: Message; readonly fields: readonly AskedField[]; readonly act: (answers: Answers) => Act; readonly caution?: Message | undefined }): Promise<Answers | undefined> {
  const [only] = fields;
  if (only === undefined) return {};
  if (fields.length === 1 && only.choices.length > 0) {
    const choices = [...new Set([only.likely, ...only.choices])].filter((choice) => choice !== '');
    const answer = await pickOne({ title, question: questionOf(only) }, choices.map((choice) => ({ label: choice, answer: choice })));
    return answer === undefined ? undefined : { [only.name]: answer };
  }
  const read = (text: string): ReturnType<typeof typedAnswers> => (fields.length === 1 ? { answers: { [only.name]: text.trim() } } : typedAnswers(text, fields));
  const asked = fields.length === 1 ? questionOf(only) : say('editor.act.fields', fields.map(({ header }) => header).join(' '));
  const question = caution === undefined ? asked : say('editor.act.told', textOf(asked), textOf(caution));
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

const questions = {
  count: 'editor.act.ask.count',
  length: 'editor.act.ask.length',
  tank: 'editor.act.ask.tank',
  to_tank: 'editor.act.ask.to-tank',
  unit_price: 'editor.act.ask.unit-price',
  change_pct: 'editor.act.ask.change-pct',
  note: 'editor.act.ask.note',
} as const;

/** Asks for a single field in words, beside the name of its column. */
function questionOf({ name, header }: AskedField): Message {
  return name in questions ? say(questions[name as keyof typeof questions], header) : say('editor.act.ask', header);
}

/** Asks for a line of text, with what is likely filled in. */
export async function typeText(step: Step, { value, faultOf: fault }: { readonly value: string; readonly faultOf: (text: string) => Message | undefined }): Promise<string | undefined> {
  const { title, placeHolder: prompt } = shown(step);
  return (await askLine({ title, prompt, value, faultOf: fault }))?.trim();
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
