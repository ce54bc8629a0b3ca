import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import { workspaceEditOf } from '../convert';
import { editsIn } from '../fillEditor';
import type { Fishrooms } from '../fishrooms';
import { followedFile, SHEET_FILES } from '../followedFile';

const KIND = vscode.CodeActionKind.Source.append('fill').append('broodsheet');

/** Fill on save: the code action `source.fill.broodsheet` for the keeper's `editor.codeActionsOnSave`. Of the saved file alone, and only where nothing need be asked. */
export function fillOnSaveAction(fishrooms: Fishrooms): vscode.Disposable {
  const provider: vscode.CodeActionProvider = {
    provideCodeActions(document, _range, { only }) {
      if (only?.contains(KIND) !== true) return [];
      const file = followedFile(fishrooms, document);
      if (file === undefined) return [];
      const { room, path } = file;
      if (room.plan.records.file(path)?.mixedLineEnds === true) return [];
      const edits = editsIn(room.plan.fills(path).changes);
      if (edits.length === 0) return [];
      const action = new vscode.CodeAction(textOf(say('editor.fill-action')), KIND);
      action.edit = workspaceEditOf([{ file: path, edits }], room, () => undefined);
      return [action];
    },
  };
  return vscode.languages.registerCodeActionsProvider(SHEET_FILES, provider, { providedCodeActionKinds: [KIND] });
}
