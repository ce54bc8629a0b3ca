import { deepStrictEqual, ok, rejects, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { diagnosticsOf, idle, makeFolder, openFile, removeFolder } from './room';
import { eventually, readText, uriOf, writeText } from './support';

const logs = Array.from({ length: 40 }, (_, i) => [`ids/clutches/2026/K${i}.csv`, `time,event,to_tank\n2026-06-0${1 + (i % 9)},moved,T2\n`] as const);
const clutches = `clutch,species,tank,spawned,note\r\n${logs.map((_, i) => `K${i},angelfish,"T1",2026-06-01,T1`).join('\r\n')}`;
const tanks = '\uFEFFtank;room;age\nT1;R1;"old ""T1"""\nT2;R1;\n';
const jobs = 'job,what,tanks,from,to\nM1,scrub,T2  T1,2026-07-20,2026-07-21\n';

/** Where a text stands in a document. */
function place(document: vscode.TextDocument, text: string): vscode.Position {
  const at = document.getText().indexOf(text);
  ok(at >= 0, text);
  return document.positionAt(at);
}

function shown(path: string, range: vscode.Range): string {
  return `${path.slice(path.indexOf('ids/') + 4)} ${range.start.line + 1}:${range.start.character + 1}-${range.end.character + 1}`;
}

describe('ids in the text', () => {
  beforeEach(async () => {
    await makeFolder('ids');
    await writeText('ids/clutches.csv', clutches);
    await writeText('ids/tanks.csv', tanks);
    await writeText('ids/maintenance.csv', jobs);
    await writeText('ids/tanks/T1.csv', 'time,temp_c\n2026-06-01,26\n');
    for (const [path, text] of logs) await writeText(path, text);
    // Last, so that the walk that finds the fishroom finds all of it.
    await writeText('ids/fishroom.json', '{"extra_columns": ["age"]}');
    await eventually('the fishroom to be read', async () => {
      await idle();
      await openFile('ids/tanks.csv');
      const found = await vscode.commands.executeCommand<vscode.Location[]>('vscode.executeReferenceProvider', uriOf('ids/tanks.csv'), new vscode.Position(2, 0));
      return found.length === logs.length + 2;
    });
  });
  afterEach(() => removeFolder('ids'));

  it('lead to their row, and the row to all that names it', async () => {
    const { document } = await openFile('ids/maintenance.csv');
    const [definition] = await vscode.commands.executeCommand<vscode.Location[]>('vscode.executeDefinitionProvider', document.uri, place(document, 'T1'));
    ok(definition);
    strictEqual(shown(definition.uri.path, definition.range), 'tanks.csv 2:1-3');
    const references = await vscode.commands.executeCommand<vscode.Location[]>('vscode.executeReferenceProvider', document.uri, place(document, 'T1'));
    const places = references.map(({ uri, range }) => shown(uri.path, range));
    deepStrictEqual(places.filter((found) => !found.startsWith('clutches.csv')).sort(), ['maintenance.csv 2:14-16', 'tanks.csv 2:1-3', 'tanks/T1.csv 1:1-1']);
    ok(places.includes('clutches.csv 2:15-17'), places[0]);
  });

  it('are marked where they are named in the sheet', async () => {
    const { document } = await openFile('ids/tanks.csv');
    const found = await vscode.commands.executeCommand<vscode.DocumentHighlight[]>('vscode.executeDocumentHighlights', document.uri, place(document, 'T2'));
    deepStrictEqual(found.map(({ range, kind }) => [shown(document.uri.path, range), kind]), [['tanks.csv 3:1-3', vscode.DocumentHighlightKind.Write]]);
  });

  it('get another name in all sheets and names of logs at once, and nothing else changes', async () => {
    const { document } = await openFile('ids/maintenance.csv');
    const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>('vscode.executeDocumentRenameProvider', document.uri, place(document, 'T1'), 'Rack-1');
    ok(await vscode.workspace.applyEdit(edit, { isRefactoring: true }));
    for (const open of vscode.workspace.textDocuments) if (open.isDirty) ok(await open.save());
    strictEqual(await readText('ids/clutches.csv'), clutches.replaceAll('"T1"', '"Rack-1"'));
    strictEqual(await readText('ids/tanks.csv'), tanks.replace('\nT1;', '\nRack-1;'));
    strictEqual(await readText('ids/maintenance.csv'), jobs.replace(' T1', ' Rack-1'));
    strictEqual(await readText('ids/tanks/Rack-1.csv'), 'time,temp_c\n2026-06-01,26\n');
    await rejects(Promise.resolve(vscode.workspace.fs.stat(uriOf('ids/tanks/T1.csv'))));
    await eventually('no log to be nobody\'s', () => !diagnosticsOf(uriOf('ids/tanks/Rack-1.csv')).some(({ code }) => code === 'log-orphan'));
  });

  it('get another name in many logs at once', async () => {
    const { document } = await openFile('ids/tanks.csv');
    const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>('vscode.executeDocumentRenameProvider', document.uri, place(document, 'T2'), 'T3');
    strictEqual(edit.entries().length, logs.length + 2);
    ok(await vscode.workspace.applyEdit(edit, { isRefactoring: true }));
    for (const open of vscode.workspace.textDocuments) if (open.isDirty) ok(await open.save());
    for (const [path, text] of logs) strictEqual(await readText(path), text.replace('T2', 'T3'));
  });

  it('keep their name where there is a reason, which is told', async () => {
    const { document } = await openFile('ids/tanks.csv');
    await rejects(
      Promise.resolve(vscode.commands.executeCommand('vscode.executeDocumentRenameProvider', document.uri, place(document, 'T2'), 't1')),
      /differs from T1 in tanks.csv only in capital letters/,
    );
    const prepared = await vscode.commands.executeCommand<{ readonly range: vscode.Range; readonly placeholder: string }>('vscode.prepareRename', document.uri, place(document, 'T2'));
    deepStrictEqual([shown(document.uri.path, prepared.range), prepared.placeholder], ['tanks.csv 3:1-3', 'T2']);
  });

  it('are of no interest outside of a fishroom', async () => {
    await makeFolder('foreign');
    await writeText('foreign/tanks.csv', 'tank,army\nT1,one\n');
    const { document } = await openFile('foreign/tanks.csv');
    await idle();
    deepStrictEqual(await vscode.commands.executeCommand('vscode.executeDefinitionProvider', document.uri, place(document, 'T1')), []);
    deepStrictEqual(await vscode.commands.executeCommand('vscode.executeReferenceProvider', document.uri, place(document, 'T1')), []);
    await removeFolder('foreign');
  });
});
