import * as vscode from 'vscode';
import { idAt, keyPlace } from '../../language/ids';
import { locationOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFile, SHEET_FILES } from '../followedFile';

/** "Go to Definition" of an id: the row that it is the name of. */
export function definitionsOfIds(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.languages.registerDefinitionProvider(SHEET_FILES, {
    provideDefinition(document, position) {
      const sheet = followedFile(fishrooms, document);
      if (sheet === undefined) return undefined;
      const { plan } = sheet.room;
      const naming = idAt(plan, sheet.path, document.offsetAt(position));
      const place = naming === undefined ? undefined : keyPlace(plan, naming);
      return place === undefined ? undefined : locationOf(place, sheet.room);
    },
  });
}
