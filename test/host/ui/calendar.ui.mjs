import { deepStrictEqual, match, ok, strictEqual } from 'node:assert/strict';
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { calendarFrame, lookAt, openCalendar } from '../calendarPage.mjs';
import { openWorkbench } from '../ui.mjs';

const log = 'clutch,time,event,count,note\nA1,2026-04-21T10:00,hatched,90,\nA1,2026-04-26T10:00,first_feed,,\nA1,2026-04-28T10:00,free_swimming,,\nA1,2026-05-12T10:00,counted,84,\n';
const files = {
  'fishroom.json': '{"timezone": "Europe/Berlin", "rounds": ["08:00", "19:00"]}\n',
  'rooms.csv': 'room,name\nfront,Front room\nback,Back room\n',
  'tanks.csv': 'tank,room\nT1,front\nT2,front\nT3,back\n',
  'pairs.csv': 'pair,species,tank,formed\nP1,kribensis,T1,2026-01-10\nP2,angelfish,T3,2026-01-10\n',
  'clutches.csv': 'clutch,pair,tank,spawned\nA1,P1,T1,2026-04-18T10:00\nA2,P2,T3,2026-06-01T10:00\nA3,P1,T2,2026-06-09T10:00\n',
  'log.csv': log,
  'maintenance.csv': 'job,what,tanks,room,from,to\nJ1,New lamps,,front,2026-06-15,2026-06-16\n',
};
/** Days since 1970-01-01. @param {string} day */
const dayNumber = (day) => {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  return Date.UTC(year, month - 1, date) / 86_400_000;
};
const today = dayNumber('2026-06-10');

describe('the calendar', () => {
  /** @type {import('../ui.mjs').Workbench} */ let workbench;
  /** @type {import('playwright-core').Frame} */ let frame;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['room', 'smallest'] });
    rmSync(join(workbench.folder, 'room/species.csv'));
    for (const [path, text] of Object.entries(files)) writeFileSync(join(workbench.folder, 'room', path), text);
    await workbench.openFile('room/rooms.csv');
    frame = await openCalendar(workbench);
    await frame.locator('.day.is-today', { hasText: 'A2' }).waitFor();
  });
  after(() => workbench.close());

  /** What has the focus in the page, by one of its data. @param {string} name */
  const focused = (name) => frame.evaluate((of) => /** @type {HTMLElement | null} */ (document.activeElement)?.dataset[of], name);
  /** @param {() => Promise<unknown>} what @param {unknown} expected */
  const becomes = async (what, expected) => {
    for (const end = Date.now() + 30_000; ; ) {
      const found = await what();
      if (JSON.stringify(found) === JSON.stringify(expected) || Date.now() > end) return deepStrictEqual(found, expected);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  };
  /** @param {string} selector */
  const texts = async (selector) => (await frame.locator(selector).allInnerTexts()).map((text) => text.replaceAll(/\s+/g, ' ').trim());
  const button = (/** @type {string} */ name) => frame.locator('vscode-button', { hasText: name });
  /** Opens a file in the group beside the calendar, which stays in view. @param {string} path */
  const openBeside = async (path) => {
    await workbench.page.keyboard.press('Control+2');
    await workbench.page.locator('.editor-group-container.active .monaco-editor.focused').waitFor();
    await workbench.openFile(path);
  };
  /** @param {string} whom */
  const item = (whom) => frame.locator('.item', { hasText: whom }).first();

  it('shows the month, and the list of a day that is chosen', async () => {
    strictEqual(await frame.locator('.title').innerText(), 'June 2026');
    deepStrictEqual(await texts('.weekdays > div'), ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']);
    deepStrictEqual(await texts('.day.is-today .line'), ['A2 Hatch?', 'A3 Look', 'Feed ×2 · 1', 'A1 Count', 'Live food']);
    deepStrictEqual(await texts('.pane .room h3'), ['Overdue', 'Front room', 'The whole fishroom']);
    await frame.locator(`.day[data-day="${dayNumber('2026-06-16')}"]`).click();
    await frame.locator('.pane .item', { hasText: 'New lamps' }).waitFor();
  });

  it('shows the season in walking order, and more or less of it', async () => {
    await lookAt(frame, 'strip');
    deepStrictEqual(await texts('.strip-row .strip-label [aria-hidden], .strip-cell > .strip-label'), ['Front room', 'T1 kribensis', 'A1 P1', 'T2 kribensis', 'A3 P1', 'Back room', 'T3 angelfish', 'A2 P2']);
    await frame.locator('.time select').selectOption({ label: '2 weeks' });
    await frame.locator('.tick', { hasText: 'Wed, Jun 10' }).waitFor({ state: 'attached' });
    strictEqual(await frame.locator('.tick').count(), 14);
    await frame.locator('.time select').selectOption({ label: 'a year' });
    await frame.locator('.tick', { hasText: 'Dec 1' }).waitFor({ state: 'attached' });
    strictEqual(await frame.locator('.tick').count(), 12);
  });

  it('lists what is to be done day by day and room by room', async () => {
    await lookAt(frame, 'list');
    deepStrictEqual((await texts('.day-title h2')).slice(0, 3), ['Wed, Jun 10', 'Thu, Jun 11', 'Fri, Jun 12']);
    const items = await texts('.item-text');
    strictEqual(items[0], 'Hatched, gone, or not known? A2 T3 6 days late Open the row');
    ok(items.some((text) => text.startsWith('Count the fry A1 T1 since Tue, Jun 9')), items.join('\n'));
  });

  it('shows only what is chosen of rooms, species and kinds', async () => {
    const choose = async (/** @type {number} */ filter, /** @type {string} */ label) => {
      await frame.locator('.filter summary').nth(filter).click();
      await frame.locator('.filter[open] .choice', { hasText: label }).locator('input').click();
      await frame.locator('.title').click();
    };
    /** The broods; pairs come and go with their windows. */
    const whom = () => texts('.item .whom:not(:empty)').then((all) => [...new Set(all)].filter((name) => !name.startsWith('P')).sort());
    await choose(0, 'Back room');
    await becomes(whom, ['A2']);
    await choose(0, 'Back room');
    await choose(1, 'kribensis');
    await becomes(whom, ['A1', 'A3']);
    await choose(2, 'Count');
    await becomes(whom, ['A1']);
    await choose(1, 'kribensis');
    await choose(2, 'Count');
    await becomes(whom, ['A1', 'A2', 'A3', 'J1']);
    strictEqual(await frame.locator('.filter[open]').count(), 0);
  });

  it('says why, to a pointer and to keys', async () => {
    const foot = () => texts('.foot .why p');
    await item('A2').locator('.item-text').hover();
    await becomes(async () => (await foot())[0], 'Hatched, gone, or not known? · A2 · T3');
    match((await foot()).join('\n'), /Counted from: hatch, expected .*\n8 in 10: .*By the numbers of the species alone/s);
    await item('A1').locator('.item-text').focus();
    await becomes(foot, ['Count the fry · A1 · T1', 'Counted from: swimming free, Apr 28, 2026, 10:00 (routine count).']);
  });

  it('stays where it is while something else is said of it, so that a press is one: beside an editor too', async () => {
    await lookAt(frame, 'month');
    const list = frame.locator('.pane');
    for (const width of [1400, 900]) {
      await workbench.page.setViewportSize({ width, height: 900 });
      await new Promise((resolve) => setTimeout(resolve, 500));
      const places = new Set();
      for (const line of await frame.locator('.pane .item .item-text').all()) {
        await line.hover();
        await frame.locator('.foot .why-title', { hasText: await line.locator('.what').innerText() }).waitFor();
        places.add(await list.evaluate((element) => element.getBoundingClientRect().bottom));
      }
      strictEqual(places.size, 1, [...places].join());
    }
    await workbench.page.setViewportSize({ width: 1400, height: 900 });
    await lookAt(frame, 'list');
  });

  it('shows a chart within sight however long the day is, and the line that it is about beside it', async () => {
    await workbench.page.setViewportSize({ width: 1400, height: 520 });
    await lookAt(frame, 'month');
    await frame.locator(`.day[data-day="${today}"]`).click();
    const line = item('A1').locator('.item-text');
    await line.focus();
    const chart = button('Chart');
    await chart.focus();
    await workbench.page.keyboard.press('Enter');
    const isWithin = (/** @type {string} */ selector) =>
      frame.locator(selector).evaluate((element) => {
        const part = element.closest('.pane-part');
        const [inner, outer] = [element.getBoundingClientRect(), part?.getBoundingClientRect()];
        return outer !== undefined && inner.top < outer.bottom && inner.bottom > outer.top && outer.bottom <= element.ownerDocument.documentElement.clientHeight;
      });
    await becomes(() => isWithin('.pane .is-chart > :first-child'), true);
    await becomes(() => isWithin('.pane .item.is-chosen'), true);
    await workbench.page.keyboard.press('Enter');
    await frame.locator('.pane .is-chart').waitFor({ state: 'detached' });
    await workbench.page.setViewportSize({ width: 1400, height: 900 });
  });

  it('is walked with keys alone: one stop in each grid, arrows inside, Enter to the list of a day and to the row', async () => {
    const { page } = workbench;
    await lookAt(frame, 'month');
    await button('Today').click();
    await becomes(() => frame.locator('.month [tabindex="0"]').getAttribute('data-day'), String(today));
    for (const grid of ['.month', '.pane [role=grid]']) strictEqual(await frame.locator(`${grid} :is([tabindex="0"], a, button:not([tabindex]))`).count(), 1, grid);
    for (let i = 0; (await focused('day')) === undefined && i < 12; i++) await page.keyboard.press('Tab');
    for (const [key, day] of /** @type {const} */ ([['ArrowRight', '06-11'], ['ArrowDown', '06-18'], ['End', '06-21'], ['ArrowRight', '06-22'], ['ArrowLeft', '06-21'], ['Home', '06-15'], ['Control+Home', '06-01'], ['Control+End', '07-05'], ['Control+Home', '06-01'], ['ArrowDown', '06-08'], ['ArrowRight', '06-09'], ['ArrowRight', '06-10']])) {
      await page.keyboard.press(key);
      await becomes(() => focused('day'), String(dayNumber(`2026-${day}`)));
    }
    // Where one was last in it.
    await page.keyboard.press('Enter');
    await becomes(() => focused('target'), 'entry:clutches/A1/count/1');
    await page.keyboard.press('Control+Home');
    await becomes(() => focused('target'), 'entry:clutches/A2/hatch/0');
    await page.keyboard.press('ArrowDown');
    await becomes(() => focused('target'), 'entry:clutches/A1/count/1');
    await page.keyboard.press('ArrowDown');
    await becomes(() => focused('target'), 'entry:clutches/A3/look-at-eggs/0');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await workbench.inEditorOf('room/clutches.csv');
    await page.locator('.statusbar-item', { hasText: 'Ln 2, Col 1' }).waitFor();
    strictEqual(await page.locator('.editor-group-container').count(), 2);
  });

  it('turns to other months by keys and back to today', async () => {
    await frame.locator(`.day[data-day="${today}"]`).focus();
    await workbench.page.keyboard.press('PageDown');
    await becomes(() => frame.locator('.title').innerText(), 'July 2026');
    await becomes(() => focused('day'), String(dayNumber('2026-07-01')));
    await workbench.page.keyboard.press('PageUp');
    await becomes(() => frame.locator('.title').innerText(), 'June 2026');
    await button('Today').click();
    await becomes(() => frame.locator('.day[aria-selected="true"]').getAttribute('data-day'), String(today));
  });

  it('asks in place what belongs to it, with the likely answer, and Escape leaves all as it was', async () => {
    await item('A1').locator('.deed').click();
    await frame.locator('.asked').waitFor();
    deepStrictEqual(await texts('.asked-field > span'), ['Time', 'Count']);
    strictEqual(await frame.locator('.asked input[name=count]').inputValue(), '84');
    await frame.locator('.asked input[name=count]').fill('12');
    await workbench.page.keyboard.press('Escape');
    await frame.locator('.asked').waitFor({ state: 'detached' });
    await becomes(() => focused('target'), 'entry:clutches/A1/count/1');
    strictEqual(await workbench.readFile('room/log.csv'), log);
  });

  it('writes what a careful person would have typed, saves it, and takes it back to the byte', async () => {
    await item('A1').locator('.deed').focus();
    await workbench.page.keyboard.press('Enter');
    await frame.locator('.asked').waitFor();
    await frame.locator('.asked input[name=count]').fill('88');
    await workbench.page.keyboard.press('Enter');
    await workbench.holds('room/log.csv', `${log}A1,2026-06-10T09:00,counted,88,\n`);
    await frame.locator('.pane .item', { hasText: 'A1' }).waitFor({ state: 'detached' });
    // The focus goes to what stands there now and not to the top of the page.
    await becomes(async () => (await focused('target'))?.startsWith('entry:'), true);
    await frame.locator('.told', { hasText: 'A1' }).waitFor();
    await button('Take back').click();
    await workbench.holds('room/log.csv', log);
    await frame.locator('.pane .item', { hasText: 'A1' }).waitFor();
  });

  it('refuses what can not be, says so, and keeps what was typed', async () => {
    await item('A1').locator('.deed').click();
    await frame.locator('.asked input[name=count]').fill('many');
    await frame.locator('.asked .primary').click();
    await becomes(async () => /many/.test(await frame.locator('.told').innerText()), true);
    strictEqual(await frame.locator('.asked input[name=count]').inputValue(), 'many');
    strictEqual(await workbench.readFile('room/log.csv'), log);
    await frame.locator('.asked input[name=count]').focus();
    await workbench.page.keyboard.press('Escape');
    await becomes(() => focused('target'), 'entry:clutches/A1/count/1');
  });

  it('leaves a file with unsaved edits unsaved', async () => {
    await openBeside('room/log.csv');
    await workbench.goTo(2, 32);
    await workbench.type('seen at ten');
    await workbench.page.locator('.tab.active.dirty', { hasText: 'log.csv' }).waitFor();
    await item('A1').locator('.deed').click();
    await frame.locator('.asked .primary').click();
    const edited = log.replace('hatched,90,', 'hatched,90,seen at ten');
    await frame.locator('.pane .item', { hasText: 'A1' }).waitFor({ state: 'detached' });
    strictEqual(await workbench.readFile('room/log.csv'), log);
    await workbench.page.locator('.tab.dirty', { hasText: 'log.csv' }).click();
    await workbench.shows(`${edited}A1,2026-06-10T09:00,counted,84,\n`);
    await workbench.command('File: Revert File');
    await frame.locator('.pane .item', { hasText: 'A1' }).waitFor();
    strictEqual(await workbench.readFile('room/log.csv'), log);
  });

  it('loses nothing when both write at once: a hand in the log, and "Write it down"', async () => {
    await item('A1').locator('.deed').click();
    await frame.locator('.asked').waitFor();
    await openBeside('room/log.csv');
    await workbench.goTo(3, 33);
    // Pressed in the midst of the typing, without taking the keys away.
    await frame.locator('.asked').evaluate((form) => setTimeout(() => /** @type {HTMLFormElement} */ (form).requestSubmit(), 250));
    const typed = 'the whole brood came out of the cave at once and fed on microworms';
    await workbench.page.keyboard.type(typed, { delay: 15 });
    const expected = `${log.replace('first_feed,,', `first_feed,,${typed}`)}A1,2026-06-10T09:00,counted,84,\n`;
    await becomes(async () => (await workbench.shownText()), expected);
    await workbench.save();
    await workbench.holds('room/log.csv', expected);
    // As long as the page shows what was, nothing has come back.
    await frame.locator('.pane .item', { hasText: 'A1' }).waitFor({ state: 'detached' });
    // The workbench overlooks what others write while it is still busy with its own saving, so it is written until it is seen.
    for (let i = 0; i < 20 && !(await frame.locator('.pane .item', { hasText: 'A1' }).isVisible()); i++) {
      writeFileSync(join(workbench.folder, 'room/log.csv'), log);
      await new Promise((resolve) => setTimeout(resolve, 1_500));
    }
    await frame.locator('.pane .item', { hasText: 'A1' }).waitFor();
    await workbench.holds('room/log.csv', log);
  });

  it('turns to another fishroom, and makes a log that is not there, with its header', async () => {
    ok(!existsSync(join(workbench.folder, 'smallest/log.csv')));
    await lookAt(frame, 'list');
    await frame.locator('.filters > .pick select').selectOption({ label: 'smallest' });
    await item('K-2').waitFor();
    await frame.locator('.item', { hasText: 'K-1' }).filter({ hasText: 'Look at the eggs' }).locator('.deed').first().click();
    await frame.locator('.asked').waitFor();
    await frame.locator('.asked .primary').click();
    await frame.locator('.told', { hasText: 'K-1' }).waitFor();
    const made = 'smallest/clutches/K-1.csv';
    await workbench.holds(made, 'time,event,tank,count,length_mm,to_tank,note\n2026-06-10T09:00,checked,,,,,\n');
    await button('Take back').click();
    await becomes(async () => existsSync(join(workbench.folder, made)), false);
  });

  it('comes back as it was when its window does', async () => {
    await frame.locator('.filters > .pick select').selectOption({ label: 'room' });
    await item('A1').waitFor();
    await frame.locator('.filter summary').nth(1).click();
    await frame.locator('.filter[open] .choice', { hasText: 'kribensis' }).locator('input').click();
    await frame.locator('.item', { hasText: 'A2' }).first().waitFor({ state: 'detached' });
    await lookAt(frame, 'strip');
    await frame.locator('.time select').selectOption({ label: '2 weeks' });
    await frame.locator('.tick', { hasText: 'Wed, Jun 10' }).waitFor({ state: 'attached' });
    await frame.locator('.strip-cell[data-target="clutch:A3"]').focus();
    // A window so low that there is something to scroll.
    await workbench.page.setViewportSize({ width: 1400, height: 330 });
    const scroll = (/** @type {Element} */ element) => (element.scrollTo({ top: 40 }), element.scrollTop);
    await becomes(() => frame.locator('[data-scrolls]').evaluate(scroll), 40);
    // The page keeps where it is a moment after it was drawn. The workbench writes it down when its window is closed as people close it, and every 5 s when it has time.
    await new Promise((resolve) => setTimeout(resolve, 2_000));
    const isAnew = workbench.page.waitForEvent('load');
    await workbench.command('Developer: Reload Window', { asks: true });
    await isAnew;
    frame = await calendarFrame(workbench, '.strip-body');
    await becomes(() => frame.locator('[data-scrolls]').evaluate((element) => element.scrollTop), 40);
    await becomes(() => frame.locator('.strip-row.is-chosen .strip-cell').getAttribute('data-target'), 'clutch:A3');
    strictEqual(await frame.locator('.time select').inputValue(), '14');
    deepStrictEqual(await texts('.filter summary'), ['Rooms: all', 'Species: kribensis', 'Kinds: all']);
    strictEqual(await frame.locator('.strip-cell[data-target="clutch:A2"]').count(), 0);
    await becomes(async () => (await texts('.foot .why-title'))[0], 'A3');
    await workbench.page.setViewportSize({ width: 1400, height: 900 });
  });

  it('asks nothing of the network', () => {
    deepStrictEqual([...workbench.outsideHosts].filter((host) => !/vscode-cdn\.net$/.test(host)), []);
  });
});

describe('a calendar without broods', () => {
  /** @type {import('../ui.mjs').Workbench} */ let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['smallest'], inside: 'smallest' });
  });
  after(() => workbench.close());

  it('says what will stand there, and what to do where there is no fishroom', async () => {
    writeFileSync(join(workbench.folder, 'clutches.csv'), 'clutch,species,tank,spawned\n');
    const frame = await openCalendar(workbench);
    for (const view of /** @type {const} */ (['month', 'strip', 'list'])) {
      await lookAt(frame, view);
      const said = frame.locator('.empty', { hasText: 'Record a spawn to begin' });
      await said.waitFor();
      // Below the weeks nobody would see it.
      const [{ y: top } = { y: Infinity }, { y: below } = { y: -Infinity }] = [(await said.boundingBox()) ?? undefined, (await frame.locator('.view > :last-child').boundingBox()) ?? undefined];
      ok(top <= below, `${view}: ${top}, ${below}`);
    }
    rmSync(join(workbench.folder, 'clutches.csv'));
    await frame.locator('.nothing', { hasText: /fishroom/i }).waitFor();
  });
});

describe('a German calendar', () => {
  /** @type {import('../ui.mjs').Workbench} */ let workbench;
  before(async () => {
    workbench = await openWorkbench({ rooms: ['smallest'], inside: 'smallest', language: 'de' });
  });
  after(() => workbench.close());

  it('speaks German, dates and weeks as well', async () => {
    await workbench.command('Broodsheet: Kalender öffnen');
    const frame = await calendarFrame(workbench, '.month');
    strictEqual(await frame.locator('.title').innerText(), 'Juni 2026');
    strictEqual(await frame.locator('.weekdays > div').first().innerText(), 'Mo');
    await frame.locator('.pane', { hasText: 'heute' }).waitFor();
    await lookAt(frame, 'list');
    await frame.locator('.item', { hasText: 'Zeile öffnen' }).first().waitFor();
    strictEqual(await frame.evaluate(() => document.documentElement.lang), 'de');
  });
});
