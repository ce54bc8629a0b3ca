import * as vscode from 'vscode';
import { FIRST_SHEET, newFishroom } from '../../acts/newFishroom';
import { say } from '../../base/messages';
import { askForFishroom } from '../askForFishroom';
import type { NewFishroom } from '../askForFishroom';
import { openFolderAt } from '../showLater';
import type { Fishrooms } from '../fishrooms';
import { explainNothing, tell } from '../keeper';
import { writeNewFiles } from '../newFiles';

/** "New fishroom": asks what has to be known, writes the sheets, and opens the register of clutches. Who calls it with the answers isn't asked. */
export function newFishroomCommand(fishrooms: Fishrooms, memory: vscode.Memento): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.newFishroom', async (known?: NewFishroom) => {
    const asked = known ?? (await askForFishroom());
    if (asked === undefined) return;
    const { folder, answers } = asked;
    const files = newFishroom(answers, Date.now());
    const refusal = await writeNewFiles(folder, files);
    if (refusal !== undefined) {
      explainNothing(refusal);
      return;
    }
    const first = vscode.Uri.joinPath(folder, FIRST_SHEET);
    if (vscode.workspace.getWorkspaceFolder(first) === undefined) {
      await openFolderAt(folder, first, memory);
      return;
    }
    await fishrooms.findAgain();
    await vscode.window.showTextDocument(first, { preview: false, selection: new vscode.Range(1, 0, 1, 0) });
    tell(say('editor.new-fishroom.begun', answers.name, files.size));
  });
}
