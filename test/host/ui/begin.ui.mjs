import { deepStrictEqual, match, ok, strictEqual } from 'node:assert/strict';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

describe('a new fishroom', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room'] });
  });
  after(() => workbench.close());

  const box = () => workbench.page.locator('.quick-input-widget');
  /** Types an answer to the question that is waited for. */
  const answer = async (/** @type {string | RegExp} */ question, /** @type {string} */ text) => {
    await box().locator('.quick-input-message, input.input').filter({ hasText: question }).or(box().locator(`input[placeholder="${question}"]`)).first().waitFor();
    await workbench.type(text);
    await workbench.page.keyboard.press('Enter');
  };
  const choose = async (/** @type {string} */ question, /** @type {string} */ typed, /** @type {string} */ row) => {
    await box().locator(`input[placeholder="${question}"]`).waitFor();
    if (typed !== '') await workbench.type(typed);
    await workbench.page.locator('.quick-input-list .monaco-list-row.focused', { hasText: row }).waitFor();
    await workbench.page.keyboard.press('Enter');
  };

  it('left half way writes nothing', async () => {
    await workbench.command('Broodsheet: New fishroom', { asks: true });
    await answer('What is the fishroom called?', 'Cellar');
    await box().locator('input[placeholder="Where should its files lie?"]').waitFor();
    await workbench.page.keyboard.press('Escape');
    await box().waitFor({ state: 'hidden' });
    deepStrictEqual(readdirSync(workbench.folder).filter((name) => !name.startsWith('.')), ['room']);
  });

  it('is begun by keyboard, question by question, and the register of clutches is open then', async () => {
    await workbench.command('Broodsheet: New fishroom', { asks: true });
    await answer('What is the fishroom called?', 'Old cellar');
    await choose('Where should its files lie?', 'new folder', 'In a new folder old-cellar');
    await choose('On which clock does the room run?', 'Warsaw', 'Europe/Warsaw');
    await answer('Which rooms are there?', 'Front room, B2');
    await box().locator('input[placeholder^="Which of these species"]').waitFor();
    await workbench.type('krib');
    await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Kribensis' }).first().waitFor();
    await workbench.page.keyboard.press('ArrowDown');
    await workbench.page.keyboard.press('Space');
    await workbench.page.locator('.quick-input-widget .quick-input-count', { hasText: '1' }).waitFor();
    await workbench.page.keyboard.press('Enter');
    await answer('Which species that were not in the list?', 'Red betta');
    await choose('How does Red betta breed?', 'bubbles', 'Eggs in a nest of bubbles');
    await choose('Should you be reminded to test the water?', 'Remind', 'Remind me of water tests');
    await workbench.page.locator('.tab.active', { hasText: 'clutches.csv' }).waitFor();
    const read = (/** @type {string} */ name) => workbench.readFile(join('old-cellar', name));
    deepStrictEqual(JSON.parse(await read('fishroom.json')), { name: 'Old cellar', timezone: 'Europe/Warsaw' });
    strictEqual(await read('rooms.csv'), 'room,name,note,tanks,open_clutches,overdue\nfront-room,Front room,,0,0,0\nB2,,,0,0,0\n');
    match(await read('species.csv'), /\nkribensis,,,,.*\nred-betta,,Red betta,bubble-nest,/);
    match(await read('routines.csv'), /\ntest-water,Test the water,tank,,no\n/);
  });

  it('takes its first clutch: a short row, and the quick fix that makes it whole', async () => {
    await workbench.goTo(2, 1);
    await workbench.type('K1,,kribensis,T1,2026-06-08');
    await workbench.showProblems('old-cellar');
    await workbench.problem('This row has 5 cells');
    await workbench.openFile('old-cellar/clutches.csv');
    await workbench.page.keyboard.press('Control+.');
    await workbench.page.locator('.action-widget .monaco-list-row', { hasText: 'Add 19 empty cells' }).first().waitFor();
    await workbench.page.keyboard.press('Enter');
    await workbench.noProblem('This row has 5 cells');
    await workbench.command('Broodsheet: Fill this sheet');
    await workbench.page.locator('.view-line', { hasText: ',2,egg,' }).first().waitFor();
    ok((await workbench.shownText()).includes('K1,,kribensis,T1,2026-06-08,,,,,,,,2,egg,'), await workbench.shownText());
  });

  it('colours the columns, each unlike its neighbours, in every theme that VS Code comes with', async () => {
    for (const [theme, mark] of Object.entries({ 'Default Light Modern': 'vs', 'Default Dark Modern': 'vs-dark', 'Default High Contrast': 'hc-black', 'Default High Contrast Light': 'hc-light' })) {
      workbench.setSetting('workbench.colorTheme', theme);
      await workbench.page.locator(`.monaco-workbench.${mark}`).waitFor();
      const header = workbench.page.locator('.editor-group-container.active .view-line', { hasText: 'clutch,pair,species' }).first();
      for (const cell of ['clutch', 'note']) await header.locator('span[class*=mtk]').filter({ hasText: new RegExp(`^${cell}$`) }).first().waitFor();
      const cells = await header.locator('span[class*=mtk]').evaluateAll((spans) =>
        spans.map((span) => ({ text: span.textContent ?? '', colour: span.ownerDocument.defaultView?.getComputedStyle(span).color })).filter(({ text }) => text !== ','),
      );
      const own = cells.slice(0, 12);
      deepStrictEqual(own.map(({ text }) => text), ['clutch', 'pair', 'species', 'tank', 'spawned', 'eggs', 'hatched', 'free_swimming', 'ended', 'outcome', 'accept', 'note'], theme);
      const quiet = header.locator('span[class*=ced]', { hasText: 'age_days' }).last();
      strictEqual(await quiet.evaluate((span) => span.ownerDocument.defaultView?.getComputedStyle(span).opacity), '0.72', theme);
      for (let i = 1; i < own.length; i++) ok(own[i]?.colour !== own[i - 1]?.colour, `${theme}: ${JSON.stringify(own)}`);
    }
  });

  it('keeps the colours of the header that stays in sight of a sheet which a problem opens far down', async () => {
    const rows = Array.from({ length: 200 }, (_, i) => `A${i},${i === 150 ? 'attic' : 'B2'},rearing`);
    writeFileSync(join(workbench.folder, 'old-cellar/tanks.csv'), `tank,room,use\n${rows.join('\n')}\n`);
    await workbench.showProblems('attic');
    await (await workbench.problem('attic')).dblclick();
    await workbench.inEditorOf('old-cellar/tanks.csv');
    const header = workbench.page.locator('.sticky-line-content', { hasText: 'tank,room,use' }).first();
    for (const cell of ['tank', 'room', 'use']) await header.locator('span[class*=mtk]').filter({ hasText: new RegExp(`^${cell}$`) }).first().waitFor();
    await workbench.page.locator('.view-line', { hasText: 'A150,attic' }).first().locator('span[class*=mtk]').filter({ hasText: /^attic$/ }).first().waitFor();
  });
});
