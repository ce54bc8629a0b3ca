import * as vscode from 'vscode';

/** The documents that VS Code holds open, by their whole URI: versions of a file under other schemes are other documents. */
export class OpenDocuments implements vscode.Disposable {
  readonly #byUri = new Map<string, vscode.TextDocument>();
  readonly #listeners: vscode.Disposable;

  constructor() {
    this.#listeners = vscode.Disposable.from(
      vscode.workspace.onDidOpenTextDocument((document) => this.#byUri.set(document.uri.toString(), document)),
      vscode.workspace.onDidCloseTextDocument((document) => this.#byUri.delete(document.uri.toString())),
    );
    for (const document of vscode.workspace.textDocuments) this.#byUri.set(document.uri.toString(), document);
  }

  get(uri: vscode.Uri): vscode.TextDocument | undefined {
    return this.#byUri.get(uri.toString());
  }

  dispose(): void {
    this.#listeners.dispose();
  }
}
