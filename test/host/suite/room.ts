import { ok } from 'node:assert/strict';
import * as vscode from 'vscode';
import { eventually, uriOf, writeText } from './support';

interface Api {
  whenIdle(): Promise<void>;
}

/** Resolves when the extension has found, read and shown all that it knows of by now. */
export async function idle(): Promise<void> {
  const extension = vscode.extensions.getExtension<Api>('broodsheet.broodsheet');
  ok(extension, 'broodsheet.broodsheet is not among the extensions');
  await (await extension.activate()).whenIdle();
}

/** The problems that are shown of a file as 'line:column code', both from 1, in the order of the text; hints only where they are asked for. */
export function problemsOf(path: string, options: { readonly withHints?: boolean } = {}): string[] {
  return diagnosticsOf(uriOf(path))
    .filter(({ severity }) => options.withHints === true || severity !== vscode.DiagnosticSeverity.Hint)
    .map(({ range: { start }, code }) => `${start.line + 1}:${start.character + 1} ${codeOf(code)}`);
}

/** Our diagnostics at a place, in the order of the text. */
export function diagnosticsOf(uri: vscode.Uri): vscode.Diagnostic[] {
  return vscode.languages
    .getDiagnostics(uri)
    .filter(({ source }) => source === 'Broodsheet')
    .sort((a, b) => a.range.start.compareTo(b.range.start) || codeOf(a.code).localeCompare(codeOf(b.code)));
}

function codeOf(code: vscode.Diagnostic['code']): string {
  return typeof code === 'string' ? code : '';
}

/** Opens a file in an editor of its own, in front of all others, with the text that is stored or, where somebody typed into it, what was typed. */
export async function openFile(path: string): Promise<vscode.TextEditor> {
  const document = await vscode.workspace.openTextDocument(uriOf(path));
  // VS Code keeps a text for minutes after its editor was closed (a test before may have had one of this name), and reads the file anew some time after it
  // was told that it changed: by then an edit would be one of another text.
  await eventually(`${path} as it is stored`, async () => {
    const stored = await vscode.workspace.decode(await vscode.workspace.fs.readFile(document.uri), { uri: document.uri });
    return document.isDirty || linesOf(stored).join() === linesOf(document.getText()).join();
  });
  return await vscode.window.showTextDocument(document, { preview: false });
}

function linesOf(text: string): string[] {
  return text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/);
}

/** Replaces the first place where a text stands in a document, as typing over it does. */
export async function replaceText(document: vscode.TextDocument, before: string, after: string): Promise<void> {
  const at = document.getText().indexOf(before);
  ok(at >= 0, `${before} stands nowhere in ${document.uri.path}`);
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, new vscode.Range(document.positionAt(at), document.positionAt(at + before.length)), after);
  ok(await vscode.workspace.applyEdit(edit));
}

/** Throws away what isn't saved and closes all editors. */
export async function closeAll(): Promise<void> {
  for (const { document } of vscode.window.visibleTextEditors) {
    if (!document.isDirty) continue;
    await vscode.window.showTextDocument(document);
    await vscode.commands.executeCommand('workbench.action.files.revert');
  }
  for (const document of vscode.workspace.textDocuments) {
    if (!document.isDirty) continue;
    await vscode.window.showTextDocument(document);
    await vscode.commands.executeCommand('workbench.action.files.revert');
  }
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
}

/** Makes a folder of the workspace and waits until VS Code is told of what changes in there: a watcher takes a while to see a new folder. */
export async function makeFolder(path: string): Promise<void> {
  let isWatched = false;
  const watcher = vscode.workspace.createFileSystemWatcher(`**/${path}/probe.txt`);
  watcher.onDidCreate(() => (isWatched = true));
  watcher.onDidChange(() => (isWatched = true));
  try {
    await eventually(`${path} to be watched`, async () => {
      await writeText(`${path}/probe.txt`, '');
      return isWatched;
    });
  } finally {
    watcher.dispose();
  }
}

/** Closes all editors and deletes a folder of the workspace. */
export async function removeFolder(path: string): Promise<void> {
  await closeAll();
  await vscode.workspace.fs.delete(uriOf(path), { recursive: true, useTrash: false });
}
