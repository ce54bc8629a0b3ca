import * as vscode from 'vscode';
import { colouredSpans } from '../../language/colours';
import { onColoursChange, wantsColours } from '../colourSetting';
import { rangeOf, spanOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFile } from '../followedFile';
import { JoinedTask } from '../joinedTask';

/** Shorter than what an eye sees as late; scrolling tells far more often. */
const JOIN_SCROLLS = 40;
/** Of the theme's ink. Its text stays well above a contrast of 4.5 in the themes that come with VS Code. */
const INK = '0.72';

/** Shows computed columns that are in view in a quieter ink. There is no colour for it that is quiet in every theme, so it is the theme's own ink, thinned. */
export function quietColumns(fishrooms: Fishrooms): vscode.Disposable {
  const quiet = vscode.window.createTextEditorDecorationType({ opacity: INK });
  const draw = new JoinedTask(fishrooms.activity, {
    delay: JOIN_SCROLLS,
    work: () => {
      for (const editor of vscode.window.visibleTextEditors) editor.setDecorations(quiet, wantsColours() ? computedIn(editor, fishrooms) : []);
    },
  });
  const trigger = (): void => draw.trigger();
  trigger();
  return vscode.Disposable.from(
    quiet,
    draw,
    fishrooms.onDidChange(trigger),
    fishrooms.onDidRemove(trigger),
    vscode.window.onDidChangeVisibleTextEditors(trigger),
    vscode.window.onDidChangeTextEditorVisibleRanges(trigger),
    onColoursChange(trigger),
  );
}

function computedIn({ document, visibleRanges }: vscode.TextEditor, fishrooms: Fishrooms): vscode.Range[] {
  const file = followedFile(fishrooms, document);
  if (file === undefined) return [];
  const { room, path } = file;
  return visibleRanges.flatMap((range) => colouredSpans(room.plan, path, spanOf(document, range)).flatMap(({ span, colour }) => (colour === 'computed' ? rangeOf(document, span) : [])));
}
