// node src/build/typecheck.mjs: checks the types of every side; each has a tsconfig.json that tells which globals it may use.
import { cpus } from 'node:os';
import { pathToFileURL } from 'node:url';
import { inRoot } from './paths.mjs';
import { inParallel, runQuietly } from './run.mjs';

const sides = ['tsconfig.json', 'src/cli', 'src/vscode', 'src/build', 'webview', 'test', 'test/host/ui'];

/** Whether all types agree; prints where they don't. */
export async function typecheck() {
  const tsc = inRoot('node_modules/typescript/bin/tsc');
  const results = await inParallel(sides, cpus().length, (side) => runQuietly(process.execPath, [tsc, '--noEmit', '--pretty', 'false', '--project', side]));
  const errors = new Set(results.flatMap(({ output }) => output.split('\n')).filter((line) => line !== ''));
  for (const error of errors) console.error(error);
  return results.every(({ code }) => code === 0);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  if (!(await typecheck())) process.exitCode = 1;
}
