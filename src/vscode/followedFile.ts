import type * as vscode from 'vscode';
import type { FileOfFishroom, Fishrooms } from './fishrooms';

/** Files that may be sheets, whatever language another extension takes them for; which of them are, `followedFile` says. */
export const SHEET_FILES: vscode.DocumentSelector = [{ pattern: '**/*.csv' }];

/** The file of a fishroom that a document shows, as long as the plan holds what stands in it: offsets of one are offsets of the other. */
export function followedFile(fishrooms: Fishrooms, document: vscode.TextDocument): FileOfFishroom | undefined {
  const file = fishrooms.fileAt(document.uri);
  return file?.room.follows(file.path, document) === true ? file : undefined;
}

/** The same as soon as its fishroom has been found and read; undefined too where it is asked for no more by then. */
export async function followedFileOnceRead(fishrooms: Fishrooms, document: vscode.TextDocument, token: vscode.CancellationToken): Promise<FileOfFishroom | undefined> {
  const file = followedFile(fishrooms, document);
  if (file !== undefined) return file;
  await fishrooms.activity.whenIdle();
  return token.isCancellationRequested ? undefined : followedFile(fishrooms, document);
}
