import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, makeFolder, openFile, removeFolder } from './room';
import { eventually, uriOf, writeText } from './support';

const path = 'coloured/clutches.csv';
const text = 'clutch,species,tank,spawned,note,age_days\r\nK1,kribensis,T1,2026-06-08,"two\r\nlines",2\r\nK2,kribensis,T1,2026-06-01,,9\r\n';

describe('colours by column', () => {
  before(async () => {
    await makeFolder('coloured');
    await writeText(path, text);
    await eventually('the fishroom to be read', async () => {
      await idle();
      return (await tokensIn(new vscode.Range(0, 0, 9, 0))) !== undefined;
    });
  });
  afterEach(async () => {
    await vscode.workspace.getConfiguration('broodsheet').update('colourColumns', undefined, vscode.ConfigurationTarget.Workspace);
  });
  after(async () => removeFolder('coloured'));

  it('are given for the header and the rows that are asked for, line by line, computed ones apart', async () => {
    const header = ['Column1 clutch', 'Column2 species', 'Column3 tank', 'Column4 spawned', 'Column5 note', 'Computed age_days'];
    deepStrictEqual(await tokensIn(new vscode.Range(1, 0, 2, 8)), [...header, 'Column1 K1', 'Column2 kribensis', 'Column3 T1', 'Column4 2026-06-08', 'Column5 "two', 'Column5 lines"', 'Computed 2']);
    deepStrictEqual(await tokensIn(new vscode.Range(3, 0, 3, 30)), [...header, 'Column1 K2', 'Column2 kribensis', 'Column3 T1', 'Column4 2026-06-01', 'Computed 9']);
  });

  it('are given whatever language another extension says the file has', async () => {
    const { document } = await openFile(path);
    const { languageId } = document;
    try {
      await vscode.languages.setTextDocumentLanguage(document, 'javascript');
      await idle();
      deepStrictEqual((await tokensIn(new vscode.Range(3, 0, 3, 30)))?.slice(6, 8), ['Column1 K2', 'Column2 kribensis']);
    } finally {
      await vscode.languages.setTextDocumentLanguage(document, languageId);
      await closeAll();
    }
  });

  it('are not given once they are switched off', async () => {
    await vscode.workspace.getConfiguration('broodsheet').update('colourColumns', false, vscode.ConfigurationTarget.Workspace);
    await eventually('them to go', async () => (await tokensIn(new vscode.Range(1, 0, 2, 0))) === undefined);
    await vscode.workspace.getConfiguration('broodsheet').update('colourColumns', true, vscode.ConfigurationTarget.Workspace);
    const tokens = await eventually('them to come back', async () => await tokensIn(new vscode.Range(3, 0, 3, 30)));
    strictEqual(tokens.length, 11);
  });

  it('are not given outside of fishrooms', async () => {
    await writeText('loose.csv', text);
    try {
      await idle();
      strictEqual(await tokensIn(new vscode.Range(0, 0, 2, 0), 'loose.csv'), undefined);
    } finally {
      await closeAll();
      await vscode.workspace.fs.delete(uriOf('loose.csv'), { useTrash: false });
    }
  });
});

/** The tokens as `Column1 K1`; undefined where nobody gives any. */
async function tokensIn(range: vscode.Range, of = path): Promise<readonly string[] | undefined> {
  const document = await vscode.workspace.openTextDocument(uriOf(of));
  await idle();
  const legend = await vscode.commands.executeCommand<vscode.SemanticTokensLegend | undefined>('vscode.provideDocumentRangeSemanticTokensLegend', document.uri, range);
  const tokens = await vscode.commands.executeCommand<vscode.SemanticTokens | undefined>('vscode.provideDocumentRangeSemanticTokens', document.uri, range);
  if (legend === undefined || tokens === undefined || tokens.data.length === 0) return undefined;
  const found: string[] = [];
  let [line, character] = [0, 0];
  for (let i = 0; i < tokens.data.length; i += 5) {
    const [lines = 0, characters = 0, length = 0, type = 0] = tokens.data.slice(i, i + 4);
    [line, character] = lines > 0 ? [line + lines, characters] : [line, character + characters];
    ok(length > 0);
    found.push(`${legend.tokenTypes[type]?.replace('broodsheet', '') ?? ''} ${document.getText(new vscode.Range(line, character, line, character + length))}`);
  }
  return found;
}
