import * as vscode from 'vscode';
import { linkTarget } from '../language/links';

/** What a cell of a sheet leads to; undefined where that is nothing, or a file outside of the open folders. */
export function targetOfCell(sheet: vscode.Uri, text: string): vscode.Uri | undefined {
  const target = linkTarget(text);
  if (target === undefined) return undefined;
  if (target.kind === 'address') return vscode.Uri.parse(target.address, true);
  const uri = vscode.Uri.joinPath(sheet, '..', target.path);
  return vscode.workspace.getWorkspaceFolder(uri) === undefined ? undefined : uri;
}
