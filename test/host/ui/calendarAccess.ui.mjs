import { deepStrictEqual } from 'node:assert/strict';
import { axeFaults, lookAt, openCalendar } from '../calendarPage.mjs';
import { openWorkbench } from '../ui.mjs';

// axe-core 4.14.1 is the judge: its rules for WCAG 2.1 and the best practices that come with them.
for (const theme of /** @type {const} */ (['dark', 'light', 'high contrast', 'high contrast light'])) {
  describe(`the calendar for everyone, in ${theme}`, () => {
    /** @type {import('../ui.mjs').Workbench} */ let workbench;
    /** @type {import('playwright-core').Frame} */ let frame;
    before(async () => {
      workbench = await openWorkbench({ rooms: ['three-rooms'], inside: 'three-rooms', theme });
      frame = await openCalendar(workbench);
      await frame.locator('.month').waitFor();
    });
    after(() => workbench.close());

    it('has nothing serious in the month', async () => {
      deepStrictEqual(await axeFaults(frame), []);
    });

    it('has nothing serious in the season, at several scales', async () => {
      await lookAt(frame, 'strip');
      deepStrictEqual(await axeFaults(frame), []);
      await frame.locator('.time select').selectOption('365');
      await frame.locator('.strip-days .tick', { hasText: 'Dec' }).first().waitFor({ state: 'attached' });
      deepStrictEqual(await axeFaults(frame), []);
    });

    it('has nothing serious in the list, with a filter open, with a form open', async () => {
      await lookAt(frame, 'list');
      deepStrictEqual(await axeFaults(frame), []);
      await frame.locator('.filter summary').nth(1).click();
      deepStrictEqual(await axeFaults(frame), []);
      await frame.locator('.title').click();
      await frame.locator('.deed').first().click();
      await frame.locator('.asked').waitFor();
      deepStrictEqual(await axeFaults(frame), []);
      await workbench.page.keyboard.press('Escape');
    });

    it('has nothing serious in a chart', async () => {
      await frame.locator('.item', { hasText: 'KR1-11' }).first().locator('.item-text').focus();
      await frame.locator('.foot .told vscode-button').first().click();
      await frame.locator('.chart-drawing').waitFor();
      await frame.locator('.chart-values summary').click();
      deepStrictEqual(await axeFaults(frame), []);
    });

    it('has nothing serious where colours are forced by the system', async () => {
      await workbench.page.emulateMedia({ forcedColors: 'active', reducedMotion: 'reduce' });
      for (const view of /** @type {const} */ (['month', 'strip', 'list'])) {
        await lookAt(frame, view);
        deepStrictEqual(await axeFaults(frame), []);
        await workbench.screenshot(`calendar-${view}-forced-${theme}`);
      }
      await workbench.page.emulateMedia({ forcedColors: 'none' });
    });
  });
}
