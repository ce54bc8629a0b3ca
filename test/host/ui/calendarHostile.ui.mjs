import { deepStrictEqual, match, ok, strictEqual } from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { lookAt, openCalendar } from '../calendarPage.mjs';
import { openWorkbench } from '../ui.mjs';

const image = '<img src=x onerror=window.ran=1>';
const script = '</script><script>window.ran=2</script>';
const drawing = '"><svg onload=window.ran=3>';
const all = `${image}${script}${drawing}`;
/** A cell as a spreadsheet writes it. @param {string} text */
const cell = (text) => `"${text.replaceAll('"', '""')}"`;
/** @param {readonly (readonly string[])[]} rows */
const sheet = (rows) => rows.map((row) => `${row.map(cell).join(',')}\n`).join('');

/** Every column for words of the keeper's own holds what a browser could take for more than words. Names can't: a row with such a name counts for nothing. */
const files = {
  'fishroom.json': JSON.stringify({ name: all, timezone: 'Europe/Berlin' }),
  'rooms.csv': sheet([['room', 'name', 'note'], ['front', all, all], [`r${drawing}`, all, all]]),
  'tanks.csv': sheet([['tank', 'room', 'system', 'label', 'note'], ['T1', 'front', 'S1', all, all], ['T2', 'front', 'S1', all, all], [`U${drawing}`, 'front', all, all, all]]),
  'species.csv': sheet([['species', 'like', 'care', 'scientific_name', 'common_name', 'source'], ['blue', 'kribensis', 'cave', all, all, all]]),
  'pairs.csv': sheet([['pair', 'species', 'tank', 'formed', 'note'], ['P1', 'blue', 'T1', '2026-01-10', all]]),
  'clutches.csv': sheet([['clutch', 'pair', 'tank', 'spawned', 'note'], ['K1', 'P1', 'T1', '2026-06-01T10:00', all], ['L1', 'P1', 'T1', '2026-04-18T10:00', all], ['M1', 'P1', 'T2', '2026-06-09T10:00', all], [`K${drawing}`, 'P1', `T${image}`, '2026-06-01T10:00', all]]),
  'log.csv': sheet([['clutch', 'time', 'event', 'count', 'length_mm', 'note'], ['L1', '2026-04-21T10:00', 'hatched', '90', '', all], ['L1', '2026-04-28T10:00', 'free_swimming', '', '', all], ['L1', '2026-05-12T10:00', 'counted', '84', '9', all]]),
  'readings.csv': sheet([['time', 'tank', 'temp_c', 'note'], ['2026-06-01T10:00', 'T1', '26', all], ['2026-06-05T10:00', 'T1', '26.5', all]]),
  'maintenance.csv': sheet([['job', 'what', 'tanks', 'room', 'from', 'to', 'note'], ['J1', all, '', 'front', '2026-06-10', '2026-06-12', all]]),
  'orders.csv': sheet([['order', 'buyer', 'species', 'quantity', 'due', 'note'], ['O1', all, 'blue', '5', '2026-06-10', all]]),
  'routines.csv': sheet([['routine', 'action', 'level', 'about', 'anchor', 'offset', 'every', 'done_by'], ['gaze', all, 'warn', 'clutch', 'spawned', 'P1D', 'P2D', 'checked']]),
};

describe('a fishroom whose cells look like a page', () => {
  /** @type {import('../ui.mjs').Workbench} */ let workbench;
  /** @type {import('playwright-core').Frame} */ let frame;
  /** @type {string[]} */ const dialogs = [];
  before(async () => {
    workbench = await openWorkbench({ rooms: ['smallest'], inside: 'smallest' });
    workbench.page.on('dialog', (dialog) => {
      dialogs.push(dialog.message());
      void dialog.dismiss();
    });
    for (const [path, text] of Object.entries(files)) writeFileSync(join(workbench.folder, path), text);
    frame = await openCalendar(workbench);
    await frame.locator('.pane .item', { hasText: image }).first().waitFor();
  });
  after(() => workbench.close());

  /** Nothing of it has become a part of the page, and nothing ran. */
  const isText = async () => {
    deepStrictEqual(dialogs, []);
    strictEqual(await frame.locator('img, iframe, object, embed, body script:not([nonce]), svg:not(.chart-drawing, .chart-key svg), [onload], [onerror]').count(), 0);
    strictEqual(await frame.evaluate('window.ran'), undefined);
    strictEqual(await workbench.page.evaluate('window.ran'), undefined);
  };

  it('shows them as text in the month, the season and the list', async () => {
    for (const view of /** @type {const} */ (['month', 'strip', 'list'])) {
      await lookAt(frame, view);
      await isText();
      const shown = (await frame.locator('body').innerText()).replaceAll(/\s+/g, ' ');
      // A room, a job; in lists also the action of a routine and who has ordered.
      ok(shown.split(all).length - 1 >= { month: 6, strip: 2, list: 6 }[view], `${view}: ${shown.slice(0, 3000)}`);
      if (view !== 'strip') for (const text of [`${all} L1`, `leave for ${all}`, `${all} J1`]) ok(shown.includes(text), `${text} in the ${view}: ${shown.slice(0, 3000)}`);
    }
  });

  it('shows them as text in filters, in why, and in what is asked', async () => {
    await frame.locator('.filter summary').first().click();
    await isText();
    await frame.locator('.title').click();
    const gaze = frame.locator('.item', { hasText: image }).filter({ hasText: 'L1' }).first();
    await gaze.locator('.item-text').focus();
    await frame.locator('.foot .why-title', { hasText: all }).waitFor();
    await isText();
    await frame.locator('.item', { hasText: 'Count' }).locator('.deed').first().click();
    await frame.locator('.asked').waitFor();
    await isText();
    await workbench.page.keyboard.press('Escape');
  });

  it('shows them as text in the charts of a brood, a pair and a tank', async () => {
    await lookAt(frame, 'strip');
    await frame.locator('.foot .told vscode-button').first().click();
    for (const [name, said] of /** @type {const} */ ([['clutch:L1', 'Clutch L1'], ['tank:T1', 'Tank T1']])) {
      await frame.locator(`.strip-cell[data-target="${name}"]`).focus();
      await frame.locator('.pane', { hasText: said }).waitFor();
      await isText();
    }
    await lookAt(frame, 'list');
    for (let i = 0; i < 8 && (await frame.locator('.item', { hasText: 'P1' }).count()) === 0; i++) await frame.locator('.more-days').click();
    await frame.locator('.item', { hasText: 'P1' }).first().locator('.item-text').focus();
    await frame.locator('.pane', { hasText: 'P1' }).waitFor();
    await isText();
  });

  it('lets nothing in but its own script, style and font', async () => {
    const policy = await frame.evaluate(() => document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.getAttribute('content') ?? '');
    match(policy, /^default-src 'none'; script-src 'nonce-[\w-]+'; style-src [^;]+; font-src [^;]+;$/);
    // A script that came in all the same would not run.
    await frame.evaluate(() => {
      const element = document.createElement('script');
      element.textContent = 'window.ran = 4';
      document.body.append(element);
      element.remove();
    });
    await isText();
  });
});
