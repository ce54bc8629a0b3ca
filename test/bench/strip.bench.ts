import { readFileSync } from 'node:fs';
import { calendarTexts } from '../../src/views/calendar/calendarTexts';
import type { CalendarModel } from '../../src/views/calendar/calendarModel';
import type { StripRow } from '../../src/views/calendar/strip';
import type { ToCalendar } from '../../src/protocol/calendar';
import { bodyOf, calendarOf } from '../support/calendars';
import { roomOf } from '../support/room';
import { line } from './measure';

const BROODS = 2_000;
/** What the script of a frame may take, in ms, so that a frame of 60 in a second has the other half for drawing. */
const mostOfFrame = 8;

/** A season of so many broods that all live at once, four to a tank. */
function season(): CalendarModel {
  const id = (i: number): string => String(i).padStart(4, '0');
  const day = (i: number): string => new Date(Date.UTC(2026, 3, 1 + (i % 69), 8 + (i % 12))).toISOString().slice(0, 16);
  const tanks = Array.from({ length: BROODS / 4 }, (_, i) => `T${id(i)},${['front', 'back', 'cellar'][i % 3] ?? ''}`);
  const plan = roomOf(
    {
      'rooms.csv': 'room,name\nfront,Front room\nback,Back room\ncellar,Cellar\n',
      'tanks.csv': ['tank,room', ...tanks],
      'clutches.csv': ['clutch,species,tank,spawned,hatched', ...Array.from({ length: BROODS }, (_, i) => `K${id(i)},${['kribensis', 'angelfish', 'guppy'][i % 3] ?? ''},T${id(Math.floor(i / 4))},${day(i)},${i % 3 === 2 ? '' : day(i + 3)}`)],
    },
    '2026-06-10T09:00',
  );
  return calendarOf(plan, { view: 'strip' });
}

/** Runs in the page: scrolls through the season a frame at a time, and gives what the script of each frame took, in ms, and how many rows were drawn at most. */
async function scrollThrough(): Promise<{ readonly script: readonly number[]; readonly rows: number }> {
  const scroller = document.querySelector('[data-scrolls]');
  if (scroller === null) throw new Error('nothing to scroll');
  const script: number[] = [];
  let rows = 0;
  const ownFrame = window.requestAnimationFrame.bind(window);
  let spent = 0;
  // All that the page does in a frame is asked for by it: its time is taken where it is called.
  window.requestAnimationFrame = (callback) =>
    ownFrame((time) => {
      const start = performance.now();
      callback(time);
      spent += performance.now() - start;
    });
  const end = scroller.scrollHeight - scroller.clientHeight;
  for (let top = 0; top < end; top += 157) {
    spent = 0;
    scroller.scrollTop = top;
    await new Promise<void>((resolve) => ownFrame(() => ownFrame(() => ownFrame(() => resolve()))));
    script.push(spent);
    rows = Math.max(rows, document.querySelectorAll('.strip-row').length);
  }
  return { script, rows };
}

void (async () => {
  const model = season();
  const { rows } = bodyOf(model, 'strip').strip;
  const shown: ToCalendar = { kind: 'shown', ask: 0, fishroom: 'bench', fishrooms: [], query: { view: 'strip', selection: {} }, model, texts: calendarTexts() };
  const { openBrowser } = (await import(`${process.cwd()}/test/host/browser.mjs`)) as typeof import('../host/browser.mjs');
  const { page, close } = await openBrowser({ width: 1400, height: 900 });
  try {
    await page.setContent(`<!DOCTYPE html><html lang="en"><head><title>Season</title><style>:root{--vscode-foreground:#ccc;--vscode-editor-background:#1f1f1f;--vscode-font-size:13px}body{margin:0}${readFileSync('dist/calendar.css', 'utf8')}</style></head><body></body></html>`);
    await page.evaluate('window.acquireVsCodeApi = () => ({ postMessage() {}, getState: () => ({ query: { view: "strip", selection: {} } }), setState() {} })');
    await page.addScriptTag({ path: 'dist/calendar.js' });
    await page.evaluate((message) => window.postMessage(message, '*'), shown as unknown as object);
    await page.locator('.strip-row').first().waitFor();
    const { script, rows: drawn } = (await page.evaluate(`(${scrollThrough.toString()})()`)) as Awaited<ReturnType<typeof scrollThrough>>;
    const sorted = [...script].sort((a, b) => a - b);
    const at = (share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
    console.log(`\nSeason: ${rows.length} rows of ${BROODS} broods, ${drawn} drawn at most, ${script.length} frames`);
    line('', 'median ms', '95 %', 'worst', 'at most');
    line('  script of a frame', at(0.5), at(0.95), at(1), mostOfFrame);
  } finally {
    await close();
  }
})();
