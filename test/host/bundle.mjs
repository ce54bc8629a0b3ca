import { join } from 'node:path';
import { build } from 'esbuild';
import { bundling } from '../../src/build/build.mjs';
import { filesIn } from '../../src/build/filesIn.mjs';
import { inRoot, root } from '../../src/build/paths.mjs';

/**
 * Bundles the suite for a host to dist/host/suite.js or suite.web.js and gives the bundle's path. Throws when no file of the suite has the filter in its path.
 * @param {{ web: boolean, filter?: string }} options
 */
export async function bundleSuite({ web, filter = '' }) {
  const files = filesIn('test/host/suite', /\.host\.ts$/).filter((file) => file.includes(filter));
  if (files.length === 0) throw new Error(`no file of test/host/suite has "${filter}" in its path`);
  const outfile = web ? 'dist/host/suite.web.js' : 'dist/host/suite.js';
  await build({
    ...bundling,
    sourcemap: 'inline',
    entryPoints: ['test/host/suite/index.ts'],
    outfile,
    platform: web ? 'browser' : 'node',
    ...(web && { mainFields: ['browser', 'module', 'main'] }),
    define: { HOST: JSON.stringify(web ? 'web worker' : 'node') },
    external: web ? ['vscode'] : ['vscode', 'mocha'],
    plugins: [everyHostFile(files), ...(web ? [workerStandIns] : [])],
  });
  return inRoot(outfile);
}

/** @param {readonly string[]} files @returns {import('esbuild').Plugin} */
function everyHostFile(files) {
  return {
    name: 'every-host-file',
    setup({ onResolve, onLoad }) {
      onResolve({ filter: /^every-host-file$/ }, ({ path }) => ({ path, namespace: 'suite' }));
      onLoad({ filter: /.*/, namespace: 'suite' }, () => ({ contents: files.map((file) => `import './${file}';`).join('\n'), resolveDir: root }));
    },
  };
}

/** What the web worker host can't load from Node: mocha's browser build and the assertions. @type {import('esbuild').Plugin} */
const workerStandIns = {
  name: 'worker-stand-ins',
  setup({ onResolve }) {
    const standIns = join(root, 'test/host/suite/worker');
    onResolve({ filter: /^mocha$/ }, () => ({ path: join(standIns, 'mocha.ts') }));
    onResolve({ filter: /^node:assert\/strict$/ }, () => ({ path: join(standIns, 'assert.ts') }));
  },
};
