import { deepStrictEqual, ok, strictEqual } from 'node:assert/strict';
import { openWorkbench } from '../ui.mjs';

describe('the Problems view', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room', 'messy'] });
  });
  after(() => workbench.close());

  it('shows what is wrong in the messy sample, in files that nobody opened', async () => {
    await workbench.showProblems('P1 is already taken');
    await workbench.problem('P1 is already taken by a row above.');
    const rows = await workbench.problemRows();
    ok(rows.some((row) => row.startsWith('pairs.csvmessy')), rows.join('\n'));
    ok(rows.some((row) => row.includes('Broodsheet id-duplicate') && row.includes('[Ln 6, Col 1]')), rows.join('\n'));
    await workbench.showProblems('celler');
    await workbench.problem("The room celler isn't in rooms.csv. Did you mean cellar?");
    await workbench.showProblems('merge');
    await workbench.problem('An unfinished merge left its marks here');
    await workbench.showProblems('never closed');
    await workbench.problem('This quotation mark is never closed');
  });

  it('shows a problem as it is typed and drops it as it is mended', async () => {
    await workbench.openFile('room/clutches.csv');
    await workbench.goTo(3, 10);
    await workbench.type('9');
    await workbench.showProblems('T039');
    await workbench.problem("The tank T039 isn't in tanks.csv. Did you mean T03?");
    await workbench.openFile('room/clutches.csv');
    await workbench.goTo(3, 11);
    await workbench.page.keyboard.press('Backspace');
    await workbench.noProblem('T039');
  });

  it('mends a problem by its quick fix', async () => {
    await workbench.openFile('room/pairs.csv');
    const before = await workbench.shownText();
    await workbench.goTo(2, 17);
    await workbench.type('5');
    await workbench.goTo(2, 15);
    await workbench.showProblems('T015');
    await workbench.problem('T015');
    await workbench.openFile('room/pairs.csv');
    await workbench.page.keyboard.press('Control+.');
    const list = workbench.page.locator('.action-widget', { hasText: 'Quick Fix' });
    await list.waitFor();
    await list.locator('.monaco-list-row', { hasText: 'Change to T01' }).click();
    await workbench.noProblem('T015');
    await workbench.shows(before);
    await workbench.page.keyboard.press('Control+Z');
    await workbench.page.locator('.view-line', { hasText: 'T015' }).waitFor();
  });

  it('has its clock in the status bar while that stands still', async () => {
    const setNow = (/** @type {string} */ now) => workbench.setSetting('broodsheet.now', now);
    const item = workbench.page.locator('.statusbar-item[id="broodsheet.broodsheet.broodsheet.clock"]');
    strictEqual((await item.innerText()).replaceAll(/[\s\u202f]+/g, ' ').trim(), 'Jun 10, 2026, 9:00 AM');
    setNow('soon');
    await workbench.page.locator('.statusbar-item', { hasText: 'Clock setting not understood' }).waitFor();
    setNow('');
    await item.waitFor({ state: 'hidden' });
    setNow('2026-06-10');
    await workbench.page.locator('.statusbar-item', { hasText: /Jun 10, 2026$/ }).waitFor();
  });

  it('asks nothing of the network', () => {
    deepStrictEqual([...workbench.outsideHosts], []);
  });
});
