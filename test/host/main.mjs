// node test/host/main.mjs node|web|ui|desktop [FILTER]: the tests in a real VS Code; build first. `node` and `web` run test/host/suite inside the extension
// host, with dist/extension.js and dist/extension.web.js; `ui` drives the workbench from outside; `desktop` runs the suite in a downloaded VS Code.
import { pathToFileURL } from 'node:url';
import Mocha from 'mocha';
import { filesIn } from '../../src/build/filesIn.mjs';
import { outcomeOf, printOutcome } from '../../src/build/outcome.mjs';
import { inRoot, root } from '../../src/build/paths.mjs';
import { sampleNow } from '../../src/build/sample.mjs';
import { bundleSuite } from './bundle.mjs';
import { runTests } from './runTests.mjs';
import { makeWorkspace } from './workspace.mjs';

/** Of the folder, so that they hold on the desktop too. */
const settings = { 'broodsheet.now': sampleNow, 'files.autoSave': 'off' };

/** @typedef {'node' | 'web' | 'ui'} HostKind */

/**
 * Runs the tests of a kind and gives what they came to.
 * @param {HostKind} kind
 * @param {string} [filter] part of a file's path
 * @returns {Promise<import('../../src/build/outcome.mjs').Outcome>}
 */
export async function hostTest(kind, filter = '') {
  if (kind === 'ui') return await runUiTests(filter);
  const extensionTestsPath = await bundleSuite({ web: kind === 'web', filter });
  const { folder, remove } = makeWorkspace({ settings });
  try {
    return await runTests({ extensionDevelopmentPath: root, extensionTestsPath, folder, web: kind === 'web' });
  } finally {
    remove();
  }
}

/** @param {string} filter */
async function runUiTests(filter) {
  const files = filesIn('test/host/ui', /\.ui\.mjs$/).filter((file) => file.includes(filter));
  if (files.length === 0) throw new Error(`no file of test/host/ui has "${filter}" in its path`);
  const { hooks } = await import('./ui.mjs');
  const mocha = new Mocha({ reporter: process.env['REPORTER'] ?? 'spec', timeout: 300_000, forbidOnly: true, forbidPending: true });
  mocha.rootHooks(hooks);
  for (const file of files) mocha.addFile(inRoot(file));
  await mocha.loadFilesAsync();
  const outcome = await new Promise((resolve) => {
    const counted = outcomeOf(mocha.run(() => resolve(counted)));
  });
  if (outcome.passed + outcome.failures.length === 0) throw new Error('the files of test/host/ui hold no tests');
  return outcome;
}

async function runOnDesktop() {
  const { runTests: runDesktop } = await import('@vscode/test-electron');
  const extensionTestsPath = await bundleSuite({ web: false });
  const { folder, remove } = makeWorkspace({ settings });
  try {
    await runDesktop({ extensionDevelopmentPath: root, extensionTestsPath, launchArgs: [folder, '--disable-extensions', '--disable-workspace-trust'] });
  } finally {
    remove();
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.once(signal, () => process.exit(1));
  const [kind, filter] = process.argv.slice(2);
  if (kind === 'desktop') {
    await runOnDesktop();
  } else if (kind === 'node' || kind === 'web' || kind === 'ui') {
    process.exit(printOutcome(await hostTest(kind, filter)) ? 0 : 1);
  } else {
    throw new Error('say which host: node, web, ui or desktop');
  }
}
