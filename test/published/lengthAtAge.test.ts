import assert from 'node:assert/strict';
import { leastSquares } from '../../src/domain/leastSquares';
import type { Curve } from '../../src/domain/leastSquares';

/**
 * Length at age (years, cm) in the documentation of the R package TropFishR, growth_length_age, after a method of Sparre &
 * Venema 1998 (data seen in its source; whether they are that book's own is not confirmed). The curve here has von
 * Bertalanffy's t0, which a brood's does not: the same search finds it.
 */
const points = [
  [0.64, 17.3],
  [1.16, 27.9],
  [1.65, 35.3],
  [2.1, 40.2],
  [2.64, 43.3],
  [3.21, 45.5],
].map(([x, y]) => ({ x: x as number, y: y as number }));

/** Parameters: the length after endless time, K, t0. */
const withStart: Curve = ([endless, k, t0], age) => {
  const rest = Math.exp(-(k as number) * (age - (t0 as number)));
  return { value: (endless as number) * (1 - rest), slopes: [1 - rest, (endless as number) * (age - (t0 as number)) * rest, -(endless as number) * (k as number) * rest] };
};

function assertRounds(actual: readonly number[], expected: readonly string[]): void {
  assert.deepEqual(
    actual.map((value, i) => value.toFixed((expected[i] as string).split('.')[1]?.length ?? 0)),
    expected,
  );
}

describe('length at age after Sparre & Venema 1998', () => {
  it('has the least squares that were reckoned another way', () => {
    const fit = leastSquares(withStart, points, [50, 0.5, 0]);
    assert.ok(fit !== undefined);
    assertRounds([...fit.parameters, ...fit.errors, fit.rss], ['49.87', '0.8025', '0.1151', '0.8821', '0.04967', '0.03207', '0.4572']); // derived, by another program
  });

  it('has the line of von Bertalanffy’s plot with 50 cm after endless time', () => {
    const logs = points.map(({ x, y }) => ({ x, y: -Math.log(1 - y / 50) }));
    const line = leastSquares(([a, b], x) => ({ value: (a as number) + (b as number) * x, slopes: [1, x] }), logs, [0, 1]);
    assert.ok(line !== undefined);
    const [a, k] = line.parameters as [number, number];
    assertRounds([k, -a / k], ['0.7825', '0.08687']); // derived
  });
});
