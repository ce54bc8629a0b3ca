import * as vscode from 'vscode';
import { idAt, namingsOf } from '../../language/ids';
import { locationOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFile, SHEET_FILES } from '../followedFile';

/** "Go to References" of an id: every cell that names it, its own log as a whole, and where that is asked for its row too. */
export function referencesToIds(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.languages.registerReferenceProvider(SHEET_FILES, {
    async provideReferences(document, position, { includeDeclaration }, token) {
      if (fishrooms.fileAt(document.uri) === undefined) return undefined;
      // Other files may be on their way into the plan.
      await fishrooms.activity.whenIdle();
      const sheet = token.isCancellationRequested ? undefined : followedFile(fishrooms, document);
      if (sheet === undefined) return undefined;
      const { room, path } = sheet;
      const naming = idAt(room.plan, path, document.offsetAt(position));
      if (naming === undefined) return undefined;
      const found = [...namingsOf(room.plan, naming)].filter(({ kind }) => includeDeclaration || kind !== 'row');
      return found.map((place) => locationOf(place, room));
    },
  });
}
