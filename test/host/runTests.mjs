import { createWriteStream, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { format } from 'node:util';
import { openBrowser } from './browser.mjs';
import { startServer } from './host.mjs';

/** What the suite puts before each of its lines, here and on the desktop (suite/index.ts). */
const mark = '[suite] ';

/**
 * Runs a test suite inside an extension host, as `runTests` of @vscode/test-electron does: the extension in `extensionDevelopmentPath` under development, a
 * folder open, then `run()` of the module `extensionTestsPath`. With `web` in the web worker host, which takes the extension's `browser` bundle, else in Node.
 * Gives what the suite itself counted: the workbench reports success also when its extension host died. Throws when the suite didn't come to its end.
 * @param {{ extensionDevelopmentPath: string, extensionTestsPath: string, folder: string, web?: boolean, seconds?: number }} options
 * @returns {Promise<import('../../src/build/outcome.mjs').Outcome>}
 */
export async function runTests({ extensionDevelopmentPath, extensionTestsPath, folder, web = false, seconds = 900 }) {
  const { name, publisher } = JSON.parse(readFileSync(join(extensionDevelopmentPath, 'package.json'), 'utf8'));
  // The payload has a word for it (extensionDevelopmentKind) that the workbench reads and then forgets; this setting holds.
  const where = web ? { 'remote.extensionKind': { [`${publisher}.${name}`]: ['web'] } } : {};
  const server = await startServer({ settings: where, development: true });
  const browserLog = createWriteStream(join(server.folder, 'browser.log'));
  const { page, close } = await openBrowser();
  let isClean = false;
  try {
    /** @type {{ passed: number, failed: number } | undefined} */
    let counts;
    /** @type {string[]} */
    const failures = [];
    /** @type {(outcome: unknown) => void} */
    let end = () => {};
    const exit = new Promise((resolve) => (end = resolve));
    // The log's arguments come as they were given to console.log.
    await page.exposeFunction('codeAutomationLog', (/** @type {string} */ type, /** @type {unknown[]} */ args) => {
      const line = format(...args);
      browserLog.write(`[${type}] ${line}\n`);
      const at = line.indexOf(mark);
      if (at < 0) return;
      const text = line.slice(at + mark.length);
      const [, passed, failed] = /^(\d+) passed, (\d+) failed$/.exec(text) ?? [];
      if (text.startsWith('✖ ')) failures.push(text.slice(2));
      else if (text.startsWith('    ') && failures.length > 0) failures[failures.length - 1] += `\n${text}`;
      if (passed === undefined) console.log(text);
      else counts = { passed: Number(passed), failed: Number(failed) };
    });
    await page.exposeFunction('codeAutomationExit', end);
    page.once('crash', () => end('crash of the page'));
    page.once('close', () => end('closing of the page'));
    setTimeout(() => end(`nothing for ${seconds} s`), seconds * 1000).unref();
    page.on('pageerror', (error) => browserLog.write(`[pageerror] ${error.stack}\n`));

    const remote = (/** @type {string} */ path) => `vscode-remote://${server.authority}${path}`;
    const payload = [
      ['extensionDevelopmentPath', remote(extensionDevelopmentPath)],
      ['extensionTestsPath', remote(extensionTestsPath)],
    ];
    await page.goto(server.urlOf({ folder, payload: JSON.stringify(payload) }));
    const code = await exit;
    if (!counts) throw new Error(`the suite did not come to its end; VS Code ended with ${code}`);
    if (counts.failed === 0 && code !== 0) throw new Error(`the suite passed, but VS Code ended with ${code}`);
    if (counts.passed + counts.failed === 0) throw new Error('the suite holds no tests');
    if (counts.failed !== failures.length) throw new Error(`the suite counted ${counts.failed} failures and told of ${failures.length}`);
    isClean = counts.failed === 0;
    return { passed: counts.passed, failures };
  } finally {
    await close();
    browserLog.end();
    await server.stop({ keep: !isClean });
    if (!isClean) console.error(`logs of the server and the browser: ${server.folder}`);
  }
}
