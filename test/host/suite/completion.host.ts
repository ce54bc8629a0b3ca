import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, makeFolder, openFile, removeFolder, replaceText } from './room';
import { uriOf, writeText } from './support';

const folder = 'completed';
const files = {
  'rooms.csv': 'room\nfront\n',
  'tanks.csv': 'tank;room;use\nT08;front;breeding\nT09;front;grow-out\n',
  'pairs.csv': 'pair,species,tank\nKR1,kribensis,T08\n',
  'clutches.csv': 'clutch,pair,tank,spawned\nKR1-1,KR1,T08,2026-06-09T19:00\n',
  'clutches/KR1-1.csv': 'time,event,to_tank\n2026-06-10T08:00,moved,\n',
} as const;

describe('completion', () => {
  beforeEach(async () => {
    await makeFolder(folder);
    for (const [path, text] of Object.entries(files)) await writeText(`${folder}/${path}`, text);
    await idle();
  });
  afterEach(async () => {
    await closeAll();
    await removeFolder(folder);
  });

  it('offers ids that fit with what they are, in an order of its own', async () => {
    const { document, labels } = await completed('clutches/KR1-1.csv', { line: 1, character: 23 });
    deepStrictEqual(labels, ['T09 front · grow-out · empty', 'T08 front · breeding · KR1, KR1-1']);
    strictEqual(document.languageId.length > 0, true);
  });

  it('replaces the whole cell when a suggestion is taken, and knows the next free name at a new line', async () => {
    const editor = await openFile(`${folder}/tanks.csv`);
    await editor.edit((edit) => edit.insert(new vscode.Position(3, 0), 'T'));
    await idle();
    const { items } = await completed('tanks.csv', { line: 3, character: 1 });
    const [next] = items;
    ok(next && typeof next.label !== 'string' && next.label.label === 'T10', JSON.stringify(items));
    editor.selection = new vscode.Selection(3, 1, 3, 1);
    const range = next.range instanceof vscode.Range ? next.range : next.range?.replacing;
    ok(range);
    ok(await editor.edit((edit) => edit.replace(range, next.insertText as string)));
    strictEqual(editor.document.getText(), `${files['tanks.csv']}T10`);
  });

  it('follows what is typed in another sheet before it is saved', async () => {
    const editor = await openFile(`${folder}/rooms.csv`);
    await editor.edit((edit) => edit.insert(new vscode.Position(2, 0), 'back\n'));
    await idle();
    const { labels } = await completed('tanks.csv', { line: 1, character: 6 });
    deepStrictEqual(labels, ['front', 'back']);
  });

  it('is silent where nothing can be told, and in files outside of a fishroom', async () => {
    await writeText('elsewhere.csv', files['clutches.csv']);
    try {
      const own = await ours(uriOf('elsewhere.csv'), new vscode.Position(1, 6));
      deepStrictEqual(own, []);
      const editor = await openFile(`${folder}/tanks.csv`);
      await replaceText(editor.document, ';front', ';"front');
      deepStrictEqual((await completed('tanks.csv', { line: 1, character: 5 })).labels, []);
    } finally {
      await vscode.workspace.fs.delete(uriOf('elsewhere.csv'));
    }
  });
});

interface Completed {
  readonly document: vscode.TextDocument;
  readonly items: readonly vscode.CompletionItem[];
  readonly labels: readonly string[];
}

async function completed(path: string, { line, character }: { readonly line: number; readonly character: number }): Promise<Completed> {
  const { document } = await openFile(`${folder}/${path}`);
  await idle();
  const items = await ours(document.uri, new vscode.Position(line, character));
  const labels = items.map(({ label }) => (typeof label === 'string' ? label : [label.label, label.description].filter((part) => part !== '').join(' ')));
  return { document, items, labels };
}

/** What we offer, without words that the editor finds in open texts. */
async function ours(uri: vscode.Uri, position: vscode.Position): Promise<vscode.CompletionItem[]> {
  await vscode.workspace.openTextDocument(uri);
  const list = await vscode.commands.executeCommand<vscode.CompletionList>('vscode.executeCompletionItemProvider', uri, position);
  return list.items.filter(({ sortText }) => /^\d{4}$/.test(sortText ?? '')).sort((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));
}
