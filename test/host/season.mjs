// The season of the calendar in a bare page, for the bench: nothing but its script and its style, and a host that takes no notice.
import { readFileSync } from 'node:fs';
import { inRoot } from '../../src/build/paths.mjs';
import { openBrowser } from './browser.mjs';

/** What scrolling through a season took. @typedef {{ readonly script: readonly number[], readonly rows: number }} Scrolled `script`: ms of each frame; `rows`: so many were drawn at most. */

/** Some variables of a theme, so that the style sheet has something to draw with. */
const theme = ':root { --vscode-foreground: #ccc; --vscode-editor-background: #1f1f1f; --vscode-font-size: 13px } body { margin: 0 }';

/**
 * Shows a season and scrolls through all of it, six rows in a frame. Build first.
 * @param {unknown} message what the host would send: the season's model
 * @returns {Promise<Scrolled>}
 */
export async function scrollSeason(message) {
  const { page, close } = await openBrowser({ width: 1400, height: 900 });
  try {
    await page.setContent(`<!DOCTYPE html><html lang="en"><head><title>Season</title><style>${theme}${readFileSync(inRoot('dist/calendar.css'), 'utf8')}</style></head><body></body></html>`);
    await page.evaluate(() => Object.assign(globalThis, { acquireVsCodeApi: () => ({ postMessage: () => undefined, getState: () => ({ query: { view: 'strip', selection: {} } }), setState: () => undefined }) }));
    await page.addScriptTag({ path: inRoot('dist/calendar.js') });
    await page.evaluate((shown) => Object(globalThis).postMessage(shown, '*'), message);
    await page.locator('.strip-row').first().waitFor();
    return await page.evaluate(scroll);
  } finally {
    await close();
  }
}

/** Runs in the page. @returns {Promise<Scrolled>} */
async function scroll() {
  // The page's own globals, which Node has no types for.
  const page = Object(globalThis);
  const { document } = page;
  const scroller = document.querySelector('[data-scrolls]');
  if (scroller === null) throw new Error('nothing to scroll');
  /** @type {number[]} */ const script = [];
  let rows = 0;
  let spent = 0;
  const ownFrame = page.requestAnimationFrame.bind(page);
  // All that the page draws it asks a frame for: its time is taken where that is called.
  page.requestAnimationFrame = (/** @type {(time: number) => void} */ callback) =>
    ownFrame((/** @type {number} */ time) => {
      const start = performance.now();
      callback(time);
      spent += performance.now() - start;
    });
  const frame = () => new Promise((resolve) => ownFrame(resolve));
  const end = scroller.scrollHeight - scroller.clientHeight;
  for (let top = 0; top < end; top += 157) {
    spent = 0;
    scroller.scrollTop = top;
    // It hears of the scrolling in one frame and draws in that or the next.
    for (let i = 0; i < 3; i++) await frame();
    script.push(spent);
    rows = Math.max(rows, document.querySelectorAll('.strip-row').length);
  }
  return { script, rows };
}
