/** What a run of tests came to; each failure with its title and the error, as it is told once more at the end. @typedef {{ passed: number, failures: string[] }} Outcome */

/** Of an error (fast-check's counterexamples can be very long) at most this is told again, in characters. */
const longest = 4000;

/** Counts what a mocha runner reports; whole when it has ended. @param {import('mocha').Runner} runner @returns {Outcome} */
export function outcomeOf(runner) {
  /** @type {Outcome} */
  const outcome = { passed: 0, failures: [] };
  runner.on('pass', () => (outcome.passed += 1));
  runner.on('fail', (test, error) => outcome.failures.push(failureText(test.fullTitle(), error)));
  return outcome;
}

/** @param {string} title @param {unknown} error */
export function failureText(title, error) {
  const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
  const lines = text.length > longest ? `${text.slice(0, longest)} …` : text;
  return `${title}\n${lines.replaceAll(/^/gm, '    ')}`;
}

/** @param {readonly Outcome[]} outcomes @returns {Outcome} */
export function together(outcomes) {
  return { passed: outcomes.reduce((sum, { passed }) => sum + passed, 0), failures: outcomes.flatMap(({ failures }) => failures) };
}

/** Prints what failed, then, last, how many passed and failed. Gives whether all is well: something passed and nothing failed. @param {Outcome} outcome */
export function printOutcome({ passed, failures }) {
  for (const each of failures) console.log(`✖ ${each}\n`);
  console.log(`${passed} passed, ${failures.length} failed`);
  return passed > 0 && failures.length === 0;
}
