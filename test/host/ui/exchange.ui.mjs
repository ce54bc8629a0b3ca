import { deepStrictEqual, match, ok, strictEqual } from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

describe('what leaves the house', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['three-rooms'] });
  });
  after(() => workbench.close());

  const box = () => workbench.page.locator('.quick-input-widget');
  const asked = (/** @type {string} */ question) => box().locator(`input[placeholder="${question}"]`).waitFor();
  const path = (/** @type {string} */ name) => join(workbench.folder, 'three-rooms', name);
  /** Takes the place that is offered for the file. */
  const saveHere = async (/** @type {RegExp} */ offered) => {
    const name = box().locator('input.input');
    await workbench.page.waitForFunction((/** @type {string} */ source) => new RegExp(source).test(/** @type {HTMLInputElement | null} */ (document.querySelector('.quick-input-widget input.input'))?.value ?? ''), offered.source);
    match(await name.inputValue(), offered);
    await workbench.page.keyboard.press('Enter');
  };
  const written = async (/** @type {string} */ name) => {
    for (let attempt = 0; attempt < 300 && !existsSync(path(name)); attempt += 1) await workbench.page.waitForTimeout(100);
    return readFileSync(path(name), 'utf8');
  };

  it('is, as a calendar file, asked for in two steps by keyboard', async () => {
    await workbench.command('Broodsheet: Export for the phone calendar', { asks: true });
    await asked('Untick what should not be in it');
    ok((await box().locator('.quick-input-list .monaco-list-row').count()) > 10);
    await workbench.page.keyboard.press('Enter');
    await saveHere(/three-rooms\/Three-rooms\.ics$/);
    const text = await written('Three-rooms.ics');
    match(text, /^BEGIN:VCALENDAR\r\n/);
    match(text, /\r\nSUMMARY:Feed: /);
  });

  it('is of one kind alone when only that is ticked', async () => {
    rmSync(path('Three-rooms.ics'));
    await workbench.command('Broodsheet: Export for the phone calendar', { asks: true });
    await asked('Untick what should not be in it');
    // The box above the list ticks and unticks all.
    await box().locator('.quick-input-check-all, .quick-input-header input[type=checkbox], .quick-input-header .monaco-checkbox').first().click();
    await box().locator('.quick-input-count', { hasText: /^0/ }).waitFor();
    await workbench.type('Hatch');
    await box().locator('.quick-input-list .monaco-list-row', { hasText: 'Hatch' }).first().click();
    await box().locator('.quick-input-count', { hasText: '1' }).waitFor();
    await workbench.page.keyboard.press('Enter');
    await saveHere(/three-rooms\/Three-rooms\.ics$/);
    // Where no room is ticked none was meant to be left out.
    const kinds = new Set((await written('Three-rooms.ics')).match(/^CATEGORIES:.*$/gm));
    deepStrictEqual([...kinds], ['CATEGORIES:Hatch']);
  });

  it('is, as a day sheet, asked for in two steps by keyboard', async () => {
    await workbench.command('Broodsheet: Day sheet', { asks: true });
    await asked('For which days?');
    await workbench.type('Until Thursday, 2026-06-11');
    await workbench.page.locator('.quick-input-list .monaco-list-row.focused', { hasText: 'Until Thursday, 2026-06-11' }).waitFor();
    await workbench.page.keyboard.press('Enter');
    await saveHere(/three-rooms\/Day-sheet-2026-06-10\.html$/);
    const page = await written('Day-sheet-2026-06-10.html');
    match(page, /^<!DOCTYPE html>\n/);
    match(page, /<h1>For whoever minds the room<\/h1>/);
  });

  it('is not written over what is another’s, until the keeper says so', async () => {
    writeFileSync(path('Three-rooms.ics'), 'my own notes\n');
    await workbench.command('Broodsheet: Export for the phone calendar', { asks: true });
    await asked('Untick what should not be in it');
    await workbench.page.keyboard.press('Enter');
    await saveHere(/three-rooms\/Three-rooms\.ics$/);
    // VS Code asks first whether a file that is there is meant.
    const yes = workbench.page.locator('.quick-input-widget .monaco-button, .monaco-dialog-box .monaco-button', { hasText: /^(Yes|OK|Replace)$/ }).first();
    await yes.waitFor();
    await yes.click();
    const dialog = workbench.page.locator('.monaco-dialog-box', { hasText: 'which was not written by Broodsheet for this' });
    await dialog.waitFor();
    await dialog.locator('.monaco-button', { hasText: 'Cancel' }).click();
    await dialog.waitFor({ state: 'hidden' });
    strictEqual(readFileSync(path('Three-rooms.ics'), 'utf8'), 'my own notes\n');
    ok(!readdirSync(join(workbench.folder, 'three-rooms')).some((name) => name.endsWith('.tmp')));
  });
});
