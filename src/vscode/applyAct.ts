import * as vscode from 'vscode';
import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { Plan } from '../planner/plan';
import type { FileEdit } from '../planner/problem';
import { workspaceEditOf } from './convert';
import { mayBeRewritten } from './fillEditor';
import type { OpenFishroom } from './openFishroom';
import { isMissing } from './workspaceStore';

/** So often an act is worked out anew when its files change under it. */
const ATTEMPTS = 8;
/** Between two of them, in ms, so that what is typed can come in. */
const PAUSE = 60;

/** Edits of a fishroom's files, and files of it to delete. */
export interface Changes {
  readonly edits: readonly FileEdit[];
  readonly remove?: readonly string[];
}

/** What became of an act; `texts` are those of its files just before. */
export type Applied<Result extends Changes> =
  | { readonly kind: 'made'; readonly result: Result; readonly texts: ReadonlyMap<string, string>; /** Files that were to be saved and could not be. */ readonly unsaved: readonly string[] }
  | { readonly kind: 'not made'; readonly why: Message | undefined };

/**
 * Works an act out from the records as they are and applies it as one edit of the workspace. Where a file changes meanwhile, it is worked out anew. Files without
 * unsaved edits are saved afterwards, those with some stay as unsaved as they were. `why` is undefined where the keeper would rather not.
 */
export async function applyAct<Result extends Changes>(room: OpenFishroom, act: (plan: Plan) => (Result & { readonly kind: 'edits' }) | { readonly kind: 'refused'; readonly why: Message }): Promise<Applied<Result>> {
  const asked = new Set<string>();
  let path = room.name;
  for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
    if (attempt > 0) await new Promise<void>((resolve) => setTimeout(resolve, PAUSE * attempt));
    await room.whenIdle();
    const first = act(room.plan);
    if (first.kind === 'refused') return { kind: 'not made', why: first.why };
    const files = first.edits.flatMap((edit) => ('edits' in edit ? [edit.file] : []));
    path = first.edits[0]?.file ?? path;
    for (const file of files) {
      if (!asked.has(file) && !(await mayBeRewritten({ room, path: file }))) return { kind: 'not made', why: undefined };
      asked.add(file);
    }
    const documents = await open(files.map((file) => room.uriOf(file)));
    if (documents === undefined || !(await areFree(first.edits, room))) continue;
    if (room.isGone) break;
    // From here on nothing is waited for, so that the edits are those of the texts that VS Code is told of.
    const result = act(room.plan);
    if (result.kind === 'refused') return { kind: 'not made', why: result.why };
    const changed = result.edits.flatMap((edit) => ('edits' in edit ? [edit.file] : []));
    if (!changed.every((file) => documents.some((document) => room.follows(file, document)) && asked.has(file))) continue;
    const texts = new Map(changed.map((file) => [file, room.plan.records.file(file)?.doc.text() ?? '']));
    const toSave = documents.filter((document) => !document.isDirty && changed.some((file) => room.follows(file, document)));
    const edit = workspaceEditOf(result.edits, room, () => undefined);
    for (const file of result.remove ?? []) edit.deleteFile(room.uriOf(file));
    if (!(await vscode.workspace.applyEdit(edit))) continue;
    const unsaved: string[] = [];
    for (const document of toSave) if (document.isDirty && !(await document.save())) unsaved.push(vscode.workspace.asRelativePath(document.uri));
    await room.whenIdle();
    return { kind: 'made', result, texts, unsaved };
  }
  return { kind: 'not made', why: say('editor.act.not-made', path) };
}

/** Opens what is to be edited: the edits of a file that isn't open would be made without a look at whether it has changed. */
async function open(uris: readonly vscode.Uri[]): Promise<readonly vscode.TextDocument[] | undefined> {
  const documents: vscode.TextDocument[] = [];
  for (const uri of uris) {
    try {
      documents.push(await vscode.workspace.openTextDocument(uri));
    } catch {
      // It may have been deleted a moment ago; then the records will say so.
      return undefined;
    }
  }
  return documents;
}

/** Whether there is nothing yet where files are to be made: what is there has not been read yet. */
async function areFree(edits: readonly FileEdit[], room: OpenFishroom): Promise<boolean> {
  for (const edit of edits) {
    if (!('create' in edit)) continue;
    try {
      await vscode.workspace.fs.stat(room.uriOf(edit.file));
      room.touch(edit.file);
      return false;
    } catch (error) {
      if (!isMissing(error)) return false;
    }
  }
  return true;
}
