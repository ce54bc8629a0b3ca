// Finds a Chrome or Chromium to drive, or installs one.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome', 'chrome'];
const places = [
  '/usr/bin/chromium',
  '/usr/bin/google-chrome',
  '/opt/google/chrome/chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
];

/**
 * The path of a Chrome or Chromium: what the variable CHROMIUM names, else an installed one, else one that is installed now (by apt as root on Debian and
 * its kin, elsewhere by Playwright's own download). Throws, saying what to do, when there is none to be had.
 * @returns {Promise<string>}
 */
export async function findChromium() {
  const named = process.env['CHROMIUM'];
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`CHROMIUM names ${named}, which isn't there`);
  }
  const found = installedChromium();
  if (found) return found;
  console.log('no Chrome or Chromium is installed; installing Chromium');
  const installed = (await installByApt()) ? installedChromium() : undefined;
  const usable = installed ?? downloadedChromium();
  if (usable) return usable;
  throw new Error('The tests in VS Code need Chrome or Chromium, and none could be installed. Install one, or name its path in the variable CHROMIUM.');
}

function installedChromium() {
  const onPath = (process.env['PATH'] ?? '').split(delimiter).flatMap((folder) => names.map((name) => join(folder, name)));
  return [...onPath, ...places, chromium.executablePath()].find((path) => existsSync(path));
}

/** Whether apt installed Debian's package; false where that isn't ours to do. Another run of apt is waited for. */
async function installByApt() {
  const isDebianKin = existsSync('/etc/os-release') && /^ID(_LIKE)?=.*debian/m.test(readFileSync('/etc/os-release', 'utf8'));
  // Ubuntu's package of that name only points to a snap.
  const isUbuntu = isDebianKin && /^ID=ubuntu/m.test(readFileSync('/etc/os-release', 'utf8'));
  if (!isDebianKin || isUbuntu || process.getuid?.() !== 0) return false;
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (let attempt = 1; attempt <= 20; attempt += 1) {
    const commands = ['apt-get update', 'apt-get install -y --no-install-recommends chromium fonts-dejavu-core'].join(' && ');
    const { status, stdout, stderr } = spawnSync('sh', ['-c', commands], { env, encoding: 'utf8' });
    if (status === 0) return true;
    if (!/could not get lock|unable to (acquire|lock)/i.test(stderr)) {
      console.error(`apt-get failed:\n${stdout}${stderr}`);
      return false;
    }
    console.log(`apt is busy with something else; trying again (${attempt})`);
    await wait(15_000);
  }
  return false;
}

/** Playwright's own download, where its server can be reached. */
function downloadedChromium() {
  const cli = join(dirname(fileURLToPath(import.meta.resolve('playwright-core'))), 'cli.js');
  const { status } = spawnSync(process.execPath, [cli, 'install', 'chromium'], { stdio: 'inherit' });
  const path = chromium.executablePath();
  return status === 0 && existsSync(path) ? path : undefined;
}
