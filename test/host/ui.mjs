// Drives the workbench as a keeper does, by keyboard and eyes, with the packaged extension installed. For what the suite inside VS Code can't see or do:
// the Problems view, undo over several files, questions to the user, the looks.
//
// A UI test is test/host/ui/<name>.ui.mjs, found by its name, run by mocha in plain Node (node test/host/main.mjs ui [FILTER]):
//
//   describe('…', () => {
//     /** @type {import('../ui.mjs').Workbench} */ let workbench;
//     before(async () => { workbench = await openWorkbench({ rooms: ['messy'] }); });   // about 15 s, so one for a file
//     after(() => workbench.close());
//     it('…', async () => { await workbench.openFile('messy/tanks.csv'); await workbench.problem('is not in rooms.csv'); });
//   });
//
// - The open folder is a scratch copy; paths are from there ('messy/tanks.csv'). Saving is by hand, `broodsheet.now` is 2026-06-10T09:00.
// - Locators of Playwright wait by themselves; so do command, openFile, problem, save, shows, holds. Never wait for a fixed time.
// - Lists and editors of VS Code hold only the rows in view: problemRows() and shownText() see what a person sees, readFile() what is on the disk.
// - When a test fails, a picture of the workbench and the logs are kept, and their place is printed.
import { strictEqual } from 'node:assert/strict';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readFile, realpath } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { inRoot } from '../../src/build/paths.mjs';
import { packVsix } from '../../src/build/package.mjs';
import { sampleNow } from '../../src/build/sample.mjs';
import { openBrowser } from './browser.mjs';
import { startServer } from './host.mjs';
import { makeWorkspace } from './workspace.mjs';

/** So that what is typed is what stands there, and nothing else is shown among it. */
const plainTyping = { 'editor.inlayHints.enabled': 'off', 'editor.autoClosingBrackets': 'never', 'editor.autoClosingQuotes': 'never', 'editor.quickSuggestions': { other: 'off', comments: 'off', strings: 'off' } };

/** Long enough for a slow machine, in ms: what doesn't come by then doesn't come. Who writes a test has less. */
const PATIENCE = Number(process.env['PATIENCE'] ?? 120_000);

/** Waits until a check passes, which throws as long as it doesn't. @param {() => Promise<void>} check */
async function until(check) {
  for (const end = Date.now() + PATIENCE; ; ) {
    try {
      await check();
      return;
    } catch (error) {
      if (Date.now() > end) throw error;
      await wait(100);
    }
  }
}

/** The package of the extension, made once in a run. @type {ReturnType<typeof packVsix> | undefined} */
let packing;

/** @type {Set<Workbench>} */
const opened = new Set();

/** For mocha: a picture of every open workbench after a test that failed. */
export const hooks = {
  /** @this {Mocha.Context} */
  async afterEach() {
    const test = this.currentTest;
    if (test?.state !== 'failed') return;
    for (const workbench of opened) await workbench.keepEvidence(test.fullTitle());
  },
};

/** By what the workbench's element is marked with. @typedef {keyof typeof themes} Theme */
const themes = /** @type {const} */ ({
  dark: ['Default Dark Modern', 'vs-dark'],
  light: ['Default Light Modern', 'vs'],
  'high contrast': ['Default High Contrast', 'hc-black'],
  'high contrast light': ['Default High Contrast Light', 'hc-light'],
});

/**
 * Opens a scratch folder with the named fixtures and samples (all of them without `rooms`) in a workbench of its own; with `inside` only the one of that
 * name; with `several` each as a folder of one workspace. With `trust` VS Code asks whether to trust the folder. `settings` are the user's. A theme holds
 * from the start, since the workbench takes only the folder's word for it; `size` is that of the window, in pixels. `language` is the display language that
 * extensions see; the workbench's own texts stay in English, as there is no language pack.
 * @param {{
 *   rooms?: readonly string[], inside?: string, several?: boolean, settings?: Readonly<Record<string, unknown>>, trust?: boolean,
 *   theme?: Theme, size?: { width: number, height: number }, language?: string,
 * }} [options]
 * @returns {Promise<Workbench>}
 */
export async function openWorkbench({ rooms, inside, several = false, settings = {}, trust = false, theme, size, language } = {}) {
  const folderSettings = theme && { 'workbench.colorTheme': themes[theme][0] };
  const workspace = makeWorkspace({ ...(rooms && { only: rooms }), ...(inside && { inside }), ...(folderSettings && { settings: folderSettings }) });
  const allSettings = { 'broodsheet.now': sampleNow, ...plainTyping, ...settings };
  packing ??= packVsix();
  const server = await startServer({ vsix: [(await packing).file], settings: allSettings, trust });
  const browser = await openBrowser(size);
  browser.page.setDefaultTimeout(PATIENCE);
  if (language) await browser.page.addInitScript((name) => Object.assign(globalThis, { _VSCODE_NLS_LANGUAGE: name }), language);
  const workbench = new Workbench(workspace, server, browser);
  opened.add(workbench);
  try {
    await browser.page.goto(server.urlOf(several ? { workspace: workspaceOfAll(workspace.folder) } : { folder: workspace.folder }));
    await browser.page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
    if (theme) await browser.page.locator(`.monaco-workbench.${themes[theme][1]}`).waitFor();
    return workbench;
  } catch (error) {
    await workbench.keepEvidence('opening the workbench');
    await workbench.close();
    throw error;
  }
}

/** Writes a workspace of all folders in a folder, and gives its path. @param {string} folder */
function workspaceOfAll(folder) {
  const file = join(folder, 'all.code-workspace');
  const folders = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory() && !entry.name.startsWith('.'));
  writeFileSync(file, JSON.stringify({ folders: folders.map(({ name }) => ({ path: name })) }));
  return file;
}

export class Workbench {
  #workspace;
  #server;
  #browser;
  #hasFailed = false;
  #filter = '';
  /** @type {string[]} */
  #log = [];

  /** Names of hosts beside this machine that the page asked for something; nobody should be there. @type {Set<string>} */
  outsideHosts = new Set();

  /**
   * @param {ReturnType<typeof makeWorkspace>} workspace
   * @param {import('./host.mjs').Server} server
   * @param {Awaited<ReturnType<typeof openBrowser>>} browser
   */
  constructor(workspace, server, browser) {
    this.#workspace = workspace;
    this.#server = server;
    this.#browser = browser;
    this.page.on('console', (message) => this.#log.push(`[${message.type()}] ${message.text()}`));
    this.page.on('pageerror', (error) => this.#log.push(`[pageerror] ${error.stack}`));
    this.page.on('request', (request) => {
      const { protocol, hostname } = new URL(request.url());
      if (/^(https?|wss?):$/.test(protocol) && !/^(127\.0\.0\.1|localhost|.*\.localhost)$/.test(hostname)) this.outsideHosts.add(hostname);
    });
  }

  /** Playwright's page, for what has no method here. */
  get page() {
    return this.#browser.page;
  }

  /** The open folder. */
  get folder() {
    return this.#workspace.folder;
  }

  /**
   * Runs a command by its title in the palette, with its category: 'Broodsheet: Fill this sheet'. With `asks` it goes on in a list of its own.
   * @param {string} title
   * @param {{ asks?: boolean }} [options]
   */
  async command(title, { asks = false } = {}) {
    await this.#pick('F1', `>${title}`, title);
    if (!asks) await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  /** Opens a file of the folder in an editor and puts the cursor there. @param {string} path */
  async openFile(path) {
    const name = path.split('/').at(-1) ?? path;
    await this.#pick('Control+P', path, name);
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
    await this.page.locator('.tab.active', { hasText: name }).waitFor();
    await this.inEditorOf(path);
  }

  /** Waits until the keys go to the editor of a file: its tab comes first, and one editor after the other shows in the same place. @param {string} path */
  async inEditorOf(path) {
    await this.page.locator(`.editor-group-container.active .monaco-editor.focused[data-uri$="/${path}"] .view-line`).first().waitFor();
  }

  /** Takes a row of the list that a key opens. @param {string} key @param {string} typed @param {string} row */
  async #pick(key, typed, row) {
    const input = this.page.locator('.quick-input-widget input.input');
    // The one that Enter takes: what was opened lately is listed before the list is searched.
    const listed = this.page.locator('.quick-input-list .monaco-list-row.focused', { hasText: row });
    for (let tries = 6; ; tries--) {
      await this.page.keyboard.press(key);
      await input.waitFor();
      await input.fill(typed);
      if (await listed.waitFor({ timeout: 20_000 }).then(() => true, () => false)) break;
      if (tries === 0) throw new Error(`${row} is not listed`);
      // A list that was opened before files can be searched has none, as long as it is open.
      await this.page.keyboard.press('Escape');
      await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
    }
    await this.page.keyboard.press('Enter');
  }

  /** Puts the cursor of the active editor, both from 1. @param {number} line @param {number} column */
  async goTo(line, column) {
    await this.page.keyboard.press('Control+G');
    const input = this.page.locator('.quick-input-widget input.input');
    await input.waitFor();
    await input.fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
    await this.page.locator('.statusbar-item', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
    await this.page.locator('.editor-instance .monaco-editor.focused').waitFor();
  }

  /** Types at the cursor, a key at a time. @param {string} text */
  async type(text) {
    await this.page.keyboard.type(text);
  }

  /** Saves the active editor and waits until it is clean. */
  async save() {
    await this.page.keyboard.press('Control+S');
    await this.page.locator('.tab.active:not(.dirty)').waitFor();
  }

  /** Undoes the last step in the active editor. */
  async undo() {
    await this.page.keyboard.press('Control+Z');
  }

  /** The lines of the active editor that are in view. */
  async shownText() {
    const lines = await this.page.locator('.editor-group-container.active .view-lines .view-line').evaluateAll((elements) =>
      elements
        .map((element) => ({ top: element.getBoundingClientRect().top, text: element.textContent ?? '' }))
        .sort((a, b) => a.top - b.top)
        .map(({ text }) => text.replaceAll('\u00a0', ' ')),
    );
    return lines.join('\n');
  }

  /** Waits until the lines of the active editor that are in view are these. @param {string} text */
  async shows(text) {
    await until(async () => strictEqual(await this.shownText(), text));
  }

  /** Waits until a file of the folder holds this on the disk. @param {string} path @param {string} text */
  async holds(path, text) {
    await until(async () => strictEqual(await this.readFile(path), text));
  }

  /** A file of the folder as it is on the disk. @param {string} path */
  async readFile(path) {
    return await readFile(join(await realpath(this.folder), path), 'utf8');
  }

  /** Shows the Problems view, optionally only what its filter box lets through. @param {string} [filter] */
  async showProblems(filter = '') {
    await this.command('Problems: Focus on Problems View');
    await this.page.locator('.markers-panel').first().waitFor();
    this.#filter = filter;
    await this.#keepFilter();
  }

  /** A view that isn't quite there yet loses what was typed into it. */
  async #keepFilter() {
    const box = this.page.locator('.viewpane-filter input').first();
    if ((await box.inputValue()) !== this.#filter) await box.fill(this.#filter);
  }

  /** The row of the Problems view that shows a text, waited for. Show the view first. @param {string} text */
  async problem(text) {
    const row = this.page.locator('.markers-panel .monaco-list-row', { hasText: text }).first();
    await until(async () => {
      await this.#keepFilter();
      await row.waitFor({ timeout: 2_000 });
    });
    return row;
  }

  /** Waits until no row of the Problems view shows the text. @param {string} text */
  async noProblem(text) {
    await this.#keepFilter();
    await this.page.locator('.markers-panel .monaco-list-row', { hasText: text }).first().waitFor({ state: 'detached' });
  }

  /** The rows of the Problems view that are in view: files and their problems. */
  async problemRows() {
    const rows = await this.page.locator('.markers-panel .monaco-list-row').allInnerTexts();
    return rows.map((row) => row.replaceAll(/\s+/g, ' ').trim());
  }

  /** Changes a setting of the folder while the workbench runs. @param {string} key @param {unknown} value */
  setSetting(key, value) {
    const file = join(this.folder, '.vscode/settings.json');
    mkdirSync(dirname(file), { recursive: true });
    const settings = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};
    writeFileSync(file, JSON.stringify({ ...settings, [key]: value }, null, 2));
  }

  /** Makes a picture of the window and gives its path: <name>.png in dist/host/pictures, or in another folder. @param {string} name @param {string} [folder] */
  async screenshot(name, folder = inRoot('dist/host/pictures')) {
    const path = join(folder, `${name.replaceAll(/[^\w-]+/g, '-')}.png`);
    mkdirSync(folder, { recursive: true });
    await this.page.screenshot({ path });
    return path;
  }

  /** Keeps a picture and the logs of something that failed, and says where. @param {string} what */
  async keepEvidence(what) {
    this.#hasFailed = true;
    writeFileSync(join(this.#server.folder, 'browser.log'), this.#log.join('\n'));
    const picture = await this.screenshot(`failed ${what}`).catch((error) => `none (${error})`);
    console.error(`${what}: picture ${picture}, logs of the server and the browser ${this.#server.folder}`);
  }

  /** Ends browser and server and removes the scratch folder. */
  async close() {
    opened.delete(this);
    await this.#browser.close();
    await this.#server.stop({ keep: this.#hasFailed });
    this.#workspace.remove();
  }
}
