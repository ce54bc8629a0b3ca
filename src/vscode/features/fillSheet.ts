import * as vscode from 'vscode';
import { fillEditor, mayBeRewritten } from '../fillEditor';
import type { Fishrooms } from '../fishrooms';
import { activeSheet } from '../keeper';

/** "Fill this sheet": the computed cells of the active editor, as one step to undo. */
export function fillSheetCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.fillSheet', async () => {
    const sheet = await activeSheet(fishrooms);
    if (sheet !== undefined && (await mayBeRewritten(sheet))) await fillEditor(sheet, { joinsStepBefore: false });
  });
}
