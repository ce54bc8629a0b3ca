// The child process of test.mjs: runs one bundle of tests and sends its parent what they came to. A skipped or lone (`only`) test is a failure.
import Mocha from 'mocha';
import { outcomeOf } from './outcome.mjs';

const bundle = process.argv[2];
if (!bundle || !process.send) throw new Error('mochaRun.mjs is started by test.mjs');

const mocha = new Mocha({ reporter: process.env['REPORTER'] ?? 'dot', timeout: 300_000, forbidOnly: true, forbidPending: true, checkLeaks: true });
mocha.addFile(bundle);
await mocha.loadFilesAsync();
const runner = mocha.run();
const outcome = outcomeOf(runner);
runner.once('end', () => {
  if (outcome.passed + outcome.failures.length === 0) throw new Error('the test files hold no tests');
  process.send?.(outcome, () => process.exit(0));
});
