import type * as vscode from 'vscode';
import type { FileOfFishroom, Fishrooms } from './fishrooms';

/** The sheet that a document is, as soon as its fishroom has been found and read; undefined where it is none, or is being changed in ways that must be read first. */
export async function followedFile(fishrooms: Fishrooms, document: vscode.TextDocument, token: vscode.CancellationToken): Promise<FileOfFishroom | undefined> {
  const find = (): FileOfFishroom | undefined => {
    const file = fishrooms.fileAt(document.uri);
    return file?.room.follows(file.path, document) === true ? file : undefined;
  };
  const file = find();
  if (file !== undefined) return file;
  await fishrooms.activity.whenIdle();
  return token.isCancellationRequested ? undefined : find();
}
