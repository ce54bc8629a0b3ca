import * as vscode from 'vscode';

/** Whether columns are to be coloured. */
export function wantsColours(): boolean {
  return vscode.workspace.getConfiguration('broodsheet').get<boolean>('colourColumns') !== false;
}

/** Tells when that may be otherwise. */
export function onColoursChange(tell: () => void): vscode.Disposable {
  return vscode.workspace.onDidChangeConfiguration((event) => {
    if (event.affectsConfiguration('broodsheet.colourColumns')) tell();
  });
}
