import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import { outlineOf } from '../../language/outline';
import { rangeOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFileOnceRead, SHEET_FILES } from '../followedFile';

/**
 * The outline of a sheet: its rows below one entry for the whole of it. That entry begins at the header, which so stays in view above the rows where VS Code
 * lets lines stick.
 */
export function outlines(fishrooms: Fishrooms): vscode.Disposable {
  const provider: vscode.DocumentSymbolProvider = {
    async provideDocumentSymbols(document, token) {
      const file = await followedFileOnceRead(fishrooms, document, token);
      const outline = file === undefined ? undefined : outlineOf(file.room.plan, file.path);
      if (file === undefined || outline === undefined) return [];
      const { header, rows, role, total, left } = outline;
      const kind = role === 'log' ? vscode.SymbolKind.Event : vscode.SymbolKind.Object;
      const whole = new vscode.Range(new vscode.Position(0, 0), document.lineAt(document.lineCount - 1).range.end);
      const count = left > 0 ? say('editor.outline.last', total - left, total) : total === 1 ? say('editor.outline.row') : say('editor.outline.rows', total);
      const sheet = new vscode.DocumentSymbol(textOf(count), '', vscode.SymbolKind.Array, whole, rangeOf(document, header));
      sheet.children = rows.map((row) => {
        const range = rangeOf(document, row.span);
        return new vscode.DocumentSymbol(row.name, row.detail, kind, range, range);
      });
      return [sheet];
    },
  };
  return vscode.languages.registerDocumentSymbolProvider(SHEET_FILES, provider);
}
