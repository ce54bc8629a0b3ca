// What the tests and pictures of the calendar share: its page is a frame inside a frame of the workbench.
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';

/** @typedef {import('playwright-core').Frame} Frame */
/** @typedef {import('./ui.mjs').Workbench} Workbench */

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core'), 'utf8');

/** Opens the calendar and gives its page. @param {Workbench} workbench @returns {Promise<Frame>} */
export async function openCalendar(workbench) {
  await workbench.command('Broodsheet: Open calendar');
  return await calendarFrame(workbench);
}

/** The calendar's page as soon as it shows something; frames come and go. @param {Workbench} workbench @param {string} [selector] @returns {Promise<Frame>} */
export async function calendarFrame(workbench, selector = '.calendar > *') {
  for (const end = Date.now() + 60_000; Date.now() < end; await wait(100)) {
    for (const frame of workbench.page.frames()) if ((await frame.locator(selector).count().catch(() => 0)) > 0) return frame;
  }
  throw new Error('no calendar is shown');
}

/** Looks at the calendar in one of its three ways. @param {Frame} frame @param {'month' | 'strip' | 'list'} view */
export async function lookAt(frame, view) {
  await frame.locator('.ways vscode-button').nth(['month', 'strip', 'list'].indexOf(view)).click();
  await frame.locator({ month: '.month', strip: '.strip-body', list: '.is-list' }[view]).waitFor({ state: 'attached' });
}

/**
 * What axe-core finds that is serious or critical, one line each.
 * @param {Frame} frame
 * @returns {Promise<readonly string[]>}
 */
export async function axeFaults(frame) {
  // The policy of the page lets no script in but its own; what the debugger evaluates needs no leave.
  await frame.evaluate(`${axe}; undefined`);
  /** @type {import('axe-core').AxeResults} */
  const { violations, passes } = await frame.evaluate('axe.run(document, { iframes: false })');
  if (passes.length < 5) throw new Error('axe-core looked at nothing');
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map(({ html, failureSummary }) => `${id}: ${html.slice(0, 160)}: ${failureSummary?.replaceAll(/\s+/g, ' ') ?? ''}`));
}
