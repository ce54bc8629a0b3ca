import * as vscode from 'vscode';

/** Under which name what is to be shown is kept while a window opens another folder. */
const KEY = 'showFirst';

/** Opens a folder as the workspace and then a file of it. */
export async function openFolderAt(folder: vscode.Uri, file: vscode.Uri, memory: vscode.Memento): Promise<void> {
  await memory.update(KEY, file.toString());
  await vscode.commands.executeCommand('vscode.openFolder', folder);
}

/** Shows the file for which the folder of this window was opened, if there is one; once. */
export async function showWhatWasOpened(memory: vscode.Memento): Promise<void> {
  const kept = memory.get<unknown>(KEY);
  if (typeof kept !== 'string') return;
  const file = vscode.Uri.parse(kept, true);
  if (vscode.workspace.getWorkspaceFolder(file) === undefined) return;
  await memory.update(KEY, undefined);
  await vscode.window.showTextDocument(file, { preview: false });
}
