import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import { inlayHintsIn } from '../../language/inlayHints';
import type { HintLevel, InlayHint } from '../../language/inlayHints';
import { AskAgain } from '../askAgain';
import { spanOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFile, SHEET_FILES } from '../followedFile';

/** Shows within sheets what they have no column for, as far as the setting wants it. */
export function inlayHints(fishrooms: Fishrooms): vscode.Disposable {
  const again = new AskAgain(fishrooms);
  const provider: vscode.InlayHintsProvider = {
    onDidChangeInlayHints: again.onDidChange,
    provideInlayHints(document, range, token) {
      const file = token.isCancellationRequested ? undefined : followedFile(fishrooms, document);
      if (file === undefined) return [];
      const level = levelFor(document.uri);
      if (level === 'off') return [];
      const hints = inlayHintsIn(file.room.plan, file.path, { span: spanOf(document, range), level });
      return hints.map((hint) => shown(hint, document));
    },
  };
  return vscode.Disposable.from(
    again,
    vscode.languages.registerInlayHintsProvider(SHEET_FILES, provider),
    vscode.workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration('broodsheet.inlayHints')) again.trigger();
    }),
  );
}

function levelFor(uri: vscode.Uri): HintLevel | 'off' {
  const level = vscode.workspace.getConfiguration('broodsheet', uri).get<unknown>('inlayHints');
  return level === 'off' || level === 'all' ? level : 'some';
}

function shown({ offset, parts, cells }: InlayHint, document: vscode.TextDocument): vscode.InlayHint {
  const label = parts.map((part) => (typeof part === 'string' ? part : textOf(part))).join(' · ');
  const hint = new vscode.InlayHint(document.positionAt(offset), label);
  hint.paddingLeft = true;
  if (cells !== undefined) hint.tooltip = textOf(say('editor.hint.why', [...cells].map(([header, value]) => `${header}: ${value}`).join('\n')));
  return hint;
}
