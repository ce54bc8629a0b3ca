// The child process of test.mjs: runs one bundle of tests and sends its parent how many passed and failed. A skipped or lone (`only`) test is a failure.
import Mocha from 'mocha';

const bundle = process.argv[2];
if (!bundle || !process.send) throw new Error('mochaRun.mjs is started by test.mjs');

const mocha = new Mocha({ reporter: process.env['REPORTER'] ?? 'dot', timeout: 120_000, forbidOnly: true, forbidPending: true, checkLeaks: true });
mocha.addFile(bundle);
await mocha.loadFilesAsync();
const runner = mocha.run();
let passed = 0;
let failed = 0;
runner.on('pass', () => (passed += 1));
runner.on('fail', () => (failed += 1));
runner.once('end', () => {
  if (passed + failed === 0) throw new Error('the test files hold no tests');
  process.send?.({ passed, failed }, () => process.exit(0));
});
