import * as vscode from 'vscode';

/** Of a file that was written just now a second change could go unseen: FAT tells times to two seconds, others to a tick of the system's clock. */
const COARSE_TIME = 2_000;
const FINE_TIME = 100;

/** What tells without reading it whether a stored file is as it was; undefined where it can't be told. */
export type Stamp = string | undefined;

/** The stamp of what is stored there by now. Never throws. */
export async function stampOf(uri: vscode.Uri): Promise<Stamp> {
  try {
    const { mtime, size } = await vscode.workspace.fs.stat(uri);
    const tick = mtime % 1_000 === 0 ? COARSE_TIME : FINE_TIME;
    return Math.abs(Date.now() - mtime) < tick ? undefined : `${mtime} ${size}`;
  } catch {
    return undefined;
  }
}
