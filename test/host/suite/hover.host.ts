import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import * as vscode from 'vscode';
import { closeAll, idle, makeFolder, openFile, removeFolder } from './room';
import { eventually, uriOf, writeText } from './support';

const evil = '<img src=x onerror=alert(1)> [x](command:workbench.action.quit)';
const log = 'time,event,photo\n2026-06-09,checked,../pictures/k1.png\n2026-06-08,checked,https://example.org/k1.png\n2026-06-08,fed,command:x\n2026-06-08,fed,../../../../../../outside.png\n';

async function hoverOf(document: vscode.TextDocument, text: string): Promise<vscode.Hover[]> {
  const at = document.getText().indexOf(text);
  ok(at >= 0, text);
  const found = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, document.positionAt(at));
  return found.filter(({ contents }) => contents.some((content) => content instanceof vscode.MarkdownString && content.value !== ''));
}

function markdown(hovers: readonly vscode.Hover[]): string {
  return hovers.flatMap(({ contents }) => contents.map((content) => (content instanceof vscode.MarkdownString ? content.value : ''))).join('\n');
}

describe('pointing at', () => {
  before(async () => {
    await makeFolder('hover');
    await writeText('hover/orders.csv', `order,species,quantity,due,buyer\nO1,angelfish,10,2026-07-01,"${evil}"\n`);
    await writeText('hover/clutches/K1.csv', log);
    await writeText('hover/clutches.csv', 'clutch,species,tank,spawned,age_days\nK1,angelfish,T1,2026-06-08,2\n');
    await writeText('hover/fishroom.json', '{}');
    await eventually('the fishroom to be read', async () => {
      await idle();
      const { document } = await openFile('hover/clutches.csv');
      return markdown(await hoverOf(document, 'K1')).includes('clutches/K1');
    });
  });
  after(() => removeFolder('hover'));
  afterEach(closeAll);

  it('an id shows its card with links to its row and log, and its last picture from the open folder', async () => {
    const { document } = await openFile('hover/clutches.csv');
    const [hover, ...others] = await hoverOf(document, 'K1');
    ok(hover);
    strictEqual(others.length, 0);
    deepStrictEqual([hover.range?.start.character, hover.range?.end.character], [0, 2]);
    const text = markdown([hover]);
    ok(text.includes(`](${uriOf('hover/clutches.csv').with({ fragment: 'L2,1' }).toString()})`), text);
    ok(text.includes(`](${uriOf('hover/clutches/K1.csv').with({ fragment: 'L1,1' }).toString()})`), text);
    ok(text.includes(`](${uriOf('hover/pictures/k1.png').toString()}|height=160)`), text);
  });

  it('a name of a column or a computed cell tells about it', async () => {
    const { document } = await openFile('hover/clutches.csv');
    ok(markdown(await hoverOf(document, 'spawned')).startsWith('**Spawned**'));
    const found = await vscode.commands.executeCommand<vscode.Hover[]>('vscode.executeHoverProvider', document.uri, new vscode.Position(1, 28));
    ok(markdown(found).startsWith('**Age\\: 2 d**'), markdown(found));
  });

  it('what stands in a record shows it as text', async () => {
    const { document } = await openFile('hover/orders.csv');
    const [hover] = await hoverOf(document, 'O1');
    ok(hover);
    const [content] = hover.contents;
    ok(content instanceof vscode.MarkdownString);
    deepStrictEqual([content.isTrusted ?? false, content.supportHtml ?? false], [false, false]);
    ok(content.value.replaceAll('\u00a0', ' ').includes('\\<img src\\=x onerror\\=alert\\(1\\)\\> \\[x\\]\\(command\\:workbench\\.action\\.quit\\)'), content.value);
  });

  it('a photo gives a link to an address or to a file of the open folder, and to nothing else', async () => {
    const { document } = await openFile('hover/clutches/K1.csv');
    const links = await vscode.commands.executeCommand<vscode.DocumentLink[]>('vscode.executeLinkProvider', document.uri);
    deepStrictEqual(links.map(({ target }) => target?.toString()), [uriOf('hover/pictures/k1.png').toString(), 'https://example.org/k1.png']);
    deepStrictEqual(links.map(({ range }) => [range.start.line, range.start.character, range.end.character]), [[1, 19, 37], [2, 19, 45]]);
  });

  it('anything outside of a fishroom shows nothing', async () => {
    await makeFolder('plain');
    await writeText('plain/log.csv', log);
    const { document } = await openFile('plain/log.csv');
    await idle();
    deepStrictEqual(await hoverOf(document, 'checked'), []);
    await removeFolder('plain');
  });
});
