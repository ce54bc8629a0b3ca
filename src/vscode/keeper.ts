import * as vscode from 'vscode';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import { schemaNamed } from '../schema/catalog';
import type { FileOfFishroom, Fishrooms } from './fishrooms';

/** Says something that a command was asked for came to, where it doesn't get in the way. */
export function tell(message: Message): void {
  vscode.window.setStatusBarMessage(textOf(message), 8_000);
}

/** Says why a command did nothing. */
export function explainNothing(message: Message): void {
  void vscode.window.showInformationMessage(textOf(message));
}

/** Asks before something is done; resolves to the chosen answer, or to undefined when the keeper would rather not. */
export async function ask<Answer extends Message>(question: Message, { detail, answers }: { readonly detail: Message; readonly answers: readonly Answer[] }): Promise<Answer | undefined> {
  const items = answers.map((answer) => ({ title: textOf(answer), answer }));
  return (await vscode.window.showWarningMessage(textOf(question), { modal: true, detail: textOf(detail) }, ...items))?.answer;
}

/** What a fishroom is and how to start one. */
export function noFishroom(): Message {
  const { fields, oneOf } = schemaNamed('clutches');
  // Of those of which a row needs one, the last is the one that needs no other sheet.
  const also = new Set(oneOf.map((names) => names.at(-1)));
  const columns = fields.flatMap(({ name, constraints }) => (constraints.required === true || also.has(name) ? [name] : []));
  return say('editor.no-fishroom', columns.join(','));
}

/** The sheet of the active text editor. Where there is none the keeper is told why, in plain words. */
export async function activeSheet(fishrooms: Fishrooms): Promise<(FileOfFishroom & { readonly editor: vscode.TextEditor }) | undefined> {
  await fishrooms.activity.whenIdle();
  const editor = vscode.window.activeTextEditor;
  const find = (): FileOfFishroom | undefined => (editor === undefined ? undefined : fishrooms.fileAt(editor.document.uri));
  if (find() === undefined) await fishrooms.findAgain();
  const file = find();
  if (editor !== undefined && file !== undefined && file.path !== 'fishroom.json') return { ...file, editor };
  if (fishrooms.all().length === 0) explainNothing(noFishroom());
  else explainNothing(say('editor.no-sheet'));
  return undefined;
}
