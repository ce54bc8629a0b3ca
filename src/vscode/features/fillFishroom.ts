import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import type { CellChange } from '../../planner/cellChange';
import type { FileEdit } from '../../planner/problem';
import { chooseFishroom } from '../chooseFishroom';
import { workspaceEditOf } from '../convert';
import { editsIn } from '../fillEditor';
import type { Fishrooms } from '../fishrooms';
import { explainNothing, tell } from '../keeper';
import type { OpenFishroom } from '../openFishroom';

/** What one line of the list stands for: cells that are filled without question, or columns of a file that were kept by hand. */
interface Offer extends vscode.QuickPickItem {
  readonly path: string;
  readonly columns: 'ours' | 'kept by hand';
}

/** "Fill the fishroom": shows which files would change, then changes those that the keeper leaves ticked, as one step. */
export function fillFishroomCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.fillFishroom', async () => {
    await fishrooms.findAgain();
    const room = await chooseFishroom(fishrooms);
    if (room === undefined) return;
    const offers = offersOf(room, fishrooms);
    if (offers.length === 0) {
      explainNothing(say('editor.nothing.fishroom', room.name));
      return;
    }
    const chosen = await vscode.window.showQuickPick(offers, {
      canPickMany: true,
      title: textOf(say('editor.fill-fishroom.title', room.name)),
      placeHolder: textOf(say('editor.fill-fishroom.which')),
      matchOnDescription: true,
    });
    if (chosen === undefined || chosen.length === 0) return;
    await fishrooms.activity.whenIdle();
    if (fishrooms.all().includes(room)) await fill(room, chosen);
  });
}

function offersOf(room: OpenFishroom, fishrooms: Fishrooms): readonly Offer[] {
  const dirty = new Set(vscode.workspace.textDocuments.filter(({ isDirty }) => isDirty).map(({ uri }) => fishrooms.fileAt(uri)).flatMap((file) => (file?.room === room ? [file.path] : [])));
  return room.plan.paths().flatMap((path): readonly Offer[] => {
    const { changes, handKept } = room.plan.fills(path);
    const isRewritten = room.plan.records.file(path)?.mixedLineEnds === true;
    const detail = isRewritten ? say('editor.fill-fishroom.rewritten') : dirty.has(path) ? say('editor.fill-fishroom.unsaved') : undefined;
    const common = { label: path, path, ...(detail === undefined ? {} : { detail: textOf(detail) }) };
    const offers: Offer[] = [];
    if (changes.length > 0) offers.push({ ...common, columns: 'ours', description: textOf(cells(changes)), picked: !isRewritten });
    if (handKept.length > 0) {
      const columns = handKept.map(({ header, rows }) => `${header} (${rows})`).join(', ');
      offers.push({ ...common, columns: 'kept by hand', description: textOf(say('editor.fill-fishroom.hand-kept', columns)), picked: false });
    }
    return offers;
  });
}

/** How many cells, and in which columns. */
function cells(changes: readonly CellChange[]): Message {
  const counts = new Map<string, number>();
  for (const { header } of changes) counts.set(header, (counts.get(header) ?? 0) + 1);
  const columns = [...counts].map(([header, count]) => `${header} (${count})`).join(', ');
  return changes.length === 1 ? say('editor.fill-fishroom.cells.one', changes[0]?.header ?? '') : say('editor.fill-fishroom.cells', changes.length, columns);
}

async function fill(room: OpenFishroom, chosen: readonly Offer[]): Promise<void> {
  const files: FileEdit[] = [];
  let count = 0;
  for (const path of new Set(chosen.map((offer) => offer.path))) {
    const wanted = new Set(chosen.filter((offer) => offer.path === path).map(({ columns }) => columns));
    const ours = room.plan.fills(path).changes;
    const isOurs = new Set(ours.map(({ span }) => span.start));
    const kept = wanted.has('kept by hand') ? room.plan.fills(path, { overwrite: true }).changes.filter(({ span }) => !isOurs.has(span.start)) : [];
    const changes = [...(wanted.has('ours') ? ours : []), ...kept];
    if (changes.length > 0) files.push({ file: path, edits: editsIn(changes) });
    count += changes.length;
  }
  const uris = files.map(({ file }) => room.uriOf(file));
  const dirtyBefore = new Set(vscode.workspace.textDocuments.filter(({ isDirty }) => isDirty).map(({ uri }) => uri.toString()));
  // The keeper has just agreed to each file, so VS Code need not ask again.
  const edit = workspaceEditOf(files, room, () => undefined);
  if (!(await vscode.workspace.applyEdit(edit, { isRefactoring: true }))) {
    explainNothing(say('editor.changed-meanwhile', room.name));
    return;
  }
  // A refactoring saves the files that it changes, but not when there is only one.
  for (const document of vscode.workspace.textDocuments) {
    const key = document.uri.toString();
    if (document.isDirty && !dirtyBefore.has(key) && uris.some((uri) => uri.toString() === key)) await document.save();
  }
  tell(say('editor.filled.fishroom', count, files.length, room.name));
}
