import * as vscode from 'vscode';

/** A file or folder of the open scratch folder, by its path in there: `room/clutches.csv`. */
export function uriOf(path: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (folder === undefined) throw new Error('no folder is open');
  return vscode.Uri.joinPath(folder.uri, path);
}

/** The text of a file on the disk, not of an open editor; nothing is left out or changed. */
export async function readText(path: string): Promise<string> {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(await vscode.workspace.fs.readFile(uriOf(path)));
}

/** Writes a file to the disk, with the folders above it. */
export async function writeText(path: string, text: string): Promise<void> {
  await vscode.workspace.fs.writeFile(uriOf(path), new TextEncoder().encode(text));
}

const PATIENCE = 120_000;

/**
 * Waits until the check gives something else than undefined or false, and gives that. Throws after two minutes, long enough for a slow machine, with `what` and what the check threw last.
 * @param what is awaited, for the message
 */
export async function eventually<Value>(what: string, check: () => Value | undefined | false | Thenable<Value | undefined | false>): Promise<Value> {
  const end = Date.now() + PATIENCE;
  for (;;) {
    const outcome = await attempt(check);
    if ('value' in outcome) return outcome.value;
    if (Date.now() > end) throw new Error(`waited ${PATIENCE / 1000} s in vain for ${what}`, { cause: outcome.error });
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

async function attempt<Value>(
  check: () => Value | undefined | false | Thenable<Value | undefined | false>,
): Promise<{ readonly value: Value } | { readonly error?: unknown }> {
  try {
    const value = await check();
    return value === undefined || value === false ? {} : { value };
  } catch (error) {
    return { error };
  }
}
