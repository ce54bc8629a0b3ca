// npm test: installs what is missing, builds, checks the types, and runs every test: in four time zones, inside VS Code with both bundles, and from outside.
import { installHost, installProject } from './install.mjs';
import { failureText, printOutcome, together } from './outcome.mjs';

for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.once(signal, () => process.exit(1));

const began = Date.now();
await installProject();
await installHost();
const { build } = await import('./build.mjs');
const { typecheck } = await import('./typecheck.mjs');
const { test } = await import('./test.mjs');
const { hostTest } = await import('../../test/host/main.mjs');

let isSound = true;
step('building');
await build();
step('checking types');
if (!(await typecheck())) isSound = false;

/** @type {readonly (readonly [title: string, work: () => Promise<import('./outcome.mjs').Outcome>])[]} */
const suites = [
  ['tests in four time zones', () => test({ kind: 'all', inZones: true })],
  ["tests inside VS Code, Node's extension host", () => hostTest('node')],
  ['tests inside VS Code, web worker extension host', () => hostTest('web')],
  ['tests on the workbench', () => hostTest('ui')],
];
const results = [];
// A suite that broke down counts as one failure, and the others still run.
for (const [title, work] of suites) {
  step(title);
  const outcome = await work().catch((error) => {
    console.error(error);
    return { passed: 0, failures: [failureText(title, error)] };
  });
  results.push(outcome);
}

step('done');
if (!isSound) console.error('the types do not agree, see above');
// What failed is told again here: it stands far above, and a log is often kept only in part.
process.exit(printOutcome(together(results)) && isSound ? 0 : 1);

/** @param {string} title */
function step(title) {
  console.log(`\n== ${title} (${Math.round((Date.now() - began) / 1000)} s)`);
}
