import { ok, strictEqual } from 'node:assert/strict';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openWorkbench } from '../ui.mjs';

const pairs = 'pair,species,tank\nP1,angelfish,T1\nP2,angelfish,T2\n';
const clutches = 'clutch;pair;species;tank;spawned;ended;outcome\nP1-7;P1;;T1;2026-06-01;;\n';

describe('recording with wet hands', () => {
  /** @type {import('../ui.mjs').Workbench} */
  let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room'] });
    write('room/pairs.csv', pairs);
    write('room/clutches.csv', clutches);
  });
  after(() => workbench.close());

  const write = (/** @type {string} */ path, /** @type {string} */ text) => {
    mkdirSync(join(workbench.folder, path, '..'), { recursive: true });
    writeFileSync(join(workbench.folder, path), text);
  };
  const page = () => workbench.page;
  const title = async (/** @type {string} */ text) => await page().locator('.quick-input-title', { hasText: text }).waitFor();
  const asked = async (/** @type {string} */ text) => await page().locator(`.quick-input-widget input[placeholder^="${text}"], .quick-input-message:has-text("${text}")`).first().waitFor();
  const told = async (/** @type {string} */ text) => await page().locator('.statusbar-item', { hasText: text }).waitFor();
  const focused = async () => (await page().locator('.quick-input-list .monaco-list-row.focused').first().innerText()).replaceAll(/\s+/g, ' ').trim();
  const press = async (/** @type {string} */ key) => await page().keyboard.press(key);
  const start = async (/** @type {string} */ command) => {
    await press('F1');
    await page().locator('.quick-input-widget input.input').fill(`>Broodsheet: ${command}`);
    await page().locator('.quick-input-list .monaco-list-row.focused', { hasText: command }).waitFor();
    await press('Enter');
    await title(command);
  };

  const spawned = `${clutches}P1-8;P1;;T1;2026-06-10T09:00;;\n`;

  it('a spawn is three times Enter, and Take back one command', async () => {
    await start('Record a spawn');
    await asked('Who has spawned?');
    // What was just written is read after a while.
    for (let tries = 0; tries < 30 && !(await focused()).startsWith('P1'); tries++) {
      await press('Escape');
      await start('Record a spawn');
      await asked('Who has spawned?');
    }
    strictEqual((await focused()).startsWith('P1'), true, await focused());
    await press('Enter');
    await asked('When?');
    await press('Enter');
    await asked('What is the clutch called?');
    strictEqual(await page().locator('.quick-input-widget input.input').inputValue(), 'P1-8');
    await press('Enter');
    await told('Written into clutches.csv: P1-8, P1, T1, spawned 2026-06-10 09:00.');
    await workbench.holds('room/clutches.csv', spawned);
    strictEqual(await page().locator('.tab.dirty').count(), 0);
    strictEqual(await page().locator('.notification-toast').count(), 0);
    await workbench.command('Broodsheet: Take back');
    await told('Taken back from clutches.csv: P1-8, P1, T1, spawned 2026-06-10 09:00.');
    await workbench.holds('room/clutches.csv', clutches);
  });

  it('a sale asks before it scolds, and the brood that has come furthest stands first', async () => {
    write('room/clutches.csv', 'clutch;pair;tank;spawned;hatched\nP2-1;P2;T2;2025-11-01;2025-11-03\nP2-2;P2;T2;2026-06-09;\n');
    for (let tries = 0; ; tries++) {
      await start('Record a sale');
      await page().locator('.quick-input-list .monaco-list-row.focused').waitFor();
      if ((await focused()).startsWith('P2-1')) break;
      ok(tries < 30, await focused());
      await press('Escape');
    }
    await press('Enter');
    await asked('How many?');
    strictEqual(await page().locator('.quick-input-widget .monaco-inputbox.error').count(), 0);
    await press('Enter');
    await page().locator('.quick-input-widget .quick-input-message', { hasText: 'count' }).filter({ hasText: 'missing' }).waitFor();
    await page().keyboard.type('5x');
    await page().locator('.quick-input-widget .quick-input-message', { hasText: '5x' }).waitFor();
    await press('Escape');
    await page().locator('.quick-input-widget').waitFor({ state: 'hidden' });
    write('room/clutches.csv', clutches);
  });

  describe('a sale for an order', () => {
    const forSale = 'clutch;pair;tank;spawned;hatched\nP2-1;P2;T2;2025-11-01;2025-11-03\n';
    const withLog = (/** @type {string} */ log) => {
      write('room/clutches.csv', forSale);
      write('room/log.csv', log);
      write('room/orders.csv', 'order,species,quantity,due\nO1,angelfish,5,2026-07-01\n');
    };
    afterEach(() => {
      rmSync(join(workbench.folder, 'room/log.csv'));
      rmSync(join(workbench.folder, 'room/orders.csv'));
      write('room/clutches.csv', clutches);
    });

    /** Goes on until what was just written has been read: the brood and the order are offered, and what is awaited comes of it. */
    const sell = async (/** @type {import('playwright-core').Locator} */ awaited) => {
      const order = page().locator('.quick-input-list .monaco-list-row', { hasText: 'O1' });
      const howMany = page().locator('.quick-input-message', { hasText: 'How many?' });
      const scolded = page().locator('.notification-toast');
      for (let tries = 0; ; tries++) {
        await start('Record a sale');
        await page().locator('.quick-input-list .monaco-list-row.focused', { hasText: 'P2-1' }).waitFor();
        await press('Enter');
        // Without an order that was read there is no question for which it is.
        await order.or(howMany).first().waitFor();
        if ((await order.count()) > 0) {
          await order.click();
          await howMany.or(scolded).first().waitFor();
          if ((await awaited.count()) > 0) return;
          await workbench.command('Notifications: Clear All Notifications');
        }
        ok(tries < 30, 'the order is not offered, or something else comes of it');
        await press('Escape');
      }
    };

    it('that could not be written down is told before anybody counts fish', async () => {
      const log = 'time,clutch,count\n';
      withLog(log);
      await sell(page().locator('.notification-toast', { hasText: 'log.csv has no column event' }));
      await page().locator('.quick-input-widget').waitFor({ state: 'hidden' });
      strictEqual(await workbench.readFile('room/log.csv'), log);
      await workbench.command('Notifications: Clear All Notifications');
    });

    it('adds the column for the order to a log that has none, and Take back takes it out', async () => {
      const log = 'time,clutch,event,count,note\n2026-05-01,P2-1,counted,20,\n';
      withLog(log);
      await sell(page().locator('.quick-input-message', { hasText: 'How many?' }));
      strictEqual(await page().locator('.quick-input-widget input.input').inputValue(), '5');
      await press('Enter');
      await told('Written into log.csv (new columns: ref): P2-1, sold, 2026-06-10 09:00, count 5, ref O1.');
      await workbench.holds('room/log.csv', 'time,clutch,event,count,ref,note\n2026-05-01,P2-1,counted,20,,\n2026-06-10T09:00,P2-1,sold,5,O1,\n');
      await workbench.command('Broodsheet: Take back');
      await workbench.holds('room/log.csv', log);
    });
  });

  it('gone is the brood and how, by keys alone, and Escape leaves all as it was', async () => {
    await start('Gone');
    await asked('Which clutch?');
    await press('Escape');
    await page().locator('.quick-input-widget').waitFor({ state: 'hidden' });
    strictEqual(await workbench.readFile('room/clutches.csv'), clutches);
    await start('Gone');
    await asked('Which clutch?');
    await page().keyboard.type('P1-7');
    // The list is there at once, what it holds once the fishroom was looked through again.
    await page().locator('.quick-input-list .monaco-list-row.focused', { hasText: 'P1-7' }).waitFor();
    await press('Enter');
    await asked('How has it gone?');
    await press('ArrowDown');
    strictEqual(await focused(), 'fungus');
    await press('Enter');
    await told('Written into clutches.csv: P1-7, ended 2026-06-10, fungus.');
    await workbench.holds('room/clutches.csv', clutches.replace('2026-06-01;;', '2026-06-01;2026-06-10;fungus'));
  });
});
