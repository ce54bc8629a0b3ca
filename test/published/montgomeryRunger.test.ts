import assert from 'node:assert/strict';
import { posterior, sumsOf, predictive, type Prior } from '../../src/domain/learning';
import { studentTQuantile } from '../../src/domain/studentT';

/**
 * The classic t intervals, the limit of learning under a prior that says nothing: k0 to 0, v0 to -1, s0 to 0.
 *
 * Montgomery & Runger, Applied Statistics and Probability for Engineers, example 8-8 (and the confidence interval of the
 * same data): 22 specimens, mean 13.71, standard deviation 3.55 (seen at digilib.universitaspertamina.ac.id, page 317, and
 * gradebuddy.com/doc/43292/8).
 */
const nothing: Prior = { k0: 1e-9, v0: -1, s0: 0 };

function assertClose(actual: number, expected: number, tolerance: number): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${actual} is not ${expected}`);
}

/** n observations with exactly this mean and sample standard deviation: half of them as far below as the others above. */
function sample(n: number, mean: number, deviation: number): number[] {
  const middle = n % 2;
  const reach = deviation * Math.sqrt((n - 1) / (n - middle));
  return Array.from({ length: n }, (_, i) => (i < middle ? mean : mean + (i % 2 === 0 ? reach : -reach)));
}

describe('Montgomery & Runger, example 8-8', () => {
  const after = posterior(nothing, sumsOf(sample(22, 13.71, 3.55)));
  const t = studentTQuantile(0.975, 21);

  it('has the sample', () => {
    assert.equal(after.n, 22);
    assertClose(after.mean, 13.71, 1e-9);
    assertClose(Math.sqrt(after.scale2n), 3.55, 1e-8);
  });

  it('has the 95 % prediction interval 6.16 to 21.26', () => {
    const { degrees, centre, scale } = predictive(after);
    assert.equal(degrees, 21);
    assertClose(t, 2.0796, 5e-5); // derived
    assertClose(centre - scale * t, 6.16, 0.005); // seen
    assertClose(centre + scale * t, 21.26, 0.005); // seen
  });

  it('has the 95 % confidence interval 12.14 to 15.28 of the mean', () => {
    const error = Math.sqrt(after.scale2n / after.kn);
    assertClose(after.centre - error * t, 12.14, 0.005); // seen
    assertClose(after.centre + error * t, 15.28, 0.005); // seen
  });
});

describe('t prediction intervals of small samples', () => {
  for (const [n, multiplier] of [
    [2, 15.56], // derived: t with n − 1 degrees of freedom × √(1 + 1/n)
    [3, 4.968], // derived
    [4, 3.558], // derived
    [5, 3.041], // derived
    [6, 2.777], // derived
    [10, 2.373], // derived
  ] as const) {
    it(`reach ${multiplier} standard deviations for 95 % with ${n} observations`, () => {
      const { degrees, centre, scale } = predictive(posterior(nothing, sumsOf(sample(n, 0, 1))));
      assertClose(centre, 0, 1e-9);
      assertClose(scale * studentTQuantile(0.975, degrees), multiplier, multiplier < 10 ? 5e-4 : 5e-3);
    });
  }
});
