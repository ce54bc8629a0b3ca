import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import { renameableAt, renaming } from '../../language/rename';
import { rangeOf, workspaceEditOf } from '../convert';
import type { FileOfFishroom, Fishrooms } from '../fishrooms';
import { reasonToAsk } from '../reasonToAsk';
import { followedFile, SHEET_FILES } from '../followedFile';

/** "Rename Symbol" of an id, in all sheets of its fishroom and in the names of its logs: one edit, to be looked at before if the keeper likes. */
export function renameIds(fishrooms: Fishrooms): vscode.Disposable {
  /** VS Code shows what an Error says. */
  const sheetOf = async (document: vscode.TextDocument, token: vscode.CancellationToken): Promise<FileOfFishroom | undefined> => {
    if (fishrooms.fileAt(document.uri) === undefined) throw refusal(say('rename.nothing'));
    // Other files may be on their way into the plan, and may name the thing.
    await fishrooms.activity.whenIdle();
    if (token.isCancellationRequested) return undefined;
    const sheet = followedFile(fishrooms, document);
    if (sheet === undefined) throw refusal(say('rename.nothing'));
    return sheet;
  };
  return vscode.languages.registerRenameProvider(SHEET_FILES, {
    async prepareRename(document, position, token) {
      const sheet = await sheetOf(document, token);
      if (sheet === undefined) return undefined;
      const found = renameableAt(sheet.room.plan, sheet.path, document.offsetAt(position));
      if (found.kind === 'refused') throw refusal(found.reason);
      return { range: rangeOf(document, found.span), placeholder: found.id };
    },
    async provideRenameEdits(document, position, to, token) {
      // A file that nobody told of yet would keep the old name.
      if (fishrooms.fileAt(document.uri) !== undefined) await fishrooms.findAgain();
      const sheet = await sheetOf(document, token);
      if (sheet === undefined) return undefined;
      const { room, path } = sheet;
      const found = renameableAt(room.plan, path, document.offsetAt(position));
      if (found.kind === 'refused') throw refusal(found.reason);
      const outcome = renaming(room.plan, found, { to, unread: room.unread() });
      if (outcome.kind === 'refused') throw refusal(outcome.reason);
      // Names of files come last, since the texts are told by the names that they have.
      const edit = workspaceEditOf(outcome.edits, room, (file) => reasonToAsk(room, file));
      for (const { file, to: other } of outcome.moves) edit.renameFile(room.uriOf(file), room.uriOf(other));
      return edit;
    },
  });
}

function refusal(reason: Message): Error {
  return new Error(textOf(reason));
}
