import * as vscode from 'vscode';
import { COLOURS, colouredSpans } from '../../language/colours';
import { onColoursChange, wantsColours } from '../colourSetting';
import { rangeOf, spanOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFileOnceRead, SHEET_FILES } from '../followedFile';

/** The token types of package.json: one for each colour, then that of computed columns. */
const types = [...Array.from({ length: COLOURS }, (_, colour) => `broodsheetColumn${colour + 1}`), 'broodsheetComputed'];
const COMPUTED = types.length - 1;

/** Colours the columns of sheets that are in view, in the theme's own colours, as long as the setting says so. */
export function columnColours(fishrooms: Fishrooms): vscode.Disposable {
  const legend = new vscode.SemanticTokensLegend(types);
  const provider: vscode.DocumentRangeSemanticTokensProvider = {
    async provideDocumentRangeSemanticTokens(document, range, token) {
      const file = await followedFileOnceRead(fishrooms, document, token);
      if (file === undefined) return undefined;
      const tokens = new vscode.SemanticTokensBuilder(legend);
      for (const { span, colour } of colouredSpans(file.room.plan, file.path, spanOf(document, range))) {
        const { start, end } = rangeOf(document, span);
        tokens.push(start.line, start.character, end.character - start.character, colour === 'computed' ? COMPUTED : colour);
      }
      return tokens.build();
    },
  };
  let registration: vscode.Disposable | undefined;
  const register = (): void => {
    registration?.dispose();
    registration = wantsColours() ? vscode.languages.registerDocumentRangeSemanticTokensProvider(SHEET_FILES, provider, legend) : undefined;
  };
  register();
  return vscode.Disposable.from(
    new vscode.Disposable(() => {
      registration?.dispose();
    }),
    onColoursChange(register),
  );
}
