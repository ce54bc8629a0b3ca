import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, makeFolder, openFile, removeFolder, replaceText } from './room';
import { eventually, uriOf, writeText } from './support';

const folder = 'hinted';
const clutches = 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09T19:00\nK2,guppy,T1,2026-06-01\n';

describe('hints and lines above headers', () => {
  beforeEach(async () => {
    await makeFolder(folder);
    await writeText(`${folder}/clutches.csv`, clutches);
    await writeText(`${folder}/clutches/K1.csv`, 'time,event\n2026-06-10T08:00,checked\n');
    await idle();
  });
  afterEach(async () => {
    await setting().update('inlayHints', undefined, vscode.ConfigurationTarget.Workspace);
    await closeAll();
    await removeFolder(folder);
  });

  it('tell in the asked rows what the sheet has no column for', async () => {
    const { document } = await openFile(`${folder}/clutches.csv`);
    await idle();
    deepStrictEqual(await hintsOf(document), ["1:32 egg · day 1 · Look at the eggs", '2:22 free-swimming · day 9']);
    deepStrictEqual(await hintsOf(document, new vscode.Range(2, 0, 3, 0)), ['2:22 free-swimming · day 9']);
  });

  it('follow what is typed elsewhere', async () => {
    const register = await openFile(`${folder}/clutches.csv`);
    const log = await openFile(`${folder}/clutches/K1.csv`);
    await replaceText(log.document, 'checked', 'hatched');
    await eventually('the hint to say so', async () => (await hintsOf(register.document))[0]?.startsWith('1:32 wriggler · day 1'));
  });

  it('are as many as the setting wants', async () => {
    const { document } = await openFile(`${folder}/clutches.csv`);
    await idle();
    await setting().update('inlayHints', 'off', vscode.ConfigurationTarget.Workspace);
    await eventually('no hints', async () => (await hintsOf(document)).length === 0);
    await setting().update('inlayHints', 'all', vscode.ConfigurationTarget.Workspace);
    await eventually('all hints', async () => (await hintsOf(document)).some((hint) => hint.includes('sale_expected')));
  });

  it('stand above a log with what is to be done, and lead to the row of the register', async () => {
    const { document } = await openFile(`${folder}/clutches/K1.csv`);
    await idle();
    const lenses = await lensesOf(document);
    strictEqual(lenses[0]?.command?.title, 'kribensis, egg, day 1');
    ok(lenses[1]?.command?.title.startsWith('Next: Look at the eggs'), JSON.stringify(lenses));
    const { command, arguments: args = [] } = lenses[0].command;
    await vscode.commands.executeCommand(command, ...(args as unknown[]));
    const shown = await eventually('the register', () => vscode.window.activeTextEditor?.document.uri.path.endsWith('/clutches.csv') === true && vscode.window.activeTextEditor);
    strictEqual(shown.document.getText(shown.selection), 'K1');
  });

  it('are nowhere outside of a fishroom', async () => {
    await writeText('elsewhere.csv', clutches);
    try {
      const document = await vscode.workspace.openTextDocument(uriOf('elsewhere.csv'));
      await idle();
      deepStrictEqual(await hintsOf(document), []);
      deepStrictEqual(await lensesOf(document), []);
    } finally {
      await vscode.workspace.fs.delete(uriOf('elsewhere.csv'));
    }
  });
});

function setting(): vscode.WorkspaceConfiguration {
  return vscode.workspace.getConfiguration('broodsheet');
}

/** `line:character text`, both from 0. */
async function hintsOf(document: vscode.TextDocument, range = new vscode.Range(0, 0, document.lineCount, 0)): Promise<readonly string[]> {
  const hints = await vscode.commands.executeCommand<vscode.InlayHint[]>('vscode.executeInlayHintProvider', document.uri, range);
  return hints.map(({ position, label }) => `${position.line}:${position.character} ${typeof label === 'string' ? label : label.map(({ value }) => value).join('')}`);
}

async function lensesOf(document: vscode.TextDocument): Promise<readonly vscode.CodeLens[]> {
  return await vscode.commands.executeCommand<vscode.CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 10);
}
