import { strictEqual, ok } from 'node:assert/strict';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

/** Ages on 10 June 2026: from 8 June, from 11 May. */
const clutches = 'clutch,pair,tank,spawned,age_days\nA1,P1,T1,2026-06-08,\nA2,P1,T1,2026-05-11,\n';
const pairs = 'pair,species,clutches\r\nP1,guppy,\r\n';
const kept = 'clutch,species,tank,spawned,age_days\nA1,angelfish,T1,2026-06-08,two days\nA2,angelfish,T1,2026-05-11,a month\n';
const mixed = 'clutch,species,tank,spawned,age_days\r\nA1,angelfish,T1,2026-06-08,\nA2,angelfish,T1,2026-05-11,\r\n';

describe('filling', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room'] });
    write('site/fishroom.json', '{"name": "Site"}');
    write('site/pairs.csv', pairs);
    write('site/clutches.csv', clutches);
    write('hand/clutches.csv', kept);
    write('mixed/clutches.csv', mixed);
    write('broken/clutches.csv', `<<<<<<< mine\n${clutches}`);
    write('broken/pairs.csv', pairs);
    write('notes.csv', 'a,b\n');
    await workbench.showProblems('notes');
  });
  after(() => workbench.close());

  const write = (/** @type {string} */ path, /** @type {string} */ text) => {
    mkdirSync(join(workbench.folder, path, '..'), { recursive: true });
    writeFileSync(join(workbench.folder, path), text);
  };
  const dialog = () => workbench.page.locator('.monaco-dialog-box');
  const answer = async (/** @type {string} */ name) => {
    await dialog().locator('.monaco-button', { hasText: name }).click();
    await dialog().waitFor({ state: 'hidden' });
  };
  const line = async (/** @type {string} */ text) => await workbench.page.locator('.editor-group-container.active .view-line', { hasText: text }).first().waitFor();
  /** Files of one name are told apart by their folder. */
  const open = async (/** @type {string} */ folder, /** @type {string} */ name) => {
    const input = workbench.page.locator('.quick-input-widget input.input');
    await workbench.page.keyboard.press('Control+P');
    await input.fill(`${folder}/${name}`);
    await workbench.page.locator('.quick-input-list .monaco-list-row.focused', { hasText: `${name}${folder}` }).waitFor();
    await workbench.page.keyboard.press('Enter');
    await workbench.inEditorOf(`${folder}/${name}`);
  };

  it('of a fishroom lists its files first, then changes and saves those that stay ticked, and one undo takes it back', async () => {
    await open('site', 'fishroom.json');
    await workbench.page.keyboard.press('F1');
    const input = workbench.page.locator('.quick-input-widget input.input');
    await input.fill('>Broodsheet: Fill the fishroom');
    await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Fill the fishroom' }).first().waitFor();
    await workbench.page.keyboard.press('Enter');
    const rows = workbench.page.locator('.quick-input-widget.show-checkboxes .quick-input-list .monaco-list-row, .quick-input-list .monaco-list-row:has(input[type=checkbox], .monaco-checkbox)');
    await rows.nth(1).waitFor();
    strictEqual((await workbench.page.locator('.quick-input-title').innerText()).trim(), 'Fill Site');
    const offers = (await rows.allInnerTexts()).map((row) => row.replaceAll(/\s+/g, ' ').trim());
    strictEqual(offers.join('; '), 'clutches.csv2 cells: age_days (2); pairs.csv1 cell: clutches');
    strictEqual(await workbench.readFile('site/clutches.csv'), clutches);
    await workbench.page.keyboard.press('Enter');
    // First, since it goes again after a while.
    await workbench.page.locator('.statusbar-item', { hasText: 'Site: 3 cells filled, in 2 files.' }).waitFor();
    await workbench.holds('site/clutches.csv', clutches.replace('06-08,', '06-08,2').replace('05-11,', '05-11,30'));
    await workbench.holds('site/pairs.csv', pairs.replace('guppy,', 'guppy,2'));
    strictEqual(await workbench.page.locator('.tab.dirty').count(), 0);
    strictEqual(await workbench.page.locator('.tab').count(), 1);

    await open('site', 'clutches.csv');
    await workbench.undo();
    await workbench.page.locator('.tab.dirty', { hasText: 'pairs.csv' }).waitFor();
    await workbench.shows(clutches);
    await workbench.command('File: Save All Files');
    await workbench.holds('site/clutches.csv', clutches);
    await workbench.holds('site/pairs.csv', pairs);
  });

  it('leaves columns that were kept by hand unless the keeper agrees', async () => {
    await open('hand', 'clutches.csv');
    await workbench.command('Broodsheet: Fill this sheet');
    await dialog().waitFor();
    ok((await dialog().innerText()).includes('age_days (2)'), await dialog().innerText());
    await answer('Cancel');
    await workbench.shows(kept);
    await workbench.command('Broodsheet: Fill this sheet');
    await answer('Leave Them, Fill the Rest');
    await workbench.shows(kept);
    await workbench.command('Broodsheet: Fill this sheet');
    await answer('Replace');
    await line('06-08,2');
    await workbench.shows(kept.replace('two days', '2').replace('a month', '30'));
    await workbench.undo();
    await line('two days');
    await workbench.shows(kept);
  });

  it('asks before it changes a file whose line ends VS Code would rewrite', async () => {
    await open('mixed', 'clutches.csv');
    await workbench.command('Broodsheet: Fill this sheet');
    await dialog().waitFor();
    ok((await dialog().innerText()).includes('mixes kinds of line ends'), await dialog().innerText());
    await answer('Cancel');
    strictEqual(await workbench.page.locator('.tab.dirty').count(), 0);
    await workbench.command('Broodsheet: Fill this sheet');
    await answer('Change It');
    await line('06-08,2');
    strictEqual(await workbench.readFile('mixed/clutches.csv'), mixed);
    await workbench.undo();
    await workbench.command('File: Revert File');
  });

  it('leaves alone what comes from a sheet that can not be read, and says so', async () => {
    await open('broken', 'pairs.csv');
    await workbench.command('Broodsheet: Fill this sheet');
    await workbench.page.locator('.notifications-toasts', { hasText: "clutches.csv can't be read, so what pairs.csv takes from it is left as it is." }).waitFor();
    strictEqual(await workbench.page.locator('.tab.dirty').count(), 0);
  });

  it('says in plain words where it can not be', async () => {
    await workbench.openFile('notes.csv');
    await workbench.command('Broodsheet: Fill this sheet');
    await workbench.page.locator('.notifications-toasts', { hasText: 'The active editor shows no sheet of a fishroom.' }).waitFor();
  });
});
