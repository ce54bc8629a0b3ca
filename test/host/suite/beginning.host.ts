import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, diagnosticsOf, idle, makeFolder, openFile, problemsOf, removeFolder, replaceText } from './room';
import { eventually, readText, uriOf, writeText } from './support';

const answers = { name: 'Cellar', timezone: 'Europe/Berlin', rooms: [{ id: 'front' }], species: [{ id: 'kribensis' }], waterTests: 'remind' } as const;

describe('a new fishroom', () => {
  beforeEach(async () => makeFolder('begun'));
  afterEach(async () => removeFolder('begun'));

  const begin = async (): Promise<void> => {
    await vscode.commands.executeCommand('broodsheet.newFishroom', { folder: uriOf('begun'), answers });
  };

  it('has its sheets, nothing wrong in them, and the register of clutches open', async () => {
    await begin();
    strictEqual(vscode.window.activeTextEditor?.document.uri.toString(), uriOf('begun/clutches.csv').toString());
    deepStrictEqual(await namesIn('begun'), ['.gitattributes', 'clutches.csv', 'fishroom.json', 'log.csv', 'pairs.csv', 'probe.txt', 'readings.csv', 'rooms.csv', 'routines.csv', 'species.csv', 'tanks.csv']);
    strictEqual(await readText('begun/.gitattributes'), '*.csv -text\n');
    await idle();
    const all = (await namesIn('begun')).flatMap((name) => diagnosticsOf(uriOf(`begun/${name}`)).map(({ message }) => `${name}: ${message}`));
    deepStrictEqual(all, []);
  });

  it('takes its first row, and says what is missing in it', async () => {
    await begin();
    const { document } = await openFile('begun/clutches.csv');
    await replaceText(document, document.getText(), `${document.getText()}K1,,kribensis,T1,2026-06-08\n`);
    await eventually('the problem of the short row', () => problemsOf('begun/clutches.csv').includes('2:1 csv-columns'));
  });

  it('overwrites nothing: where one of its files is there, none is written', async () => {
    await writeText('begun/pairs.csv', 'mine');
    // The reason stands in a message that nobody closes.
    await begin();
    deepStrictEqual(await namesIn('begun'), ['pairs.csv', 'probe.txt']);
    strictEqual(await readText('begun/pairs.csv'), 'mine');
  });
});

describe('the sample', () => {
  before(async () => makeFolder('copied'));
  after(async () => removeFolder('copied'));

  it('is copied byte for byte, with its clock standing, and never over another copy', async () => {
    const copy = await vscode.commands.executeCommand<vscode.Uri | undefined>('broodsheet.openSample', uriOf('copied'));
    strictEqual(copy?.toString(), uriOf('copied/three-rooms').toString());
    for (const path of ['clutches.csv', 'tanks.csv', 'clutches/KR3-2.csv', 'fishroom.json']) {
      deepStrictEqual(await readText(`copied/three-rooms/${path}`), await readText(`three-rooms/${path}`), path);
    }
    strictEqual(await readText('copied/three-rooms/.vscode/settings.json'), '{\n  "broodsheet.now": "2026-06-10T09:00"\n}\n');
    ok((await namesIn('copied/three-rooms/clutches')).length > 30);
    await writeText('copied/three-rooms/pairs.csv', 'mine');
    strictEqual(await vscode.commands.executeCommand('broodsheet.openSample', uriOf('copied')), undefined);
    strictEqual(await readText('copied/three-rooms/pairs.csv'), 'mine');
    await closeAll();
  });
});

async function namesIn(path: string): Promise<readonly string[]> {
  return (await vscode.workspace.fs.readDirectory(uriOf(path))).map(([name]) => name).sort();
}
