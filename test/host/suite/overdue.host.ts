import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { diagnosticsOf, idle, makeFolder, openFile, problemsOf, removeFolder, replaceText } from './room';
import { eventually, readText, uriOf, writeText } from './support';

const folder = 'overdue';
const clutches = `${folder}/clutches.csv`;
const log = `${folder}/log.csv`;
const overdue = '2:1 overdue';
/** Eggs of 1 June; the clock of the tests stands at 10 June. */
const eggs = 'clutch,species,tank,spawned,ended,outcome,accept\nA1,angelfish,T1,2026-06-01T10:00,,,\n';

describe('what is overdue', () => {
  beforeEach(async () => {
    await makeFolder(folder);
    await writeText(`${folder}/fishroom.json`, '{"timezone": "Europe/Berlin"}');
    await writeText(log, 'clutch,time,event\n');
    await writeText(clutches, eggs);
    await eventually('the warning', () => problemsOf(clutches).includes(overdue));
  });
  afterEach(() => removeFolder(folder));

  it('is warned of in files that nobody opened', () => {
    const [warning] = diagnosticsOf(uriOf(clutches));
    strictEqual(warning?.severity, vscode.DiagnosticSeverity.Warning);
    ok(warning.message.startsWith('A1: Hatched, gone, or not known? (due 2026-06-0'), warning.message);
    strictEqual(vscode.workspace.textDocuments.some(({ uri }) => uri.path.includes(`/${folder}/`)), false);
  });

  it('goes as the missing event is typed, and comes again when it is undone', async () => {
    const { document } = await openFile(log);
    await replaceText(document, 'event\n', 'event\nA1,2026-06-04T11:00,hatche\n');
    await idle();
    ok(problemsOf(clutches).includes(overdue));
    await replaceText(document, 'hatche\n', 'hatched\n');
    await idle();
    deepStrictEqual(problemsOf(clutches), []);
    await vscode.commands.executeCommand('undo');
    await eventually('the warning again', () => problemsOf(clutches).includes(overdue));
  });

  it('comes when its moment comes', async () => {
    const setting = vscode.workspace.getConfiguration('broodsheet');
    const original = setting.inspect('now')?.workspaceValue;
    await setting.update('now', '2026-06-03T09:00', vscode.ConfigurationTarget.Workspace);
    await eventually('the warning to be still to come', () => !problemsOf(clutches).includes(overdue));
    await setting.update('now', '2026-06-07T09:00', vscode.ConfigurationTarget.Workspace);
    await eventually('the warning', () => problemsOf(clutches).includes(overdue));
    await setting.update('now', original, vscode.ConfigurationTarget.Workspace);
  });

  const kinds: readonly { readonly title: RegExp; readonly file: string; readonly holds: RegExp }[] = [
    { title: /^Record hatched now \(2026-06-10 09:00\)$/, file: log, holds: /^A1,2026-06-10T09:00,hatched$/m },
    { title: /^Record hatched as about then/, file: log, holds: /^A1,~2026-06-0\dT\d\d:\d\d,hatched$/m },
    { title: /^End A1 today: eaten$/, file: clutches, holds: /^A1,angelfish,T1,2026-06-01T10:00,2026-06-10,eaten,$/m },
    { title: /^I know about it: accept overdue for A1$/, file: clutches, holds: /,overdue$/m },
  ];
  for (const { title, file, holds } of kinds) {
    it(`goes with the quick fix ${title.source}, which one undo takes back`, async () => {
      await openFile(clutches);
      // What is told late of the folder of the test before may have it read once more.
      await idle();
      await eventually('the warning', () => problemsOf(clutches).includes(overdue));
      await applyFix(clutches, overdue, title);
      await eventually('the warning to go', () => !problemsOf(clutches).includes(overdue));
      const { document } = await openFile(file);
      ok(holds.test(document.getText()), document.getText());
      await vscode.commands.executeCommand('undo');
      await eventually('the warning again', () => problemsOf(clutches).includes(overdue));
      strictEqual(document.getText(), file === clutches ? eggs : 'clutch,time,event\n');
    });
  }

  it('is recorded in a new log where there is none', async () => {
    await vscode.workspace.fs.delete(uriOf(log));
    const editor = await openFile(clutches);
    editor.selection = new vscode.Selection(1, 0, 1, 0);
    // Edits of a file that is there have entries; that of a new file has none.
    await eventually('the log to be gone', async () => (await actionsAt(clutches, overdue))[0]?.edit?.entries().length === 0);
    // As a keeper does who takes the first one: what the API gives back of a new file's text can't be applied from here.
    await vscode.commands.executeCommand('editor.action.codeAction', { kind: 'quickfix', apply: 'first' });
    await eventually('the warning to go', () => !problemsOf(clutches).includes(overdue));
    strictEqual(await readText(`${folder}/clutches/A1.csv`), 'time,event,tank,count,length_mm,to_tank,note\n2026-06-10T09:00,hatched,,,,,\n');
  });
});

describe('the quick fixes of what is written wrongly', () => {
  beforeEach(async () => {
    await makeFolder(folder);
    await writeText(`${folder}/fishroom.json`, '{"timezone": "Europe/Berlin"}');
  });
  afterEach(() => removeFolder(folder));

  const kinds: readonly { readonly about: string; readonly files: Readonly<Record<string, string>>; readonly file: string; readonly problem: string; readonly title: RegExp; readonly holds: string; readonly changed?: string }[] = [
    { about: 'a name that is nearly right', files: { 'tanks.csv': 'tank,room\nT01,R1\n', 'pairs.csv': 'pair,species,tank\nP1,angelfish,T0l\n' }, file: 'pairs.csv', problem: '2:14 ref-unknown', title: /^Change to T01$/, holds: 'P1,angelfish,T01\n' },
    { about: 'a row that is missing', files: { 'tanks.csv': 'tank,room\nT01,R1\n', 'pairs.csv': 'pair,species,tank\nP1,angelfish,X7\n' }, file: 'pairs.csv', problem: '2:14 ref-unknown', title: /^Add X7 to tanks.csv$/, holds: 'T01,R1\nX7,\n', changed: 'tanks.csv' },
    { about: 'a date with slashes, one reading', files: { 'tanks.csv': 'tank,room,retired\nT01,R1,03/04/2026\n' }, file: 'tanks.csv', problem: '2:8 value-type', title: /^3 April: change to 2026-04-03$/, holds: 'T01,R1,2026-04-03\n' },
    { about: 'a date with slashes, the other', files: { 'tanks.csv': 'tank,room,retired\nT01,R1,03/04/2026\n' }, file: 'tanks.csv', problem: '2:8 value-type', title: /^4 March: change to 2026-03-04$/, holds: 'T01,R1,2026-03-04\n' },
    { about: 'a header that is missing', files: { 'tanks.csv': 'tank\nT01\n' }, file: 'tanks.csv', problem: '1:1 header-missing', title: /^Add the column room$/, holds: 'tank,room\nT01,\n' },
    { about: 'a row that is too short', files: { 'tanks.csv': 'tank,room,note\nT01,R1\n' }, file: 'tanks.csv', problem: '2:1 csv-columns', title: /^Add 1 empty cells? at the end of the row$/, holds: 'T01,R1,\n' },
    { about: 'cells that are out of date', files: { 'clutches.csv': 'clutch,species,tank,spawned,ended,age_days\nA1,angelfish,T1,2026-05-01,2026-05-11,8\nA2,angelfish,T1,2026-05-01,2026-05-12,11\n' }, file: 'clutches.csv', problem: '1:35 computed-stale', title: /^Fill 1 cell of age_days$/, holds: '2026-05-11,10\n' },
  ];
  for (const { about, files, file, problem, title, holds, changed = file } of kinds) {
    it(`mend ${about}, and one undo takes it back`, async () => {
      for (const [path, text] of Object.entries(files)) await writeText(`${folder}/${path}`, text);
      await eventually(problem, () => problemsOf(`${folder}/${file}`, { withHints: true }).includes(problem));
      await openFile(`${folder}/${file}`);
      await idle();
      await applyFix(`${folder}/${file}`, problem, title);
      await eventually(`${problem} to go`, () => !problemsOf(`${folder}/${file}`, { withHints: true }).includes(problem));
      const { document } = await openFile(`${folder}/${changed}`);
      ok(document.getText().includes(holds), document.getText());
      await vscode.commands.executeCommand('undo');
      await eventually(`${problem} again`, () => problemsOf(`${folder}/${file}`, { withHints: true }).includes(problem));
      strictEqual(document.getText(), files[changed]);
    });
  }

  it('run all at once only where they are safe', async () => {
    const texts = { 'tanks.csv': 'tank,room,retired,fish\n T01,R1,03/04/2026,\nT02,R1,,\n', 'rooms.csv': 'room\nR1\n' };
    for (const [path, text] of Object.entries(texts)) await writeText(`${folder}/${path}`, text);
    await eventually('the problems', () => problemsOf(`${folder}/tanks.csv`).includes('2:8 value-type') || problemsOf(`${folder}/tanks.csv`).includes('2:9 value-type'));
    const { document } = await openFile(`${folder}/tanks.csv`);
    await idle();
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, new vscode.Range(0, 0, 0, 0), 'source.fixAll.broodsheet');
    const edit = actions[0]?.edit;
    ok(edit && (await vscode.workspace.applyEdit(edit)));
    strictEqual(document.getText(), 'tank,room,retired,fish\nT01,R1,03/04/2026,\nT02,R1,,0\n');
  });
});

async function actionsAt(path: string, problem: string): Promise<vscode.CodeAction[]> {
  const shown = diagnosticsOf(uriOf(path)).find(({ range: { start }, code }) => typeof code === 'string' && `${start.line + 1}:${start.character + 1} ${code}` === problem);
  ok(shown, `${problem} is not shown`);
  return await vscode.commands.executeCommand<vscode.CodeAction[]>('vscode.executeCodeActionProvider', uriOf(path), shown.range, vscode.CodeActionKind.QuickFix.value);
}

async function applyFix(path: string, problem: string, title: RegExp): Promise<void> {
  const actions = await actionsAt(path, problem);
  const action = actions.find((one) => title.test(one.title));
  ok(action?.edit, `no ${title.source} among ${actions.map((one) => one.title).join(', ')}`);
  ok(await vscode.workspace.applyEdit(action.edit));
}
