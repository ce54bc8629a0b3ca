import { deepStrictEqual, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, diagnosticsOf, idle, makeFolder, openFile, problemsOf, removeFolder, replaceText } from './room';
import { eventually, readText, uriOf, writeText } from './support';

const header = 'clutch,species,tank,spawned\n';
const wrong = `${header}A1,angelfish,T1,soon\n`;

describe('fishrooms of a workspace', () => {
  afterEach(closeAll);

  it('are several, and each has its own ids', async () => {
    await idle();
    deepStrictEqual(problemsOf('room/clutches.csv'), []);
    strictEqual(problemsOf('messy/clutches.csv').includes('11:16 ref-unknown'), true);
    deepStrictEqual(problemsOf('smallest/clutches.csv'), ['3:1 overdue']);
  });

  it('are the only places where anything is shown', async () => {
    await makeFolder('elsewhere');
    await writeText('elsewhere/tanks.csv', 'tank,amount\nx,"never closed\n');
    await writeText('elsewhere/log.csv', wrong);
    await openFile('elsewhere/tanks.csv');
    await openFile('elsewhere/log.csv');
    await idle();
    // A sheet that is one comes later, so that there is something to wait for.
    await writeText('later/clutches.csv', wrong);
    await eventually('the fishroom that came later', () => problemsOf('later/clutches.csv').length === 1);
    deepStrictEqual(diagnosticsOf(uriOf('elsewhere/tanks.csv')), []);
    deepStrictEqual(diagnosticsOf(uriOf('elsewhere/log.csv')), []);
    await removeFolder('elsewhere');
    await removeFolder('later');
  });

  it('appear and vanish with their folders', async () => {
    await writeText('new/site/clutches.csv', wrong);
    await writeText('new/site/clutches/A1.csv', 'time,event\nnow,checked\n');
    await eventually('its problems', () => problemsOf('new/site/clutches.csv').length === 1 && problemsOf('new/site/clutches/A1.csv').length > 0);
    await removeFolder('new/site/clutches');
    await eventually('the log to go', () => problemsOf('new/site/clutches/A1.csv').length === 0);
    deepStrictEqual(problemsOf('new/site/clutches.csv'), ['2:17 value-type']);
    await vscode.workspace.fs.rename(uriOf('new'), uriOf('moved'));
    await eventually('its problems at the new place', () => problemsOf('moved/site/clutches.csv').length > 0 && problemsOf('new/site/clutches.csv').length === 0);
    deepStrictEqual(problemsOf('moved/site/clutches.csv'), ['2:17 value-type']);
    await removeFolder('moved');
    await eventually('the rest to go', () => problemsOf('moved/site/clutches.csv').length === 0);
  });

  it('own the sheets below them, the nearest first', async () => {
    await writeText('outer/fishroom.json', '{}');
    await writeText('outer/tanks.csv', 'tank,room,volume_l\nT1,,54\n');
    await writeText('outer/clutches/inner/clutches.csv', `${header}A1,angelfish,T1,2026-06-08\n`);
    await writeText('outer/clutches/inner/tanks.csv', 'tank,room,volume_l\nT2,,54\n');
    await eventually('the problem of the inner one', () => problemsOf('outer/clutches/inner/clutches.csv').join() === '2:14 ref-unknown');
    await removeFolder('outer');
  });

  it('begin as a header is written', async () => {
    await makeFolder('headed');
    await writeText('headed/clutches.csv', 'clutch,species,tank\nA1,angelfish,T1,soon\n');
    const { document } = await openFile('headed/clutches.csv');
    await idle();
    deepStrictEqual(problemsOf('headed/clutches.csv'), []);
    await replaceText(document, 'species,tank', 'species,tank,spawned');
    await eventually('its problem', () => problemsOf('headed/clutches.csv').join() === '2:17 value-type');
    await replaceText(document, 'spawned', 'spawn');
    await eventually('it to stay one while its header is being changed', () => problemsOf('headed/clutches.csv').some((problem) => problem.endsWith('header-missing')));
    await closeAll();
    await removeFolder('headed');
  });

  it('take no notice of other versions of their files', async () => {
    await idle();
    const uri = uriOf('room/clutches.csv').with({ scheme: 'git', query: 'HEAD' });
    const provider = vscode.workspace.registerTextDocumentContentProvider('git', { provideTextDocumentContent: () => wrong });
    const sameText = await readText('room/clutches.csv');
    await vscode.window.showTextDocument(await vscode.workspace.openTextDocument(uri));
    await vscode.commands.executeCommand('broodsheet.fillSheet');
    await idle();
    deepStrictEqual(diagnosticsOf(uri), []);
    deepStrictEqual(problemsOf('room/clutches.csv'), []);
    strictEqual(vscode.window.activeTextEditor?.document.getText(), wrong);
    strictEqual(await readText('room/clutches.csv'), sameText);
    provider.dispose();
  });
});
