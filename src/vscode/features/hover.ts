import * as vscode from 'vscode';
import { hoverAt } from '../../language/hover';
import { rangeOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { markdownOf } from '../markdown';
import type { Targets } from '../markdown';
import type { OpenFishroom } from '../openFishroom';
import { followedFileOnceRead, SHEET_FILES } from '../followedFile';
import { targetOfCell } from '../targetOfCell';

/** Files that VS Code can show as a picture. */
const PICTURE = /\.(?:avif|bmp|gif|jpe?g|png|svg|webp)$/i;

/** What there is to tell about a column, a thing, a computed cell or a word under the pointer. */
export function hoverTexts(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.languages.registerHoverProvider(SHEET_FILES, {
    async provideHover(document, position, token) {
      // Who points at a cell in the first moments gets the answer a little later, not none: nothing asks again.
      const sheet = await followedFileOnceRead(fishrooms, document, token);
      const hover = sheet === undefined ? undefined : hoverAt(sheet.room.plan, sheet.path, document.offsetAt(position));
      if (sheet === undefined || hover === undefined) return undefined;
      // Neither trusted nor with HTML: nothing in a record may run a command.
      return new vscode.Hover(new vscode.MarkdownString(markdownOf(hover, targetsIn(sheet.room))), rangeOf(document, hover.span));
    },
  });
}

function targetsIn(room: OpenFishroom): Targets {
  return {
    hrefOf({ file, span }) {
      const { line, character } = room.placesIn(file).positionAt(span.start);
      return room.uriOf(file).with({ fragment: `L${line + 1},${character + 1}` }).toString();
    },
    photoOf(file, target) {
      const uri = targetOfCell(room.uriOf(file), target);
      if (uri === undefined) return undefined;
      // A picture from the net would be fetched by pointing at an id, which would tell its server so. It is a link: the keeper decides.
      return { href: uri.toString(), isShown: vscode.workspace.getWorkspaceFolder(uri) !== undefined && PICTURE.test(uri.path) };
    },
  };
}
