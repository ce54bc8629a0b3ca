import * as vscode from 'vscode';
import { say } from '../../base/messages';
import { editAsOneStep, fillEditor, mayBeRewritten } from '../fillEditor';
import type { Fishrooms } from '../fishrooms';
import { activeSheet, explainNothing } from '../keeper';

/** "Add the computed columns to this sheet": their headers, and then what belongs below them, as one step to undo. */
export function addColumnsCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.addColumns', async () => {
    const sheet = await activeSheet(fishrooms);
    if (sheet === undefined) return;
    const { room, path } = sheet;
    if (room.plan.missingColumns(path).length === 0) {
      explainNothing(room.plan.records.file(path)?.blocked === undefined ? say('editor.nothing.all-columns', path) : say('editor.nothing.blocked', path));
      return;
    }
    if (!(await mayBeRewritten(sheet))) return;
    const edits = room.plan.missingColumns(path);
    if (await editAsOneStep(sheet, { edits, joinsStepBefore: false, isGoingOn: true })) await fillEditor(sheet, { joinsStepBefore: true });
  });
}
