import assert from 'node:assert/strict';
import { posterior } from '../../src/domain/learning';
import type { Posterior, Prior } from '../../src/domain/learning';

/**
 * Shrinkage of a few observations towards what is believed before: learning with the variance as good as known.
 *
 * Efron & Morris, Data Analysis Using Stein's Estimator and Its Generalizations, JASA 70 (1975): batting averages of 18
 * players after 45 at bats are drawn to their mean 0.265 by the factor 0.212 (both seen at sascommunity.org); Clemente's
 * 0.400 and Alvis's 0.156 (seen at 52sbl.cn).
 */
function assertClose(actual: number, expected: number, tolerance: number): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${actual} is not ${expected}`);
}

/** After n observations of a mean, about the prior's mean 0; `variance` of one observation is known. */
function after({ n, mean, variance, k0 }: { readonly n: number; readonly mean: number; readonly variance: number; readonly k0: number }): Posterior {
  const sure: Prior = { k0, v0: 1e12, s0: Math.sqrt(variance) };
  return posterior(sure, { n, sum: n * mean, squares: n * mean * mean });
}

describe('Efron & Morris', () => {
  const factor = 0.212;
  const mean = 0.265;
  // One observation is shrunk by 1 / (1 + k0).
  const k0 = 1 / factor - 1;

  for (const [player, average, shrunk] of [
    ['Clemente', 0.4, 0.294], // derived: 0.265 + 0.212 · (0.400 − 0.265)
    ['Alvis', 0.156, 0.242], // derived
  ] as const) {
    it(`draws ${player}'s ${average} to ${shrunk}`, () => {
      assertClose(mean + after({ n: 1, mean: average - mean, variance: 0.0043, k0 }).centre, shrunk, 5e-4);
    });
  }
});

describe('a normal mean under a normal prior', () => {
  // From memory, a usual textbook example: three observations of mean 9 and variance 4 under a prior of mean 12 and variance 4.
  it('has the mean 9.75 and the variance 1', () => {
    const { centre, scale2n, kn } = after({ n: 3, mean: 9 - 12, variance: 4, k0: 4 / 4 });
    assertClose(12 + centre, 9.75, 1e-12);
    assertClose(scale2n / kn, 1, 1e-9);
  });
});
