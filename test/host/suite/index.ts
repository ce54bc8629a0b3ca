// The suite that runs inside VS Code. Every file `suite/<name>.host.ts` belongs to it, found by its name; there is no list to keep.
//
// The same files run in three hosts, so they must get by with what all have:
// - Node's extension host with dist/extension.js, the web worker host with dist/extension.web.js (node test/host/main.mjs node, … web), the desktop
//   (npm run test:desktop). So from Node only `node:assert/strict` (in the worker a small stand-in: ok, fail, strictEqual, notStrictEqual, deepStrictEqual,
//   match, rejects); files through `vscode.workspace.fs`; no test-library from npm that needs Node.
// - The open folder is a scratch copy of every fishroom in test/host/fixtures and samples (`room/`, `messy/`, …); `uriOf('room/clutches.csv')` of support.ts
//   names a file in it. What a test changes it puts back, or it writes a folder of its own (`writeText('my-room/clutches.csv', …)`).
// - Saving is by hand (`files.autoSave` is off), `broodsheet.now` is 2026-06-10T09:00, every folder is trusted.
// - What VS Code does, it does later: wait with `eventually(what, check)` of support.ts, never for a fixed time.
// - An undo over several files asks the user and throws in here: such things are driven from outside, in test/host/ui.
import Mocha from 'mocha';

/** Starts every line of ours, so that a runner can tell it from VS Code's own. */
const mark = '[suite] ';

/** Called by VS Code; rejects when a test failed. The last line says how many passed and failed: the runner believes that alone. */
export async function run(): Promise<void> {
  const mocha = new Mocha({ ui: 'bdd', reporter: Lines, timeout: 300_000, forbidOnly: true, forbidPending: true });
  mocha.suite.emit('pre-require', globalThis, '', mocha);
  await import('every-host-file');
  const failed = await new Promise<number>((resolve) => mocha.run(resolve));
  if (failed > 0) throw new Error(`${failed} tests failed`);
}

class Lines extends Mocha.reporters.Base {
  constructor(runner: Mocha.Runner) {
    super(runner);
    let passed = 0;
    let failed = 0;
    runner.on('pass', (test) => {
      passed += 1;
      print(`✔ ${test.fullTitle()} (${test.duration ?? 0} ms)`);
    });
    runner.on('fail', (test, error: Error) => {
      failed += 1;
      print(`✖ ${test.fullTitle()}`);
      for (const line of (error.stack ?? error.message).split('\n')) print(`    ${line}`);
    });
    runner.once('end', () => {
      print(`${passed} passed, ${failed} failed`);
    });
  }
}

function print(line: string): void {
  console.log(mark + line);
}
