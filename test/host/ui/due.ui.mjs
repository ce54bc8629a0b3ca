// The view of what is due: by pointer and by keys, in the workbench.
import { ok, strictEqual } from 'node:assert/strict';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

describe('the view of what is due', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;

  before(async () => {
    workbench = await openWorkbench({ rooms: ['three-rooms'], inside: 'three-rooms' });
  });
  after(() => workbench.close());

  /** A line of the tree. @param {string} text */
  const line = (text) => workbench.page.locator('.pane-body .monaco-list-row', { hasText: text }).first();

  it('opens from the status bar, which says how much is overdue, as the icon of the view does', async () => {
    await workbench.page.locator('.statusbar-item', { hasText: '2 overdue, 6 due today' }).click();
    await line('Front room').waitFor();
    await workbench.page.locator('.activitybar .action-item', { has: workbench.page.locator('[aria-label*="2 overdue"], .badge-content:text("2")') }).first().waitFor();
    await line('T03 KR3-3').waitFor();
    ok((await line('T03 KR3-3').innerText()).includes('14 days late'));
  });

  it('asks for the count in place, writes the row, and the line goes', async () => {
    const before = await workbench.readFile('clutches/BE1-5.csv');
    await line('T08 BE1-5').hover();
    await line('T08 BE1-5').locator('a.action-label[aria-label="Done"]').click();
    const input = workbench.page.locator('.quick-input-widget input.input');
    await input.waitFor();
    await input.fill('31');
    await workbench.page.keyboard.press('Enter');
    await line('T08 BE1-5').waitFor({ state: 'detached' });
    const after = await workbench.readFile('clutches/BE1-5.csv');
    ok(after.startsWith(before), after);
    const [head = '', ...rows] = after.trimEnd().split('\n');
    const cells = (rows.at(-1) ?? '').split(',');
    const cell = (/** @type {string} */ header) => cells[head.split(',').indexOf(header)];
    strictEqual([cell('time'), cell('event'), cell('count')].join(' '), '2026-06-10T09:00 counted 31');
    await workbench.page.locator('.statusbar-item', { hasText: '2 overdue, 5 due today' }).waitFor();
  });

  it('gives all back that was written', async () => {
    const before = await workbench.readFile('clutches/BE1-5.csv');
    await workbench.command('Broodsheet: Take back');
    await line('T08 BE1-5').waitFor();
    const after = await workbench.readFile('clutches/BE1-5.csv');
    ok(before.startsWith(after) && before !== after, after);
  });

  it('is gone through by keys alone: Enter opens the row beside, the menu of a line has all that can be done', async () => {
    const { keyboard } = workbench.page;
    await workbench.command('Broodsheet: Focus on Due View');
    await workbench.page.locator('.pane-body .monaco-list.focused, .pane-body .monaco-list:focus').first().waitFor();
    await keyboard.press('Home');
    // Room, overdue, its line, today, the feeding, the first that is due.
    for (let i = 0; i < 5; i++) await keyboard.press('ArrowDown');
    await workbench.page.locator('.pane-body .monaco-list-row.focused', { hasText: 'T08 BE1-5' }).waitFor();
    await keyboard.press('Shift+F10');
    await workbench.page.locator('.context-view .action-label', { hasText: 'Done' }).waitFor();
    await keyboard.press('Escape');
    await workbench.page.locator('.context-view .action-label').first().waitFor({ state: 'detached' });
    await workbench.page.locator('.pane-body .monaco-list-row.focused', { hasText: 'T08 BE1-5' }).waitFor();
    await keyboard.press('Enter');
    await workbench.page.locator('.tab.active', { hasText: 'clutches.csv' }).waitFor();
    await workbench.page.locator('.editor-instance .view-line', { hasText: 'BE1-5' }).first().waitFor();
  });

  it('shows the rooms alone that are chosen', async () => {
    await workbench.command('Broodsheet: Choose the rooms of what is due', { asks: true });
    await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Front room' }).waitFor();
    // All are ticked: the box above unticks them, so that one can be chosen.
    await workbench.page.locator('.quick-input-widget .quick-input-check-all, .quick-input-widget .quick-input-header .monaco-checkbox').first().click();
    await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Cellar' }).click();
    await workbench.page.keyboard.press('Enter');
    await line('Front room').waitFor({ state: 'detached' });
    await line('Cellar').waitFor();
    await workbench.page.locator('.statusbar-item', { hasText: '1 overdue' }).waitFor();
  });

  it('says what would be here where there is no fishroom', async () => {
    for (const file of ['fishroom.json', 'clutches.csv', 'tanks.csv']) rmSync(join(workbench.folder, file));
    await workbench.page.locator('.pane-body .welcome-view-content', { hasText: 'as soon as a fishroom is open' }).waitFor();
    await workbench.page.locator('.pane-body .welcome-view-content .monaco-button', { hasText: 'New fishroom' }).waitFor();
    strictEqual(await workbench.page.locator('.statusbar-item', { hasText: 'due today' }).count(), 0);
  });

  it('says which sheet can not be read instead of looking as if all were done', async () => {
    writeFileSync(join(workbench.folder, 'fishroom.json'), '{}');
    writeFileSync(join(workbench.folder, 'clutches.csv'), '<<<<<<< mine\nclutch,species,tank,spawned\n');
    await workbench.page.locator('.pane-body .message', { hasText: "clutches.csv can't be read, so nothing of it is here. The Problems view says why." }).waitFor();
    await workbench.page.locator('.statusbar-item', { hasText: "clutches.csv can't be read, 0 due today" }).waitFor();
  });
});
