import * as vscode from 'vscode';
import { say, textOf } from '../base/messages';
import type { Fishrooms } from './fishrooms';
import { explainNothing, noFishroom } from './keeper';
import type { OpenFishroom } from './openFishroom';

/** The fishroom of the active editor, else the only one, else the one that the keeper chooses. Says so where there is none. */
export async function chooseFishroom(fishrooms: Fishrooms): Promise<OpenFishroom | undefined> {
  const rooms = fishrooms.all();
  const active = activeFishroom(fishrooms);
  if (active !== undefined) return active;
  if (rooms.length === 0) explainNothing(noFishroom());
  if (rooms.length < 2) return rooms[0];
  const items = rooms.map((room) => ({ label: room.name, description: whereIs(room.folder), room }));
  return (await vscode.window.showQuickPick(items, { placeHolder: textOf(say('editor.fill-fishroom.which-room')) }))?.room;
}

/** The fishroom in whose folder the active editor's file lies. */
export function activeFishroom(fishrooms: Fishrooms): OpenFishroom | undefined {
  const document = vscode.window.activeTextEditor?.document;
  return document === undefined ? undefined : fishrooms.roomOf(document.uri);
}

/** Of a folder of the workspace its name there: the path relative to itself would be none, and VS Code gives the whole one. */
function whereIs(folder: vscode.Uri): string {
  const ofWorkspace = vscode.workspace.getWorkspaceFolder(folder);
  return ofWorkspace?.uri.toString() === folder.toString() ? ofWorkspace.name : vscode.workspace.asRelativePath(folder);
}
