// node src/build/test.mjs KIND [FILTER]: runs the tests of a kind, a folder of test/ (unit, published, …), a file of test/ (layers, metadata) or `all`,
// of these the files whose path holds FILTER. With --zones once in each of four time zones; REPORTER=spec names every test.
import { fork } from 'node:child_process';
import { rmSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { pathToFileURL } from 'node:url';
import { build as esbuild } from 'esbuild';
import { bundling } from './build.mjs';
import { filesIn } from './filesIn.mjs';
import { printOutcome, together } from './outcome.mjs';
import { inRoot, root } from './paths.mjs';
import { inParallel } from './run.mjs';

/** UTC; far to the east with summer time in the south; a half-hour offset; the zone in which the tests' rooms mostly stand. */
const zones = ['UTC', 'Pacific/Auckland', 'America/St_Johns', 'Europe/Berlin'];

/**
 * Runs the tests of a kind in this process's time zone, or in four of them. Throws when there are none.
 * @param {{ kind: string, filter?: string, inZones?: boolean }} options
 * @returns {Promise<import('./outcome.mjs').Outcome>}
 */
export async function test({ kind, filter = '', inZones = false }) {
  const files = testFiles(kind).filter((file) => file.includes(filter));
  if (files.length === 0) throw new Error(`no test file of kind ${kind}${filter ? ` has "${filter}" in its path` : ''}`);
  const bundle = await bundleTests(files, `dist/test/${kind}${filter.replaceAll(/\W+/g, '-')}.${process.pid}.cjs`);
  console.log(`${kind}: ${files.length} test files`);
  try {
    return together(await inParallel(inZones ? zones : [process.env['TZ'] ?? ''], 2, (zone) => runMocha(bundle, zone)));
  } finally {
    for (const file of [bundle, `${bundle}.map`]) rmSync(file, { force: true });
  }
}

/** The test files of a kind, from the project's folder. @param {string} kind */
export function testFiles(kind) {
  const files = filesIn('test', /\.test\.ts$/).filter((file) => !/^test\/(host|bench|support)\//.test(file));
  return kind === 'all' ? files : files.filter((file) => file.startsWith(`test/${kind}/`) || file === `test/${kind}.test.ts`);
}

/**
 * One bundle of all the files, packages left outside. Gives its absolute path.
 * @param {readonly string[]} files
 * @param {string} outfile
 */
async function bundleTests(files, outfile) {
  const contents = files.map((file) => `import './${file}';`).join('\n');
  await esbuild({ ...bundling, stdin: { contents, resolveDir: root, sourcefile: 'tests.ts' }, outfile, platform: 'node', packages: 'external' });
  return inRoot(outfile);
}

/**
 * @param {string} bundle
 * @param {string} zone name of a time zone; empty: the machine's
 * @returns {Promise<import('./outcome.mjs').Outcome>}
 */
function runMocha(bundle, zone) {
  return new Promise((resolve, reject) => {
    const child = fork(inRoot('src/build/mochaRun.mjs'), [bundle], {
      cwd: root,
      // In English, whatever this machine speaks.
      env: { ...process.env, LC_ALL: 'C.UTF-8', ...(zone && { TZ: zone }) },
      execArgv: ['--enable-source-maps'],
      silent: true,
    });
    let output = zone ? `TZ=${zone}` : '';
    for (const stream of [child.stdout, child.stderr]) stream?.setEncoding('utf8').on('data', (text) => (output += text));
    /** @type {import('./outcome.mjs').Outcome | undefined} */
    let outcome;
    child.on('message', (message) => (outcome = /** @type {import('./outcome.mjs').Outcome} */ (message)));
    child.once('error', reject);
    child.once('close', (code) => {
      console.log(output.trimEnd());
      if (outcome) resolve({ ...outcome, failures: outcome.failures.map((each) => (zone ? `TZ=${zone} ${each}` : each)) });
      else reject(new Error(`the test run ended with exit code ${code} before its tests did`));
    });
  });
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { values, positionals } = parseArgs({ allowPositionals: true, options: { zones: { type: 'boolean' } } });
  const [kind, filter] = positionals;
  if (!kind) throw new Error('say which kind of tests: all, unit, published, …');
  try {
    const outcome = await test({ kind, ...(filter && { filter }), inZones: values.zones === true });
    if (!printOutcome(outcome)) process.exitCode = 1;
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
