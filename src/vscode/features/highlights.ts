import * as vscode from 'vscode';
import { idAt, namingsInFile } from '../../language/ids';
import { rangeOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFile, SHEET_FILES } from '../followedFile';

/** Marks everything in the sheet that names what the cursor is on; its own row as what is written, the others as what reads it. */
export function highlightsOfIds(fishrooms: Fishrooms): vscode.Disposable {
  const { Read, Write } = vscode.DocumentHighlightKind;
  return vscode.languages.registerDocumentHighlightProvider(SHEET_FILES, {
    provideDocumentHighlights(document, position) {
      const sheet = followedFile(fishrooms, document);
      const naming = sheet === undefined ? undefined : idAt(sheet.room.plan, sheet.path, document.offsetAt(position));
      const file = sheet?.room.plan.records.file(sheet.path);
      if (naming === undefined || file === undefined) return undefined;
      return [...namingsInFile(file, naming)]
        .filter(({ kind }) => kind !== 'log')
        .map(({ span, kind }) => new vscode.DocumentHighlight(rangeOf(document, span), kind === 'row' ? Write : Read));
    },
  });
}
