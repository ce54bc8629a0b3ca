import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { parseMoment } from '../../../src/base/moment';
import { zoneOf } from '../../../src/base/zone';
import { Plan } from '../../../src/planner/plan';
import { decode } from '../../../src/records/fileStore';
import type { FileChange } from '../../../src/records/records';
import { closeAll, diagnosticsOf, idle, makeFolder, openFile, problemsOf, removeFolder, replaceText } from './room';
import { eventually, readText, uriOf, writeText } from './support';

const wellKept = 'clutch,species,tank,spawned\nA1,angelfish,T1,2026-06-08\n';

describe('the problems of a fishroom', () => {
  afterEach(closeAll);

  it('are shown of every file, open or not', async () => {
    await idle();
    const expected = await problemsAfresh('messy');
    ok(expected.size >= 20, `${expected.size} files have problems`);
    for (const [path, problems] of expected) deepStrictEqual(problemsOf(`messy/${path}`, { withHints: true }), problems, path);
    const shown = vscode.languages.getDiagnostics().filter(([uri, all]) => uri.path.startsWith(`${uriOf('messy').path}/`) && all.length > 0);
    deepStrictEqual(shown.map(([uri]) => uri.path.slice(uriOf('messy').path.length + 1)).sort(), [...expected.keys()].sort());
    strictEqual(vscode.workspace.textDocuments.some(({ uri }) => uri.path.includes('/messy/')), false);
  });

  it('stand at the same places before and after their file is opened, whatever its line ends and byte order mark', async () => {
    const expected = ['4:21 species-differs', '5:4 value-enum', '6:1 id-duplicate', '7:1 spawn-late', '8:1 close-kin'];
    strictEqual((await readText('messy/pairs.csv')).startsWith('\uFEFFpair'), true);
    await idle();
    deepStrictEqual(problemsOf('messy/pairs.csv').filter((problem) => !problem.includes('older-fry')), expected);
    const { document } = await openFile('messy/pairs.csv');
    await idle();
    deepStrictEqual(problemsOf('messy/pairs.csv').filter((problem) => !problem.includes('older-fry')), expected);
    strictEqual(document.getText(new vscode.Range(4, 3, 4, 9)), 'couple');
  });

  it('say what is wrong in words, with the places that belong to it', async () => {
    await idle();
    const shown = diagnosticsOf(uriOf('messy/pairs.csv')).find(({ code }) => code === 'id-duplicate');
    strictEqual(shown?.message, 'P1 is already taken by a row above.');
    strictEqual(shown.severity, vscode.DiagnosticSeverity.Error);
    const places = shown.relatedInformation?.map(({ location, message }) => [location.uri.toString(), location.range.start.line, message]);
    deepStrictEqual(places, [[uriOf('messy/pairs.csv').toString(), 4, 'The first row with this name']]);
  });

  it('come and go as text is typed, in closed files too, and nothing reaches the disk', async () => {
    await idle();
    const before = await readText('room/tanks.csv');
    deepStrictEqual(problemsOf('room/clutches.csv'), []);
    const { document } = await openFile('room/tanks.csv');
    await replaceText(document, 'T01', 'T0');
    await idle();
    deepStrictEqual(problemsOf('room/clutches.csv'), ['2:7 ref-unknown']);
    deepStrictEqual(problemsOf('room/pairs.csv'), ['2:14 ref-unknown']);
    await replaceText(document, 'T0,', 'T01,');
    await idle();
    deepStrictEqual(problemsOf('room/clutches.csv'), []);
    deepStrictEqual(problemsOf('room/pairs.csv'), []);
    strictEqual(await readText('room/tanks.csv'), before);
  });

  it('move with the text above them', async () => {
    await makeFolder('typed');
    await writeText('typed/fishroom.json', '{}');
    await writeText('typed/clutches.csv', `${wellKept}A2,angelfish,T1,yesterday\n`);
    await eventually('the problem', () => problemsOf('typed/clutches.csv').includes('3:17 value-type'));
    const { document } = await openFile('typed/clutches.csv');
    await replaceText(document, 'A1,', '\n\nA1,');
    await idle();
    deepStrictEqual(problemsOf('typed/clutches.csv'), ['5:17 value-type']);
    await removeFolder('typed');
  });

  it('go with what is thrown away: the stored text counts again', async () => {
    await idle();
    const { document } = await openFile('room/clutches.csv');
    await replaceText(document, 'T03', 'T99');
    await idle();
    deepStrictEqual(problemsOf('room/clutches.csv'), ['3:7 ref-unknown']);
    await closeAll();
    await eventually('the problem to go', () => problemsOf('room/clutches.csv').length === 0);
  });

  it('follow what other programs write', async () => {
    await idle();
    const before = await readText('room/clutches.csv');
    await writeText('room/clutches.csv', before.replace('K2,P1', 'K2,P7'));
    await eventually('the problem', () => problemsOf('room/clutches.csv').join() === '3:4 ref-unknown');
    await writeText('room/clutches.csv', before);
    await eventually('the problem to go', () => problemsOf('room/clutches.csv').length === 0);
  });

  it('are those of the new text when hundreds of rows change at once', async () => {
    const row = (i: number): string => `C${i},angelfish,T1,2026-06-0${8 + (i % 2)}\n`;
    const rows = Array.from({ length: 400 }, (_, i) => row(i)).join('');
    await makeFolder('many');
    await writeText('many/clutches.csv', `clutch,species,tank,spawned\n${rows}last,angelfish,T1,?\n`);
    await eventually('the first row to be read', () => problemsOf('many/clutches.csv').join() === '402:19 value-type');
    const { document } = await openFile('many/clutches.csv');
    const edit = new vscode.WorkspaceEdit();
    for (let line = 1; line <= 400; line += 2) edit.replace(document.uri, new vscode.Range(line, document.lineAt(line).text.length - 2, line, document.lineAt(line).text.length), '99');
    ok(await vscode.workspace.applyEdit(edit));
    await idle();
    deepStrictEqual([problemsOf('many/clutches.csv').length, problemsOf('many/clutches.csv')[0]], [201, '2:17 value-type']);
    await vscode.commands.executeCommand('undo');
    await idle();
    deepStrictEqual(problemsOf('many/clutches.csv'), ['402:19 value-type']);
    await removeFolder('many');
  });

  it('are the same after any typing as of the same text read afresh', async () => {
    await makeFolder('typed');
    await makeFolder('afresh');
    await writeText('typed/fishroom.json', '{"timezone": "Europe/Berlin"}');
    await writeText('typed/clutches.csv', `${wellKept}A2,kribensis,T2,2026-06-07T20:00\r\nA3,guppy,"T3",~2026-06-01\n`.replaceAll('\r', ''));
    await writeText('afresh/fishroom.json', '{"timezone": "Europe/Berlin"}');
    await writeText('afresh/clutches.csv', wellKept);
    const { document } = await openFile('typed/clutches.csv');
    const random = seeded(20260610);
    const pieces = ['"', ',', '\n', 'A1', '2026-06-09', 'T1', '\r\n', 'ü', '~', ',x', '9', '""', '\n<<<<<<< mine\n'];
    for (let round = 0; round < 12; round += 1) {
      for (let i = 0; i < 6; i += 1) {
        const length = document.getText().length;
        const start = Math.floor(random() * (length + 1));
        const end = Math.min(length, start + Math.floor(random() * 5));
        const edit = new vscode.WorkspaceEdit();
        edit.replace(document.uri, new vscode.Range(document.positionAt(start), document.positionAt(end)), pieces[Math.floor(random() * pieces.length)] ?? '');
        ok(await vscode.workspace.applyEdit(edit));
      }
      await writeText('afresh/clutches.csv', document.getText());
      await eventually(`the same problems in round ${round}`, async () => {
        await idle();
        const [typed, afresh] = ['typed/clutches.csv', 'afresh/clutches.csv'].map((path) => JSON.stringify(problemsOf(path, { withHints: true })));
        return typed === afresh;
      });
    }
    await removeFolder('typed');
    await removeFolder('afresh');
  });
});

/** What the planner itself says of a fishroom's stored files, as problemsOf gives it, with lines counted by this test. */
async function problemsAfresh(folder: string): Promise<ReadonlyMap<string, readonly string[]>> {
  const zone = zoneOf('Europe/Berlin');
  const now = zone === undefined ? undefined : parseMoment('2026-06-10T09:00', zone);
  ok(zone && now);
  const plan = new Plan({ machineZone: zone, now: now.instant });
  plan.apply(await filesBelow(folder, ''));
  const found = new Map<string, readonly string[]>();
  for (const path of plan.paths()) {
    const text = plan.records.file(path)?.doc.text() ?? '';
    const problems = plan.problems(path).map(({ code, span }) => {
      const lines = text.slice(0, span.start).replace('\uFEFF', '').split(/\r\n|\r|\n/);
      return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1, code };
    });
    problems.sort((a, b) => a.line - b.line || a.column - b.column || a.code.localeCompare(b.code));
    if (problems.length > 0) found.set(path, problems.map(({ line, column, code }) => `${line}:${column} ${code}`));
  }
  return found;
}

async function filesBelow(folder: string, path: string): Promise<FileChange[]> {
  const changes: FileChange[] = [];
  for (const [name, type] of await vscode.workspace.fs.readDirectory(uriOf(`${folder}/${path}`))) {
    const below = path === '' ? name : `${path}/${name}`;
    if (type === vscode.FileType.Directory) changes.push(...(await filesBelow(folder, below)));
    else changes.push({ path: below, file: decode(await vscode.workspace.fs.readFile(uriOf(`${folder}/${below}`))) });
  }
  return changes;
}

function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
}
