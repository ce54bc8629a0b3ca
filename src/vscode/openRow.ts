import * as vscode from 'vscode';
import type { Row } from '../records/row';
import { rangeOf } from './convert';
import type { OpenFishroom } from './openFishroom';

/** Shows a row in a text editor, beside what the keeper looks at; nothing where it has gone meanwhile. */
export async function openRow(room: OpenFishroom, row: Row): Promise<void> {
  const file = room.plan.records.file(row.path);
  if (file === undefined || room.plan.records.file(row.path)?.recordOf(row) === undefined) return;
  const span = file.doc.rowSpan(file.recordOf(row));
  const document = await vscode.workspace.openTextDocument(room.uriOf(row.path));
  const { start } = rangeOf(room.placesIn(row.path), span);
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, selection: new vscode.Range(start, start), preview: true });
}
