import type * as vscode from 'vscode';
import type { FileOfFishroom, Fishrooms } from './fishrooms';

/** Files that may be sheets, whatever language another extension takes them for; which of them are, `followedSheet` says. */
export const SHEET_FILES: vscode.DocumentSelector = [{ pattern: '**/*.csv' }];

/** The sheet of a fishroom that a document shows, as long as the plan holds what stands in it: offsets of one are offsets of the other. */
export function followedSheet(fishrooms: Fishrooms, document: vscode.TextDocument): FileOfFishroom | undefined {
  const file = fishrooms.fileAt(document.uri);
  return file?.room.follows(file.path, document) === true ? file : undefined;
}
