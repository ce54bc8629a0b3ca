import * as vscode from 'vscode';
import { textOf } from '../../base/messages';
import { codeLensesOf } from '../../language/codeLenses';
import type { CodeLens } from '../../language/codeLenses';
import { AskAgain } from '../askAgain';
import { rangeOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFile, SHEET_FILES } from '../followedFile';
import type { OpenFishroom } from '../openFishroom';

/** Shows above the header of a log how its thing is and what is to be done, above that of a register how much is overdue. */
export function codeLenses(fishrooms: Fishrooms): vscode.Disposable {
  const again = new AskAgain(fishrooms);
  const provider: vscode.CodeLensProvider = {
    onDidChangeCodeLenses: again.onDidChange,
    provideCodeLenses(document, token) {
      const file = token.isCancellationRequested ? undefined : followedFile(fishrooms, document);
      if (file === undefined) return [];
      const header = document.lineAt(0).range;
      return codeLensesOf(file.room.plan, file.path).map((lens) => new vscode.CodeLens(header, commandOf(lens, file.room)));
    },
  };
  return vscode.Disposable.from(again, vscode.languages.registerCodeLensProvider(SHEET_FILES, provider));
}

/** Opens the place; a line that only tells has no command. */
function commandOf({ title, place }: CodeLens, room: OpenFishroom): vscode.Command {
  if (place === undefined) return { title: textOf(title), command: '' };
  const options: vscode.TextDocumentShowOptions = { selection: rangeOf(room.placesIn(place.file), place.span) };
  return { title: textOf(title), command: 'vscode.open', arguments: [room.uriOf(place.file), options] };
}
