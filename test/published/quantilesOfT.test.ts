import assert from 'node:assert/strict';
import { studentTQuantile } from '../../src/domain/studentT';

/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.2, Critical Values of the Student's t Distribution:
 * the one-sided columns 0.90 to 0.995. All values from memory. (Its column 0.999 is left out: as remembered, it is off by
 * up to 0.004.)
 */
const probabilities = [0.9, 0.95, 0.975, 0.99, 0.995] as const;
const rows: readonly (readonly [degrees: number, values: readonly number[]])[] = [
  [1, [3.078, 6.314, 12.706, 31.821, 63.657]],
  [2, [1.886, 2.92, 4.303, 6.965, 9.925]],
  [3, [1.638, 2.353, 3.182, 4.541, 5.841]],
  [4, [1.533, 2.132, 2.776, 3.747, 4.604]],
  [5, [1.476, 2.015, 2.571, 3.365, 4.032]],
  [6, [1.44, 1.943, 2.447, 3.143, 3.707]],
  [7, [1.415, 1.895, 2.365, 2.998, 3.499]],
  [8, [1.397, 1.86, 2.306, 2.896, 3.355]],
  [9, [1.383, 1.833, 2.262, 2.821, 3.25]],
  [10, [1.372, 1.812, 2.228, 2.764, 3.169]],
  [15, [1.341, 1.753, 2.131, 2.602, 2.947]],
  [20, [1.325, 1.725, 2.086, 2.528, 2.845]],
  [21, [1.323, 1.721, 2.08, 2.518, 2.831]],
  [30, [1.31, 1.697, 2.042, 2.457, 2.75]],
  [40, [1.303, 1.684, 2.021, 2.423, 2.704]],
  [60, [1.296, 1.671, 2.0, 2.39, 2.66]],
  [100, [1.29, 1.66, 1.984, 2.364, 2.626]],
  [1e9, [1.282, 1.645, 1.96, 2.326, 2.576]], // the table's last row, infinitely many
];

/** Half of the last printed digit, and rounding in binary. */
const tolerance = 5e-4 + 1e-9;

describe('NIST/SEMATECH table of Student t', () => {
  for (const [degrees, values] of rows) {
    it(`agrees at ${degrees} degrees of freedom`, () => {
      assert.equal(values.length, probabilities.length);
      for (const [column, p] of probabilities.entries()) {
        const value = values[column] ?? NaN;
        for (const [sign, probability] of [[1, p], [-1, 1 - p]] as const) {
          const quantile = studentTQuantile(probability, degrees);
          assert.ok(Math.abs(quantile - sign * value) <= tolerance, `${quantile} at ${probability} is not ${sign * value}`);
        }
      }
    });
  }
});
