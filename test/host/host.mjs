// Starts VS Code's own server, which serves the workbench to a browser and runs the extension host in Node. Nothing leaves this machine.
import { execFile, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { createWriteStream, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

const modules = join(dirname(fileURLToPath(import.meta.url)), 'node_modules');
const serverMain = join(modules, 'code-server/lib/vscode/out/server-main.js');

/** Keeps the workbench calm and off the network. Saving is never automatic, so that a test says when a file reaches the disk. */
const calmSettings = {
  'chat.disableAIFeatures': true,
  'extensions.autoCheckUpdates': false,
  'extensions.autoUpdate': false,
  'extensions.ignoreRecommendations': true,
  'files.autoSave': 'off',
  'git.enabled': false,
  'telemetry.telemetryLevel': 'off',
  'workbench.enableExperiments': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
};

/**
 * A running server. urlOf() gives the address of a workbench with the query given (`folder`, `payload`); it carries a token without which nobody is served.
 * `folder` holds all its data and logs; stop() ends it and removes that folder unless it is to be kept.
 * @typedef {{
 *   urlOf: (query: Readonly<Record<string, string>>) => string,
 *   authority: string,
 *   folder: string,
 *   stop: (options?: { keep?: boolean }) => Promise<void>,
 * }} Server
 */

/**
 * Starts a server on a free port of this machine (or the one given), with data of its own. `vsix`: packaged extensions to install. `settings`: the user's.
 * `trust`: VS Code asks whether to trust a folder, as it does for keepers; else every folder is trusted. `development`: an extension may be loaded from its
 * source folder. Throws with the server's output when it doesn't start.
 * @param {{ vsix?: readonly string[], settings?: Readonly<Record<string, unknown>>, trust?: boolean, development?: boolean, port?: number }} [options]
 * @returns {Promise<Server>}
 */
export async function startServer({ vsix = [], settings = {}, trust = false, development = false, port = 0 } = {}) {
  const folder = mkdtempSync(join(tmpdir(), 'broodsheet-host-'));
  mkdirSync(join(folder, 'data/User'), { recursive: true });
  writeFileSync(join(folder, 'data/User/settings.json'), JSON.stringify({ ...calmSettings, ...settings }, null, 2));
  const node = nodeOfHost();
  const places = ['--server-data-dir', join(folder, 'server'), '--user-data-dir', join(folder, 'data'), '--extensions-dir', join(folder, 'extensions')];
  const common = [serverMain, ...places, '--accept-server-license-terms'];
  // On Linux its sockets go where XDG_RUNTIME_DIR says, else they stay behind in the folder for temporary files.
  const env = { ...process.env, EXTENSIONS_GALLERY: '{}', ...(process.platform === 'linux' && { XDG_RUNTIME_DIR: folder }) };
  for (const file of vsix) await promisify(execFile)(node, [...common, '--install-extension', file], { env });

  const token = randomUUID();
  const args = [
    ...common,
    ...['--host', '127.0.0.1', '--port', String(port), '--connection-token', token, '--disable-telemetry', '--disable-experiments'],
    ...(trust ? [] : ['--disable-workspace-trust']),
    // Only with its test driver does a built product honour an extension under development.
    ...(development ? ['--enable-smoke-test-driver'] : []),
  ];
  const child = spawn(node, args, { env, stdio: ['ignore', 'pipe', 'pipe'] });
  const kill = () => child.kill();
  process.once('exit', kill);
  const ended = new Promise((resolve) => child.once('exit', resolve));
  const log = createWriteStream(join(folder, 'server.log'));
  child.stdout.pipe(log, { end: false });
  child.stderr.pipe(log, { end: false });
  const authority = `127.0.0.1:${await listeningPort(child)}`;

  return {
    urlOf: (query) => `http://${authority}/?${new URLSearchParams({ ...query, tkn: token })}`,
    authority,
    folder,
    async stop({ keep = false } = {}) {
      kill();
      await ended;
      process.off('exit', kill);
      log.end();
      if (!keep) rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 });
    },
  };
}

/** The Node that runs the server: the one installed beside it, else ours where it is new enough. */
function nodeOfHost() {
  const installed = join(modules, `node-${process.platform}-${process.arch}/bin/node`);
  if (existsSync(installed)) return installed;
  if (Number.parseInt(process.versions.node) >= 24) return process.execPath;
  throw new Error(`VS Code's server needs Node 24; for ${process.platform}-${process.arch} none comes with the host, so run this with Node 24`);
}

/**
 * @param {import('node:child_process').ChildProcessByStdio<null, import('node:stream').Readable, import('node:stream').Readable>} child
 * @returns {Promise<number>}
 */
function listeningPort(child) {
  return new Promise((resolve, reject) => {
    let output = '';
    const fail = (/** @type {string} */ what) => reject(new Error(`the server ${what}\n${output}`));
    const timer = setTimeout(() => fail('did not start within 120 s'), 120_000);
    for (const stream of [child.stdout, child.stderr]) {
      stream.on('data', (/** @type {Buffer} */ data) => {
        output += data.toString();
        const port = /Extension host agent listening on (\d+)/.exec(output)?.[1];
        if (port === undefined) return;
        clearTimeout(timer);
        resolve(Number(port));
      });
    }
    child.once('error', (error) => fail(`can't be run: ${error.message}`));
    child.once('exit', (code) => fail(`ended with exit code ${code}`));
  });
}
