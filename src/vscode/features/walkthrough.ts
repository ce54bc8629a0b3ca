import * as vscode from 'vscode';
import type { Fishrooms } from '../fishrooms';

/** Tells VS Code what the walkthrough in package.json can't see by itself: whether a brood is written down. */
export function walkthroughSteps(fishrooms: Fishrooms): vscode.Disposable {
  let told: boolean | undefined;
  return fishrooms.onDidChange(() => {
    const hasClutch = fishrooms.all().some(({ plan }) => plan.records.index('clutches').size > 0);
    if (hasClutch === told) return;
    told = hasClutch;
    void vscode.commands.executeCommand('setContext', 'broodsheet.hasClutch', hasClutch);
  });
}
