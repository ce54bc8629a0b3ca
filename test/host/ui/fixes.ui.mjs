import { match, ok, strictEqual } from 'node:assert/strict';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

const register = 'clutch,species,tank,spawned\nA1,angelfish,T1,2026-06-01T10:00\n';
const emptyLog = 'clutch,time,event\n';

describe('a quick fix that writes into another file', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['smallest'], inside: 'smallest' });
    write('fishroom.json', '{"timezone": "Europe/Berlin"}');
    write('log.csv', emptyLog);
    write('clutches.csv', register);
    await workbench.showProblems('A1');
    await workbench.problem('A1: Hatched, gone, or not known?');
  });
  after(() => workbench.close());

  const write = (/** @type {string} */ path, /** @type {string} */ text) => {
    mkdirSync(join(workbench.folder, path, '..'), { recursive: true });
    writeFileSync(join(workbench.folder, path), text);
  };
  const tab = (/** @type {string} */ name, /** @type {string} */ state) => workbench.page.locator(`.tab${state}`, { hasText: name }).waitFor();
  const warnings = (/** @type {string} */ count) => workbench.page.locator(`.statusbar-item[id="status.problems"][aria-label="${count}"]`).waitFor();
  /** By keys alone, as with the other hand in the tank. @param {string} title */
  const take = async (title) => {
    const { page } = workbench;
    await page.keyboard.press('Control+.');
    await page.locator('.action-widget .monaco-list-row', { hasText: title }).first().waitFor();
    for (let i = 0; i < 20; i += 1) {
      if ((await page.locator('.action-widget .monaco-list-row.focused').innerText()).includes(title)) break;
      await page.keyboard.press('ArrowDown');
    }
    await page.locator('.action-widget .monaco-list-row.focused', { hasText: title }).waitFor();
    await page.keyboard.press('Enter');
  };

  it('shows the row there, unsaved, and one undo takes it back', async () => {
    await workbench.openFile('clutches.csv');
    await warnings('Warnings: 1');
    await workbench.page.keyboard.press('F8');
    await workbench.page.locator('.zone-widget', { hasText: 'A1: Hatched, gone, or not known?' }).waitFor();
    await take('Record hatched now');
    await tab('log.csv', '.active.dirty');
    await workbench.page.locator('.statusbar-item', { hasText: 'Ln 2, Col 28' }).waitFor();
    await workbench.shows(`${emptyLog}A1,2026-06-10T09:00,hatched\n`);
    strictEqual(await workbench.readFile('log.csv'), emptyLog);
    await warnings('No Problems');
    await workbench.undo();
    await tab('log.csv', '.active:not(.dirty)');
    await warnings('Warnings: 1');
    await workbench.shows(emptyLog);
  });

  it('shows a file that it makes, and one undo takes the file away', async () => {
    const path = join(workbench.folder, 'routines.csv');
    await workbench.openFile('clutches.csv');
    await workbench.goTo(2, 1);
    await take('Never ask for hatch again with angelfish');
    await tab('routines.csv', '.active:not(.dirty)');
    await warnings('No Problems');
    match(await workbench.readFile('routines.csv'), /^hatch,.*,clutch,,angelfish,.*,yes$/m);
    ok(existsSync(path));
    await workbench.undo();
    await workbench.page.locator('.tab', { hasText: 'routines.csv' }).waitFor({ state: 'detached' });
    await warnings('Warnings: 1');
    strictEqual(existsSync(path), false);
  });
});
