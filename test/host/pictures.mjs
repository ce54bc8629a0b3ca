// node test/host/pictures.mjs [--only SCENE,SCENE] [FOLDER]: opens the samples in a real VS Code, in several themes, and draws what a keeper sees there: PNGs in
// samples/pictures, or in FOLDER; only of the scenes named, or of all. Build first.
import { statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { inRoot } from '../../src/build/paths.mjs';
import { calendarFrame, lookAt, openCalendar } from './calendarPage.mjs';
import { openWorkbench } from './ui.mjs';

/** Small enough for a page, large enough that a row of a sheet can be read. */
const size = { width: 1200, height: 750 };
/** A day after the samples' own, so that there is something to fill in the one that is filled. */
const nextMorning = '2026-06-11T09:00';
const settings = {
  'editor.inlayHints.enabled': 'on',
  'editor.minimap.enabled': false,
  'editor.occurrencesHighlight': 'off',
  'editor.selectionHighlight': false,
  'window.commandCenter': false,
  'window.title': '${activeEditorShort} - ${rootName}',
  // A picture in the midst of a fade shows neither.
  'workbench.reduceMotion': 'on',
};

const { values, positionals } = parseArgs({ allowPositionals: true, options: { only: { type: 'string' } } });
const folder = resolve(positionals[0] ?? inRoot('samples/pictures'));
const only = values.only?.split(',');
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.once(signal, () => process.exit(1));

await inWorkbench({ sample: 'three-rooms', theme: 'light' }, [
  ['problems', showProblems],
  ['fill', askToFill],
]);
await inWorkbench({ sample: 'three-rooms', theme: 'light' }, [
  ['hover', pointAtSale],
  ['completion', askForTank],
  ['walkthrough', showWalkthrough],
]);
await inWorkbench({ sample: 'three-rooms', theme: 'dark' }, [
  ['problems', showProblems],
  ['hover', pointAtSale],
  ['completion', askForTank],
  ['walkthrough', showWalkthrough],
]);
await inWorkbench({ sample: 'smallest', theme: 'light' }, [['hints', showHints]]);
await inWorkbench({ sample: 'smallest', theme: 'dark' }, [['hints', showHints]]);
await inWorkbench({ sample: 'three-rooms', theme: 'high contrast' }, [['problems', showProblems]]);
await inWorkbench({ sample: 'messy', theme: 'dark' }, [['quick fix', askForFixes]]);
await inWorkbench({ sample: 'messy', theme: 'high contrast light' }, [['quick fix', askForFixes]]);

const calendar = /** @type {const} */ ([
  ['calendar month', showMonth],
  ['calendar season', showSeason],
  ['calendar list', showList],
  ['calendar done', askForCount],
  ['calendar chart', showChart],
]);
for (const theme of /** @type {const} */ (['light', 'dark', 'high contrast'])) await inWorkbench({ sample: 'three-rooms', theme }, calendar);
for (const theme of /** @type {const} */ (['light', 'dark', 'high contrast'])) await inWorkbench({ sample: 'three-rooms', theme }, [['due', showDue]]);
await inWorkbench({ sample: 'three-rooms', theme: 'dark', width: 420 + 48 }, calendar.map(([name, scene]) => /** @type {const} */ ([`${name} narrow`, scene])));

/**
 * @param {{ sample: string, width?: number, theme: import('./ui.mjs').Theme }} options
 * @param {readonly (readonly [name: string, scene: (workbench: import('./ui.mjs').Workbench) => Promise<void>])[]} scenes
 */
async function inWorkbench({ sample, theme, width = size.width }, scenes) {
  const wanted = scenes.filter(([name]) => only?.includes(name) ?? true);
  if (wanted.length === 0) return;
  const workbench = await openWorkbench({ rooms: [sample], inside: sample, theme, size: { ...size, width }, settings });
  try {
    for (const [name, scene] of wanted) {
      await scene(workbench);
      const path = await workbench.screenshot(`${name}-${theme}`, folder);
      console.log(`${path} (${Math.round(statSync(path).size / 1000)} kB)`);
    }
  } catch (error) {
    await workbench.keepEvidence(`picture in ${theme}`);
    throw error;
  } finally {
    await workbench.close();
  }
}

/** The calendar alone on the screen. @param {import('./ui.mjs').Workbench} workbench @returns {Promise<import('playwright-core').Frame>} */
async function openAlone(workbench) {
  await hideAllBut(workbench);
  await openCalendar(workbench);
  return await calendarFrame(workbench, '.bar');
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function showMonth(workbench) {
  const frame = await openAlone(workbench);
  await lookAt(frame, 'month');
  await frame.locator('.pane .item-text').first().focus();
  await frame.locator('.foot .why-title').waitFor();
}

/** The Due view, beside a log that is about one of its lines. @param {import('./ui.mjs').Workbench} workbench */
async function showDue(workbench) {
  await workbench.openFile('clutches/BE1-5.csv');
  await workbench.command('Broodsheet: Focus on Due View');
  const line = workbench.page.locator('.pane-body .monaco-list-row', { hasText: 'T08 BE1-5' }).first();
  await line.waitFor();
  await line.hover();
  await line.locator('a.action-label').first().waitFor();
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function showSeason(workbench) {
  const frame = await openAlone(workbench);
  await lookAt(frame, 'strip');
  await frame.locator('.strip-cell', { hasText: 'KR2-8' }).first().focus();
  await frame.locator('.foot .why-title', { hasText: 'KR2-8' }).waitFor();
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function showList(workbench) {
  const frame = await openAlone(workbench);
  await lookAt(frame, 'list');
  await frame.locator('.item-text').first().focus();
  await frame.locator('.foot .why-title', { hasText: 'KR3-3' }).waitFor();
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function askForCount(workbench) {
  const frame = await openAlone(workbench);
  await lookAt(frame, 'list');
  await frame.locator('.item', { hasText: 'GA1-4' }).first().locator('.deed').click();
  await frame.locator('.asked input[name=count]').focus();
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function showChart(workbench) {
  const frame = await openAlone(workbench);
  await workbench.page.keyboard.press('Escape');
  await lookAt(frame, 'list');
  await frame.locator('.item', { hasText: 'KR1-11' }).first().locator('.item-text').focus();
  await frame.locator('.foot .told vscode-button').first().click();
  await frame.locator('.chart-drawing').waitFor();
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function showProblems(workbench) {
  await workbench.showProblems();
  await workbench.problem('The fry of KR2-7 are still in T02');
  await workbench.command('View: Toggle Primary Side Bar Visibility');
  await workbench.openFile('clutches.csv');
  await workbench.goTo(69, 1);
  await coloured(workbench, 'KR2-7');
}

/** Waits until a cell has a colour of its own, which comes a little after the text. @param {import('./ui.mjs').Workbench} workbench @param {string} cell */
async function coloured(workbench, cell) {
  await workbench.page.locator('.editor-group-container.active .view-line span[class*=mtk]', { hasText: new RegExp(`^${cell}$`) }).first().waitFor();
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function askToFill(workbench) {
  workbench.setSetting('broodsheet.now', nextMorning);
  await workbench.page.locator('.statusbar-item', { hasText: 'Jun 11, 2026' }).waitFor();
  await workbench.command('Broodsheet: Fill the fishroom', { asks: true });
  await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'clutches.csv' }).first().waitFor();
}

/** The day on which a brood can be sold, and why. @param {import('./ui.mjs').Workbench} workbench */
async function pointAtSale(workbench) {
  await hideAllBut(workbench);
  await workbench.openFile('clutches.csv');
  const lines = (await workbench.readFile('clutches.csv')).split(/\r?\n/);
  const line = lines.findIndex((text) => text.startsWith('KR1-8,'));
  const column = lines[line]?.indexOf('2026-06-11') ?? -1;
  if (line < 0 || column < 0) throw new Error('the sample has no such brood any more');
  await workbench.goTo(line + 1, column + 3);
  await coloured(workbench, 'KR1-8');
  const hover = workbench.page.locator('.monaco-hover', { hasText: 'most likely 2026-06-11' }).first();
  // While a file has just been opened, what comes to it takes a hover away again.
  for (let tries = 10; ; tries--) {
    // By its keys: what the palette shows goes again as the editor gets the keys back.
    await workbench.page.keyboard.press('Control+K');
    await workbench.page.keyboard.press('Control+I');
    const isShown = await hover.waitFor({ timeout: 5_000 }).then(() => true, () => false);
    await new Promise((resolve) => setTimeout(resolve, 1_500));
    if (isShown && (await hover.isVisible())) return;
    if (tries === 0) throw new Error('no hover stays');
    await workbench.page.keyboard.press('Escape');
  }
}

/** The tanks to which fish may be moved. @param {import('./ui.mjs').Workbench} workbench */
async function askForTank(workbench) {
  await hideAllBut(workbench);
  await workbench.openFile('clutches/KR1-8.csv');
  const lines = (await workbench.readFile('clutches/KR1-8.csv')).trimEnd().split(/\r?\n/);
  const moved = lines.findIndex((text) => text.split(',')[1] === 'moved');
  const cells = (lines[moved] ?? '').split(',');
  const at = (lines[0] ?? '').split(',').indexOf('to_tank');
  if (moved < 0 || at < 0) throw new Error('the sample has no such row any more');
  await workbench.goTo(moved + 1, cells.slice(0, at).join(',').length + 2);
  await coloured(workbench, 'moved');
  await workbench.page.keyboard.press('Control+Space');
  await workbench.page.locator('.suggest-widget .monaco-list-row').first().waitFor();
}

/** What stands beside the text of a sheet without columns for it. @param {import('./ui.mjs').Workbench} workbench */
async function showHints(workbench) {
  await hideAllBut(workbench);
  const text = await workbench.readFile('clutches.csv');
  writeFileSync(join(workbench.folder, 'clutches.csv'), text.replaceAll(/^((?:[^,\n]*,){3}[^,\n]*),.*$/gm, '$1'));
  await workbench.openFile('clutches.csv');
  for (const clutch of text.trimEnd().split('\n').slice(1)) await workbench.page.locator('.view-line', { hasText: new RegExp(`^${clutch.split(',', 1)}.*day\\s\\d`) }).waitFor();
  await coloured(workbench, 'K-1');
}

/** Leaves the editor alone on the screen. @param {import('./ui.mjs').Workbench} workbench */
async function hideAllBut(workbench) {
  for (const view of ['.sidebar', '.panel']) {
    if (await workbench.page.locator(`.part${view}`).isVisible()) await workbench.command(view === '.panel' ? 'View: Toggle Panel Visibility' : 'View: Toggle Primary Side Bar Visibility');
  }
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function showWalkthrough(workbench) {
  await workbench.command('Welcome: Open Walkthrough', { asks: true });
  await workbench.page.locator('.quick-input-widget input.input').fill('Begin with Broodsheet');
  await workbench.page.locator('.quick-input-list .monaco-list-row', { hasText: 'Begin with Broodsheet' }).first().waitFor();
  await workbench.page.keyboard.press('Enter');
  const step = workbench.page.locator('.getting-started-step', { hasText: 'Ask a number why' });
  await step.waitFor();
  await hideAllBut(workbench);
  await step.click();
  await shownInFrame(workbench, 'svg text', 'hatch_h');
}

/** Waits for an element of a web view, whose frames come and go. @param {import('./ui.mjs').Workbench} workbench @param {string} selector @param {string} hasText */
async function shownInFrame(workbench, selector, hasText) {
  for (const end = Date.now() + 20_000; Date.now() < end; ) {
    for (const frame of workbench.page.frames()) if ((await frame.locator(selector, { hasText }).count().catch(() => 0)) > 0) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`no web view shows ${hasText}`);
}

/** @param {import('./ui.mjs').Workbench} workbench */
async function askForFixes(workbench) {
  await workbench.showProblems();
  await workbench.problem('03/04/2026');
  await workbench.openFile('clutches.csv');
  await workbench.goTo(5, 15);
  await coloured(workbench, 'K2-1');
  // Before the bulb is there, nothing is offered.
  await workbench.page.locator('[class*="gutter-lightbulb"]:visible, .lightBulbWidget:visible').first().waitFor();
  await workbench.page.keyboard.press('Control+.');
  await workbench.page.locator('.action-widget .monaco-list-row').first().waitFor();
}
