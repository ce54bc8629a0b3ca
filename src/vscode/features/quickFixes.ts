import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import type { TextEdit } from '../../base/textEdit';
import type { FileEdit, Fix, Problem } from '../../planner/problem';
import { endOfText, isDiagnosticOf, spanOf, workspaceEditOf } from '../convert';
import type { FileOfFishroom, Fishrooms } from '../fishrooms';
import { followedFile } from '../followedFile';
import type { OpenFishroom } from '../openFishroom';
import { reasonToAsk } from '../reasonToAsk';

const FIX_ALL = vscode.CodeActionKind.SourceFixAll.append('broodsheet');
const QUICK_FIX = vscode.CodeActionKind.QuickFix;

/** The fixes of a file's problems: each as a quick fix, and those that are safe together as `source.fixAll.broodsheet`. Worked out from the plan whenever they are asked for. */
export function quickFixActions(fishrooms: Fishrooms): vscode.Disposable {
  const provider: vscode.CodeActionProvider = {
    provideCodeActions(document, range, { only, diagnostics }) {
      const file = followedFile(fishrooms, document);
      if (file === undefined) return [];
      const problems = file.room.plan.problems(file.path);
      if (only?.contains(FIX_ALL) === true) return fixAll(file, problems);
      if (only !== undefined && !only.contains(QUICK_FIX)) return [];
      const { start, end } = spanOf(document, range);
      return problems
        .filter(({ span }) => span.start <= end && span.end >= start)
        .flatMap((problem) => {
          const shown = diagnostics.filter((diagnostic) => isDiagnosticOf(diagnostic, problem, document));
          return problem.fixes.map((fix) => quickFix(file, fix, { shown, isOnly: problem.fixes.length === 1 }));
        });
    },
  };
  const files = [{ pattern: '**/*.csv' }, { pattern: '**/fishroom.json' }];
  return vscode.languages.registerCodeActionsProvider(files, provider, { providedCodeActionKinds: [QUICK_FIX, FIX_ALL] });
}

function quickFix({ room, path }: FileOfFishroom, fix: Fix, { shown, isOnly }: { readonly shown: vscode.Diagnostic[]; readonly isOnly: boolean }): vscode.CodeAction {
  const action = new vscode.CodeAction(textOf(fix.title), QUICK_FIX);
  action.diagnostics = shown;
  action.isPreferred = isOnly && fix.safe;
  action.edit = workspaceEditOf(fix.edits, room, (other) => reasonToAsk(room, other));
  const elsewhere = fix.edits.find(({ file }) => file !== path);
  if (elsewhere !== undefined) action.command = showing(elsewhere, room);
  return action;
}

/** Shows what was written into another file, behind it: there it can be gone on with, saved, or taken back, and here nobody would see that it isn't saved yet. */
function showing(change: FileEdit, room: OpenFishroom): vscode.Command {
  const { start, text } = 'create' in change ? { start: 0, text: change.create } : (change.edits[0] ?? { start: 0, text: '' });
  const behind = endOfText(room.placesIn(change.file).positionAt(start), text.replace(/[\r\n]+$/, ''));
  const options: vscode.TextDocumentShowOptions = { selection: new vscode.Range(behind, behind), preview: false };
  return { command: 'vscode.open', title: textOf(say('editor.show-change', change.file)), arguments: [room.uriOf(change.file), options] };
}

function fixAll({ room, path }: FileOfFishroom, problems: readonly Problem[]): vscode.CodeAction[] {
  if (reasonToAsk(room, path) !== undefined) return [];
  const edits: TextEdit[] = [];
  for (const { fixes } of problems) {
    const fix = fixes.find(({ safe, edits: files }) => safe && files.every((file) => file.file === path && 'edits' in file));
    const own = fix?.edits.flatMap((file) => ('edits' in file ? file.edits : [])) ?? [];
    if (own.every((edit) => edits.every((other) => edit.end < other.start || edit.start > other.end))) edits.push(...own);
  }
  if (edits.length === 0) return [];
  const action = new vscode.CodeAction(textOf(say('editor.fix-all')), FIX_ALL);
  action.edit = workspaceEditOf([{ file: path, edits: edits.sort((a, b) => a.start - b.start) }], room, () => undefined);
  return [action];
}
