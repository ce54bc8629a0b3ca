import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import { linksIn } from '../../language/links';
import { rangeOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFile, SHEET_FILES } from '../followedFile';
import { targetOfCell } from '../targetOfCell';

/** Addresses, and files of the open folders, in the columns that hold them. */
export function linksInCells(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.languages.registerDocumentLinkProvider(SHEET_FILES, {
    provideDocumentLinks(document) {
      const sheet = followedFile(fishrooms, document);
      if (sheet === undefined) return undefined;
      return linksIn(sheet.room.plan, sheet.path).flatMap(({ span, text }) => {
        const target = targetOfCell(document.uri, text);
        if (target === undefined) return [];
        const link = new vscode.DocumentLink(rangeOf(document, span), target);
        link.tooltip = textOf(say('link.open', text));
        return [link];
      });
    },
  });
}
