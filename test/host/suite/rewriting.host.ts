import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { diagnosticsOf, idle, makeFolder, openFile, problemsOf, removeFolder, replaceText } from './room';
import { eventually, readText, uriOf, writeText } from './support';

const rows = 'clutch,species,tank,spawned,age_days,note\nA1,angelfish,T1,2026-06-08,,shy\nA2,angelfish,T1,2026-06-09,,\n';

describe('a file that VS Code would rewrite', () => {
  beforeEach(() => makeFolder('rewritten'));
  afterEach(async () => {
    await vscode.workspace.getConfiguration('editor').update('codeActionsOnSave', undefined, vscode.ConfigurationTarget.Global);
    await removeFolder('rewritten');
    await eventually('the fishroom to go', () => diagnosticsOf(uriOf('rewritten/clutches.csv')).length === 0);
  });

  it('for its mixed line ends is told so, open too, until it is saved, and not filled on the way', async () => {
    await vscode.workspace.getConfiguration('editor').update('codeActionsOnSave', { 'source.fill.broodsheet': 'explicit' }, vscode.ConfigurationTarget.Global);
    await writeText('rewritten/clutches.csv', rows.replace('\n', '\r\n'));
    await eventually('its problem', () => problemsOf('rewritten/clutches.csv').join() === '1:1 csv-line-ends');
    const { document } = await openFile('rewritten/clutches.csv');
    await replaceText(document, 'shy', 'very shy');
    await idle();
    deepStrictEqual(problemsOf('rewritten/clutches.csv'), ['1:1 csv-line-ends']);
    await vscode.commands.executeCommand('workbench.action.files.save');
    await eventually('the problem to go', () => problemsOf('rewritten/clutches.csv').length === 0);
    strictEqual((await readText('rewritten/clutches.csv')).replaceAll('\r\n', '\n'), rows.replace('shy', 'very shy'));
  });

  it('for bytes that are no UTF-8 is told so, open too, and not filled', async () => {
    const bytes = new TextEncoder().encode(rows.replace('shy', 'sh\u0001'));
    await writeText('rewritten/fishroom.json', '{}');
    await vscode.workspace.fs.writeFile(uriOf('rewritten/clutches.csv'), bytes.map((byte) => (byte === 1 ? 0xfc : byte)));
    await eventually('its problem', () => problemsOf('rewritten/clutches.csv').join() === '2:31 csv-encoding');
    const { document } = await openFile('rewritten/clutches.csv');
    const text = document.getText();
    await vscode.commands.executeCommand('broodsheet.fillSheet');
    await idle();
    deepStrictEqual([problemsOf('rewritten/clutches.csv'), document.getText()], [['2:31 csv-encoding'], text]);
  });

  it('in another encoding than UTF-8 is told so as soon as that makes a difference', async () => {
    await writeText('rewritten/clutches.csv', rows);
    await eventually('the fishroom', () => diagnosticsOf(uriOf('rewritten/clutches.csv')).length > 0);
    const document = await vscode.workspace.openTextDocument(uriOf('rewritten/clutches.csv'), { encoding: 'windows1252' });
    await vscode.window.showTextDocument(document, { preview: false });
    await idle();
    strictEqual(document.encoding, 'windows1252');
    deepStrictEqual(problemsOf('rewritten/clutches.csv'), []);
    await replaceText(document, 'shy', 'shü');
    await idle();
    deepStrictEqual(problemsOf('rewritten/clutches.csv'), ['2:31 csv-encoding']);
    await replaceText(document, 'shü', 'shy');
    await idle();
    deepStrictEqual(problemsOf('rewritten/clutches.csv'), []);
    ok(await document.save());
    strictEqual(await readText('rewritten/clutches.csv'), rows);
  });
});
