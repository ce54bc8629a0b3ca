// npm run coverage: which lines of src the tests run, on the terminal and in coverage/index.html. The coverage of a bundle can't be told apart by source
// (every line would count as run), so here each source becomes a file of its own in dist/coverage.
import { cpSync, rmSync, writeFileSync } from 'node:fs';
import { build as esbuild } from 'esbuild';
import { filesIn } from './filesIn.mjs';
import { inRoot, root } from './paths.mjs';
import { run } from './run.mjs';
import { testFiles } from './test.mjs';

const folder = 'dist/coverage';
rmSync(inRoot(folder), { recursive: true, force: true });
const sources = ['src', 'test/support', 'test/unit', 'test/published'].flatMap((each) => filesIn(each, /(?<!\.d)\.ts$/));
const tests = testFiles('all');
await esbuild({
  absWorkingDir: root,
  entryPoints: [...new Set([...sources, ...tests])],
  outdir: folder,
  outbase: '.',
  format: 'cjs',
  platform: 'node',
  target: 'es2022',
  sourcemap: true,
  logLevel: 'warning',
});
for (const data of ['schemas', 'samples', 'package.json']) cpSync(inRoot(data), inRoot(folder, data), { recursive: true });
const readCsv = "require.extensions['.csv'] = (module, file) => { module.exports = require('node:fs').readFileSync(file, 'utf8'); };";
const imports = tests.map((file) => `require('./${file.replace(/\.ts$/, '.js')}');`);
writeFileSync(inRoot(folder, 'tests.cjs'), [readCsv, ...imports].join('\n'));

const reports = ['--reporter=text', '--reporter=html', '--include=src/**', '--exclude=src/build/**', '--exclude-after-remap'];
const mocha = [inRoot('node_modules/mocha/bin/mocha.js'), '--reporter=dot', '--timeout=120000', '--exit', inRoot(folder, 'tests.cjs')];
process.exitCode = await run(process.execPath, [inRoot('node_modules/c8/bin/c8.js'), ...reports, process.execPath, ...mocha]);
