// Installs what package-lock.json asks for where it isn't there yet: the project's own packages, and those of the test host. Uses Node alone, since it runs first.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { inRoot, root } from './paths.mjs';
import { mustRun } from './run.mjs';

const host = inRoot('test/host');

/** Installs the project's packages unless they are there as locked. */
export async function installProject() {
  if (isInstalled(root)) return;
  console.log('installing the packages of the project');
  await npmCi(root);
}

/** Installs the packages of the test host (about 500 MB) and sets them up, unless they are there as locked. */
export async function installHost() {
  const isSetUp = existsSync(join(host, 'node_modules/code-server/lib/vscode/node_modules'));
  if (isSetUp && isInstalled(host)) return;
  console.log('installing the packages of the test host (about 500 MB)');
  await npmCi(host);
  await mustRun(process.execPath, [join(host, 'setup.mjs')]);
}

/** @param {string} folder */
async function npmCi(folder) {
  const npm = process.env['npm_execpath'];
  // EBADENGINE: some packages of the host ask for the Node that it brings with it.
  const args = ['ci', '--no-audit', '--no-fund', '--loglevel=error'];
  if (npm) await mustRun(process.execPath, [npm, ...args], { cwd: folder });
  else await mustRun('npm', args, { cwd: folder, shell: process.platform === 'win32' });
}

/**
 * Whether every package that the lock file of a folder asks for is installed in the locked version. npm leaves a lock file inside node_modules that tells
 * what was installed; packages for other platforms are missing there.
 * @param {string} folder
 */
function isInstalled(folder) {
  const installed = lockedPackages(join(folder, 'node_modules/.package-lock.json'));
  const wanted = lockedPackages(join(folder, 'package-lock.json'));
  if (!wanted) throw new Error(`${folder} has no package-lock.json`);
  if (!installed) return false;
  return Object.entries(wanted).every(([path, { version, optional }]) => {
    if (path === '') return true;
    const found = installed[path];
    return found ? found.version === version && existsSync(join(folder, path)) : optional === true;
  });
}

/**
 * @param {string} file
 * @returns {Record<string, { version?: string, optional?: boolean }> | undefined}
 */
function lockedPackages(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')).packages : undefined;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  await installProject();
  await installHost();
}
