import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, makeFolder, openFile, removeFolder, replaceText } from './room';
import { eventually, readText, uriOf, writeText } from './support';

/** Everything that a fill might disturb: a byte order mark, \r\n, quotes where none are needed, blanks, a column of the keeper's own, no line end at the end. */
const before = '\uFEFFclutch;species;tank;spawned;"note";age_days;mine;stage_basis\r\nA1;angelfish;T1;2026-06-08;"a ""shy"" pair; ";;"x";\r\n\r\nA2;angelfish;"T1";2026-05-11T18:30; ;1;;\r\nA3;angelfish;T1;;;;;';
/** age_days: 8 June to 10 June; 11 May to 10 June (counted on a calendar by hand). A3 has no day of spawning, so nothing can be known. */
const ages: readonly (readonly [string, string])[] = [
  ['pair; ";;"x"', 'pair; ";2;"x"'],
  ['18:30; ;1;;', '18:30; ;30;;'],
];
const filledAges = ages.reduce((text, [from, to]) => text.replace(from, to), before);

describe('filling a sheet', () => {
  beforeEach(async () => {
    await makeFolder('filled');
    await writeText('filled/fishroom.json', '{"timezone": "Europe/Berlin", "extra_columns": ["mine"]}');
    await writeText('filled/clutches.csv', before);
    await eventually('the fishroom to be read', async () => {
      await idle();
      return vscode.languages.getDiagnostics(uriOf('filled/clutches.csv')).some(({ code }) => code === 'computed-stale');
    });
  });
  afterEach(async () => {
    await settings().update('codeActionsOnSave', undefined, vscode.ConfigurationTarget.Global);
    await removeFolder('filled');
    await eventually('the fishroom to go', () => vscode.languages.getDiagnostics(uriOf('filled/clutches.csv')).length === 0);
  });

  it('is one step to undo and changes nothing beside the computed cells', async () => {
    const { document } = await openFile('filled/clutches.csv');
    const text = document.getText();
    await vscode.commands.executeCommand('broodsheet.fillSheet');
    const filled = document.getText();
    strictEqual(withoutBasis(filled), filledAges.slice(1));
    await vscode.commands.executeCommand('undo');
    strictEqual(document.getText(), text);
    strictEqual(document.isDirty, false);
    await vscode.commands.executeCommand('redo');
    strictEqual(document.getText(), filled);
    ok(await document.save());
    strictEqual(await readText('filled/clutches.csv'), `\uFEFF${filled}`);
  });

  it('done twice changes nothing more', async () => {
    const { document } = await openFile('filled/clutches.csv');
    await vscode.commands.executeCommand('broodsheet.fillSheet');
    const { version } = document;
    await vscode.commands.executeCommand('broodsheet.fillSheet');
    strictEqual(document.version, version);
  });

  it('goes by what is typed, not by what is stored', async () => {
    const { document } = await openFile('filled/clutches.csv');
    await replaceText(document, '2026-06-08', '2026-06-01');
    await vscode.commands.executeCommand('broodsheet.fillSheet');
    strictEqual(document.lineAt(1).text.startsWith('A1;angelfish;T1;2026-06-01;"a ""shy"" pair; ";9;"x";'), true);
  });

  it('happens on saving for those who ask for it, of the saved file alone', async () => {
    await settings().update('codeActionsOnSave', { 'source.fill.broodsheet': 'explicit' }, vscode.ConfigurationTarget.Global);
    await writeText('filled/pairs.csv', 'pair,species,clutches\nP1,angelfish,7\n');
    const { document } = await openFile('filled/clutches.csv');
    await replaceText(document, 'A2;angelfish', 'A4;angelfish');
    await vscode.commands.executeCommand('workbench.action.files.save');
    strictEqual(document.isDirty, false);
    strictEqual(withoutBasis(await readText('filled/clutches.csv')), filledAges.replace('A2;', 'A4;'));
    strictEqual(await readText('filled/pairs.csv'), 'pair,species,clutches\nP1,angelfish,7\n');
  });

  it('does not happen on saving otherwise', async () => {
    const { document } = await openFile('filled/clutches.csv');
    await replaceText(document, 'A2;angelfish', 'A4;angelfish');
    await vscode.commands.executeCommand('workbench.action.files.save');
    strictEqual(await readText('filled/clutches.csv'), before.replace('A2;', 'A4;'));
  });

  it('on saving leaves alone what was kept by hand and what can not be read', async () => {
    await settings().update('codeActionsOnSave', { 'source.fill.broodsheet': 'explicit' }, vscode.ConfigurationTarget.Global);
    const byHand = 'clutch,species,tank,spawned,age_days,stage_basis\nB1,angelfish,T1,2026-06-08,two days,\nB2,angelfish,T1,2026-06-01,a week,\n';
    const { document } = await openFile('filled/clutches.csv');
    await replaceText(document, document.getText(), byHand.replaceAll('\n', '\r\n'));
    await vscode.commands.executeCommand('workbench.action.files.save');
    const saved = await readText('filled/clutches.csv');
    strictEqual(saved, `\uFEFF${byHand.replace('two days,', 'two days,recorded').replace('a week,', 'a week,unanswered')}`.replaceAll('\n', '\r\n'));
    const open = `${byHand}B3,angelfish,"T1,2026-06-01,,\n`.replaceAll('\n', '\r\n');
    await replaceText(document, document.getText(), open);
    await vscode.commands.executeCommand('workbench.action.files.save');
    strictEqual(await readText('filled/clutches.csv'), `\uFEFF${open}`);
  });

  it('adds the columns that are missing as one step, filled', async () => {
    const { document } = await openFile('filled/clutches.csv');
    const text = document.getText();
    await vscode.commands.executeCommand('broodsheet.addColumns');
    const [header, first] = document.getText().split('\r\n');
    strictEqual(header?.startsWith('clutch;species;tank;spawned;"note";age_days;mine;stage_basis;'), true);
    strictEqual(header.split(';').includes('stage'), true);
    // Its note and what is to be done next hold a semicolon each.
    strictEqual(first?.split(';').length, header.split(';').length + 2);
    strictEqual(first.startsWith('A1;angelfish;T1;2026-06-08;"a ""shy"" pair; ";2;"x";'), true);
    await vscode.commands.executeCommand('undo');
    strictEqual(document.getText(), text);
  });
});

describe('quick fixes', () => {
  afterEach(closeAll);

  it('are offered for a problem, change the text and can be undone', async () => {
    await idle();
    const editor = await openFile('room/clutches.csv');
    const { document } = editor;
    const text = document.getText();
    await replaceText(document, 'K2,P1,T03', 'K2,P1,T3');
    await idle();
    const range = new vscode.Range(2, 6, 2, 8);
    const problem = vscode.languages.getDiagnostics(document.uri).find(({ code }) => code === 'ref-unknown');
    deepStrictEqual(problem?.range, range);
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, range, vscode.CodeActionKind.QuickFix.value);
    const fix = actions.find(({ title }) => title === 'Change to T03');
    ok(fix?.edit, `offered: ${actions.map(({ title }) => title).join(', ')}`);
    ok(await vscode.workspace.applyEdit(fix.edit));
    strictEqual(document.getText(), text);
    await vscode.commands.executeCommand('undo');
    strictEqual(document.getText(), text.replace('K2,P1,T03', 'K2,P1,T3'));
  });

  it('are none where there is no problem', async () => {
    await idle();
    const { document } = await openFile('room/tanks.csv');
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, new vscode.Range(1, 0, 1, 3));
    deepStrictEqual(actions.filter(({ kind }) => kind?.value.includes('broodsheet') === true || kind?.value === 'quickfix').map(({ title }) => title), []);
  });
});

function settings(): vscode.WorkspaceConfiguration {
  return vscode.workspace.getConfiguration('editor');
}

/** The text with the column stage_basis empty, whose words other tests are about. */
function withoutBasis(text: string): string {
  return text.replaceAll(/([;,])(recorded|expected|unanswered)(?=\r?\n|$)/g, '$1');
}
