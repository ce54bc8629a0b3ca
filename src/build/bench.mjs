// node src/build/bench.mjs [FILTER]: bundles and runs every test/bench/*.bench.ts whose path holds FILTER, one after the other, each in a process of its own.
import { build as esbuild } from 'esbuild';
import { build, bundling } from './build.mjs';
import { filesIn } from './filesIn.mjs';
import { inRoot } from './paths.mjs';
import { mustRun } from './run.mjs';

const filter = process.argv[2] ?? '';
const files = filesIn('test/bench', /\.bench\.ts$/).filter((file) => file.includes(filter));
if (files.length === 0) throw new Error(`no bench has "${filter}" in its path`);
// One of them looks at what the build makes.
await build({ production: true });
for (const file of files) {
  const outfile = file.replace(/^test\//, 'dist/').replace(/\.ts$/, '.cjs');
  await esbuild({ ...bundling, entryPoints: [file], outfile, platform: 'node', packages: 'external' });
  await mustRun(process.execPath, ['--expose-gc', '--enable-source-maps', inRoot(outfile)]);
}
