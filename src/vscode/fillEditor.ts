import type * as vscode from 'vscode';
import { say } from '../base/messages';
import type { TextEdit } from '../base/textEdit';
import type { CellChange, HandKept } from '../planner/cellChange';
import { rangeOf } from './convert';
import type { FileOfFishroom } from './fishrooms';
import { ask, explainNothing, tell } from './keeper';

/** A sheet in a text editor. */
export interface SheetInEditor extends FileOfFishroom {
  readonly editor: vscode.TextEditor;
}

/** Fills the computed cells of a sheet as one step to undo, or as the rest of the step before. Asks before it overwrites what was kept by hand. */
export async function fillEditor(sheet: SheetInEditor, { joinsStepBefore }: { readonly joinsStepBefore: boolean }): Promise<void> {
  const { room, path } = sheet;
  const overwrite = await asksToOverwrite(room.plan.fills(path).handKept);
  if (overwrite === undefined) return;
  const { changes } = room.plan.fills(path, { overwrite });
  if (changes.length === 0) {
    explainNothing(whyNothing(sheet));
    return;
  }
  if (await editAsOneStep(sheet, { edits: editsIn(changes), joinsStepBefore })) tell(changes.length === 1 ? say('editor.filled.one', path) : say('editor.filled', changes.length, path));
}

/** Applies edits in an editor that shows what the plan holds. Tells the keeper when they came too late. */
export async function editAsOneStep(
  { editor, room, path }: SheetInEditor,
  { edits, joinsStepBefore, isGoingOn = false }: { readonly edits: readonly TextEdit[]; readonly joinsStepBefore: boolean; readonly isGoingOn?: boolean },
): Promise<boolean> {
  const { document } = editor;
  const isDone =
    room.follows(path, document) &&
    (await editor.edit(
      (builder) => {
        for (const edit of edits) builder.replace(rangeOf(document, edit), edit.text);
      },
      { undoStopBefore: !joinsStepBefore, undoStopAfter: !isGoingOn },
    ));
  if (!isDone) explainNothing(say('editor.changed-meanwhile', path));
  return isDone;
}

/** Whether the keeper lets a file be changed that saving rewrites in other places too. */
export async function mayBeRewritten({ room, path }: FileOfFishroom): Promise<boolean> {
  const file = room.plan.records.file(path);
  if (file?.mixedLineEnds !== true) return true;
  const goOn = say('editor.ask.rewrite.yes');
  return (await ask(say('editor.ask.rewrite', path), { detail: say('editor.ask.rewrite.detail'), answers: [goOn] })) === goOn;
}

/** The edits of cells as edits of one text. */
export function editsIn(changes: readonly CellChange[]): readonly TextEdit[] {
  return changes.flatMap(({ edits }) => edits).sort((a, b) => a.start - b.start);
}

/** Undefined: the keeper would rather not fill at all. */
async function asksToOverwrite(handKept: readonly HandKept[]): Promise<boolean | undefined> {
  if (handKept.length === 0) return false;
  const [replace, leave] = [say('editor.ask.hand-kept.replace'), say('editor.ask.hand-kept.leave')];
  const columns = handKept.map(({ header, rows }) => `${header} (${rows})`).join(', ');
  const answer = await ask(say('editor.ask.hand-kept'), { detail: say('editor.ask.hand-kept.detail', columns), answers: [replace, leave] });
  return answer === undefined ? undefined : answer === replace;
}

function whyNothing({ room, path }: FileOfFishroom): ReturnType<typeof say> {
  const file = room.plan.records.file(path);
  if (file?.blocked !== undefined) return say('editor.nothing.blocked', path);
  if (file?.header.computed.length === 0) return say('editor.nothing.no-columns', path);
  const [unread] = room.plan.unreadSources(path);
  return unread === undefined ? say('editor.nothing', path) : say('editor.nothing.unread', path, unread);
}
