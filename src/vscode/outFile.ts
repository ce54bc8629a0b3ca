import * as vscode from 'vscode';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import { ask, explainNothing } from './keeper';
import type { OpenFishroom } from './openFishroom';
import { readStored } from './workspaceStore';

/** What is asked of the keeper before a file is written. */
export interface OutQuestion {
  readonly title: Message;
  readonly save: Message;
  /** What files of its kind are called. */
  readonly kind: Message;
  readonly ending: 'ics' | 'html';
  /** Without its ending. */
  readonly name: string;
}

/** Asks where a file of a fishroom is to be written; its own folder is offered. */
export async function askWhere(room: OpenFishroom, { title, save, kind, ending, name }: OutQuestion): Promise<vscode.Uri | undefined> {
  const plain = name.replaceAll(/[^\p{L}\p{N}_-]+/gu, '-').replaceAll(/^-+|-+$/g, '');
  return await vscode.window.showSaveDialog({
    defaultUri: room.uriOf(`${plain === '' ? 'fishroom' : plain}.${ending}`),
    filters: { [textOf(kind)]: [ending] },
    title: textOf(title),
    saveLabel: textOf(save),
  });
}

/** What stands in a file before it is written: '' where there is none. Undefined where it is another's and the keeper would rather keep it, or it can't be read. */
export async function textBefore(uri: vscode.Uri, isOurs: (text: string) => boolean): Promise<string | undefined> {
  let stored;
  try {
    stored = await readStored(uri);
  } catch (error) {
    explainNothing(failure(uri, error));
    return undefined;
  }
  if (stored === undefined || stored.text === '') return '';
  if (stored.badAt === undefined && isOurs(stored.text)) return stored.text;
  const answer = await ask(say('editor.out.foreign', nameOf(uri)), { detail: say('editor.out.foreign.detail'), answers: [say('editor.out.foreign.replace')] });
  return answer === undefined ? undefined : '';
}

/** Writes a file that reads otherwise so far. Tells the keeper, and gives false, where that fails. */
export async function writeOut(uri: vscode.Uri, { before, after }: { readonly before: string; readonly after: string }): Promise<boolean> {
  if (before === after) return true;
  try {
    await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(after));
    return true;
  } catch (error) {
    explainNothing(failure(uri, error));
    return false;
  }
}

export function nameOf({ path }: vscode.Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

function failure(uri: vscode.Uri, error: unknown): Message {
  return say('editor.out.failed', nameOf(uri), error instanceof Error ? error.message : String(error));
}
