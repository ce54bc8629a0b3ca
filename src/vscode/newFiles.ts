import * as vscode from 'vscode';
import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { isMissing } from './workspaceStore';

/** The first of the paths at which there is something in a folder, if only one that may not be looked at; undefined where all are free. */
export async function firstTaken(folder: vscode.Uri, paths: Iterable<string>): Promise<string | undefined> {
  for (const path of paths) if (await isThere(vscode.Uri.joinPath(folder, path))) return path;
  return undefined;
}

/** Writes files that are all new, with the folders above them; or none, and then says why. */
export async function writeNewFiles(folder: vscode.Uri, files: ReadonlyMap<string, string>): Promise<Message | undefined> {
  const taken = await firstTaken(folder, files.keys());
  if (taken !== undefined) return alreadyThere(taken, folder);
  const isNewFolder = !(await isThere(folder));
  const written: vscode.Uri[] = [];
  for (const [path, text] of files) {
    const uri = vscode.Uri.joinPath(folder, path);
    try {
      await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
      written.push(uri);
    } catch (error) {
      for (const done of isNewFolder ? [folder] : written) await remove(done);
      return say('editor.write.failed', path, error instanceof Error ? error.message : String(error));
    }
  }
  return undefined;
}

export function alreadyThere(path: string, folder: vscode.Uri): Message {
  return say('editor.write.there', path, vscode.workspace.asRelativePath(folder));
}

async function isThere(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch (error) {
    return !isMissing(error);
  }
}

/** As far as possible: that it couldn't be written is what the keeper is told. */
async function remove(uri: vscode.Uri): Promise<void> {
  try {
    await vscode.workspace.fs.delete(uri, { recursive: true, useTrash: false });
  } catch {
    // Nothing was there yet.
  }
}
