import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, openFile, replaceText } from './room';
import { eventually, uriOf } from './support';

describe('the outline', () => {
  afterEach(closeAll);

  const outline = async (path: string): Promise<vscode.DocumentSymbol[]> => (await vscode.commands.executeCommand<vscode.DocumentSymbol[] | undefined>('vscode.executeDocumentSymbolProvider', uriOf(path))) ?? [];

  it('lists the rows of a register below its header, with species and stage, as they are typed', async () => {
    await idle();
    const { document } = await openFile('room/clutches.csv');
    const [sheet, ...others] = await outline('room/clutches.csv');
    strictEqual(others.length, 0);
    ok(sheet);
    deepStrictEqual([sheet.name, sheet.selectionRange.start.line, sheet.range.end.line], ['2 rows', 0, document.lineCount - 1]);
    deepStrictEqual(sheet.children.map(({ name, detail, range }) => `${range.start.line} ${name} ${detail}`), ['1 K1 angelfish · juvenile', '2 K2 angelfish · egg']);
    await replaceText(document, 'K2,P1,T03', 'K9,P1,T03');
    deepStrictEqual((await outline('room/clutches.csv'))[0]?.children.map(({ name }) => name), ['K1', 'K9']);
  });

  it('lists the rows of a log by time and event', async () => {
    await idle();
    await openFile('three-rooms/clutches/KR3-3.csv');
    const [sheet] = await outline('three-rooms/clutches/KR3-3.csv');
    const names = sheet?.children.map(({ name }) => name) ?? [];
    ok(names.length > 0 && names.every((name) => /^~?2026-\d\d-\d\d\S* · \w+$/.test(name)), names.join('; '));
  });

  it('says nothing about files that are no sheets of a fishroom', async () => {
    const document = await vscode.workspace.openTextDocument({ language: 'plaintext', content: 'clutch,tank\nK1,T1\n' });
    await vscode.window.showTextDocument(document);
    const found = await vscode.commands.executeCommand<vscode.DocumentSymbol[] | undefined>('vscode.executeDocumentSymbolProvider', document.uri);
    deepStrictEqual(found ?? [], []);
  });
});

describe('symbols of the workspace', () => {
  it('are the things of all fishrooms, by name and by what else they are called', async () => {
    await idle();
    const find = async (query: string): Promise<readonly string[]> => {
      const found = await vscode.commands.executeCommand<vscode.SymbolInformation[]>('vscode.executeWorkspaceSymbolProvider', query);
      return found.map(({ name, containerName, location }) => `${name} | ${containerName} | ${location.uri.path.split('/').slice(-2).join('/')}:${location.range.start.line + 1}`);
    };
    const clutches = await eventually('the sample to be read', async () => {
      const found = await find('KR3-3');
      return found.length > 0 && found;
    });
    ok(clutches[0]?.startsWith('KR3-3 kribensis | Three rooms | three-rooms/clutches.csv:'), clutches.join('; '));
    const orders = await find('harbour');
    ok(orders.some((name) => name.startsWith('O25-1 shop at the harbour kribensis | Three rooms | three-rooms/orders.csv:2')), orders.join('; '));
  });
});
