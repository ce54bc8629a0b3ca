import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, makeFolder, openFile, problemsOf, removeFolder, replaceText } from './room';
import { eventually, readText, uriOf, writeText } from './support';

interface Api {
  done(answered: { readonly folder: string; readonly key: string; readonly way: string; readonly answers: Readonly<Record<string, string>> }): Promise<boolean>;
}

const folder = 'acting';
const clutches = `${folder}/clutches.csv`;
const log = `${folder}/log.csv`;
/** Eggs of 1 June; the clock of the tests stands at 10 June, 9 o'clock. */
const eggs = 'clutch,species,tank,spawned,ended,outcome\r\nA1,angelfish,T1,2026-06-01T10:00,,\r\n';
const header = 'clutch;time;event;note\n';
const row = 'A1;2026-06-10T09:00;hatched;\n';

/** Does what the entry of the hatch asks for. */
async function hatched(way = 'hatched', answers: Readonly<Record<string, string>> = {}, room = folder): Promise<boolean> {
  const extension = vscode.extensions.getExtension<Api>('broodsheet.broodsheet');
  ok(extension);
  return await (await extension.activate()).done({ folder: uriOf(room).toString(), key: 'clutches/A1/hatch/0', way, answers });
}

async function takeBack(): Promise<boolean> {
  return await vscode.commands.executeCommand<boolean>('broodsheet.takeBack');
}

async function isThere(path: string): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uriOf(path));
    return true;
  } catch {
    return false;
  }
}

describe('acting', () => {
  beforeEach(async () => {
    await makeFolder(folder);
    await writeText(`${folder}/fishroom.json`, '{"timezone": "Europe/Berlin"}');
    await writeText(log, header);
    await writeText(clutches, eggs);
    await eventually('the warning', () => problemsOf(clutches).includes('2:1 overdue'));
  });
  afterEach(() => removeFolder(folder));

  it('writes the row and saves a file that had nothing unsaved, and takes it back to the byte', async () => {
    ok(await hatched());
    strictEqual(await readText(log), header + row);
    await idle();
    deepStrictEqual(problemsOf(clutches), []);
    strictEqual(await hatched(), false);
    strictEqual(await readText(log), header + row);
    ok(await takeBack());
    strictEqual(await readText(log), header);
    await eventually('the warning again', () => problemsOf(clutches).includes('2:1 overdue'));
  });

  it('ends a brood in the register, line ends as they were', async () => {
    ok(await hatched('gone', { outcome: 'eaten' }));
    strictEqual(await readText(clutches), eggs.replace('10:00,,', '10:00,2026-06-10,eaten'));
    ok(await takeBack());
    strictEqual(await readText(clutches), eggs);
  });

  it('leaves a file with something unsaved unsaved', async () => {
    const { document } = await openFile(log);
    await replaceText(document, 'note\n', 'note\n;;;half a ro');
    ok(await hatched());
    strictEqual(document.getText(), `${header};;;half a ro\n${row.replace(/\n$/, '')}`);
    strictEqual(document.isDirty, true);
    strictEqual(await readText(log), header);
    ok(await takeBack());
    strictEqual(document.getText(), `${header};;;half a ro`);
    strictEqual(document.isDirty, true);
  });

  it('loses nothing of what is typed into the file meanwhile', async () => {
    const { document } = await openFile(log);
    await replaceText(document, 'note\n', 'note\n;;;x\n');
    const done = hatched();
    for (let i = 0; i < 30; i++) {
      const edit = new vscode.WorkspaceEdit();
      const end = document.lineAt(1).range.end;
      edit.insert(document.uri, end, String(i % 10));
      await vscode.workspace.applyEdit(edit);
    }
    ok(await done, 'the act was not made');
    strictEqual(document.getText(), `${header};;;x${'0123456789'.repeat(3)}\n${row}`);
    ok(await takeBack());
    strictEqual(document.getText(), `${header};;;x${'0123456789'.repeat(3)}\n`);
  });

  it('makes a log where there is none, and takes it away again only as it was made', async () => {
    const bare = `${folder}-bare`;
    await makeFolder(bare);
    try {
      await writeText(`${bare}/fishroom.json`, '{"timezone": "Europe/Berlin"}');
      await writeText(`${bare}/clutches.csv`, eggs);
      await eventually('the warning', () => problemsOf(`${bare}/clutches.csv`).includes('2:1 overdue'));
      ok(await hatched('hatched', {}, bare));
      strictEqual(await readText(`${bare}/clutches/A1.csv`), 'time,event,tank,count,length_mm,to_tank,note\r\n2026-06-10T09:00,hatched,,,,,\r\n');
      await eventually('the warning to go', () => problemsOf(`${bare}/clutches.csv`).length === 0);
      ok(await takeBack());
      strictEqual(await isThere(`${bare}/clutches/A1.csv`), false);
    } finally {
      await removeFolder(bare);
    }
  });

  it('does not take back what was changed since', async () => {
    ok(await hatched());
    const { document } = await openFile(log);
    await replaceText(document, 'hatched', 'checked');
    await idle();
    strictEqual(await takeBack(), false);
    strictEqual(document.getText(), header + row.replace('hatched', 'checked'));
    await replaceText(document, 'checked', 'hatched');
    await idle();
    ok(await takeBack());
    await closeAll();
  });
});
