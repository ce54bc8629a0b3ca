import assert from 'node:assert/strict';
import fc from 'fast-check';
import { posterior, sumsOf, predictive, predictiveOf, priors, window, windowAfter, type Prior } from '../../../src/domain/learning';
import { studentTAbove, studentTQuantile } from '../../../src/domain/studentT';

function assertClose(actual: number, expected: number, tolerance = 1e-12): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${actual} is not ${expected}`);
}

describe('posterior', () => {
  it('is the prior before any observation', () => {
    assert.deepEqual(posterior({ k0: 4, v0: 4, s0: 0.5 }, sumsOf([])), { n: 0, mean: 0, centre: 0, kn: 4, vn: 4, scale2n: 0.25 });
  });

  it('draws the mean of the observations towards the model and widens by their spread and distance', () => {
    const after = posterior(priors.hatch, sumsOf([0.1, 0.2]));
    assert.deepEqual([after.n, after.kn, after.vn], [2, 6, 6]);
    assertClose(after.mean, 0.15);
    assertClose(after.centre, 0.05);
    // By hand: (4·0.12² + 2·0.05² + (4·2/6)·0.15²) / 6
    assertClose(after.scale2n, (0.0576 + 0.005 + 0.03) / 6);
  });

  it('throws at an observation that is no number', () => {
    for (const x of [NaN, Infinity, -Infinity]) assert.throws(() => posterior(priors.hatch, sumsOf([0, x])), RangeError);
    assert.throws(() => posterior(priors.hatch, sumsOf([Infinity, -Infinity])), RangeError);
  });

  it('takes a hundred thousand observations', () => {
    const observations = Array.from({ length: 100_000 }, (_, i) => (i % 2 === 0 ? 0.3 : 0.1));
    const after = posterior(priors.growth, sumsOf(observations));
    assertClose(after.centre, 0.2, 1e-4);
    assertClose(Math.sqrt(after.scale2n), 0.1, 1e-4);
  });
});

describe('predictive', () => {
  it('has the degrees of freedom of the variance and room for the unknown mean', () => {
    const next = predictive(posterior(priors.interval, sumsOf([])));
    assert.deepEqual([next.degrees, next.centre], [4, 0]);
    assertClose(next.scale, 0.3 * Math.sqrt(1.5));
  });

  it('throws where nothing is known', () => {
    const nothing: Prior = { k0: 0, v0: -1, s0: 0 };
    for (const observations of [[], [0.1]]) assert.throws(() => predictive(posterior(nothing, sumsOf(observations))), /nothing can be predicted/);
    assert.ok(predictive(posterior(nothing, sumsOf([0.1, 0.2]))).scale > 0);
  });

  // Bayes' rule summed up over a grid of means and variances, with the normal likelihood and the prior of Gelman et al.,
  // Bayesian Data Analysis, 3rd ed., section 3.3 (from memory): σ² ~ Inv-χ²(v0, s0²), μ | σ² ~ N(0, σ²/k0).
  for (const [prior, observations] of [
    [priors.hatch, [0.1, 0.2, 0.05]],
    [priors.interval, [-0.4]],
    [priors.growth, []],
  ] as const) {
    it(`agrees with Bayes' rule on a grid after ${observations.length} observations`, () => {
      const { degrees, centre, scale } = predictive(posterior(prior, sumsOf(observations)));
      for (const p of [0.1, 0.5, 0.9]) {
        assertClose(probabilityBelow(centre + scale * studentTQuantile(p, degrees), prior, observations), p, 5e-4);
      }
    });
  }
});

describe('window', () => {
  it('holds the model with 80 % before any record', () => {
    // 1.533 is the 90 % quantile of t with 4 degrees of freedom in any printed table (from memory).
    const reach = 1.533 * 0.12 * Math.sqrt(1.25);
    const factors = window(predictive(posterior(priors.hatch, sumsOf([]))));
    assert.equal(factors.expected, 1);
    assertClose(factors.to, Math.exp(reach), 1e-4);
    assertClose(factors.from, Math.exp(-reach), 1e-4);
  });

  it('closes in on a pair that always takes as long', () => {
    const windows = [0, 1, 4, 40].map((n) => window(predictive(posterior(priors.release, sumsOf(Array.from({ length: n }, () => Math.log(1.1)))))));
    const widths = windows.map(({ from, to }) => to / from);
    assert.deepEqual(widths, [...widths].sort((a, b) => b - a));
    assert.equal(new Set(widths).size, 4);
    assertClose(windows[2]?.expected ?? NaN, 1.1 ** (4 / 8));
    assertClose(windows[3]?.expected ?? NaN, 1.1 ** (40 / 44));
  });

  it('is in order and turns over with the observations', () => {
    const observations = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { maxLength: 30 });
    fc.assert(
      fc.property(fc.constantFrom(...Object.values(priors)), observations, (prior, xs) => {
        const it = window(predictive(posterior(prior, sumsOf(xs))));
        const mirrored = window(predictive(posterior(prior, sumsOf(xs.map((x) => -x)))));
        assert.ok(0 < it.from && it.from < it.expected && it.expected < it.to);
        assertClose(it.from * mirrored.to, 1, 1e-9);
        assertClose(it.expected * mirrored.expected, 1, 1e-9);
      }),
    );
  });
});

function probabilityBelow(x: number, prior: Prior, observations: readonly number[]): number {
  let below = 0;
  let all = 0;
  for (let logVariance = -12; logVariance <= 4; logVariance += 0.04) {
    const variance = Math.exp(logVariance);
    const deviation = Math.sqrt(variance);
    // The density of log σ²: that of the scaled inverse χ² times σ².
    const logPrior = -(prior.v0 / 2) * logVariance - (prior.v0 * prior.s0 ** 2) / (2 * variance);
    for (let mean = -1.5; mean <= 1.5; mean += 0.01) {
      let logWeight = logPrior - 0.5 * logVariance - (prior.k0 * mean * mean) / (2 * variance);
      for (const observed of observations) logWeight -= 0.5 * logVariance + (observed - mean) ** 2 / (2 * variance);
      const weight = Math.exp(logWeight);
      all += weight;
      below += weight * normalBelow((x - mean) / deviation);
    }
  }
  return below / all;
}

/** Abramowitz & Stegun 26.2.17 (from memory), good to 7.5e-8. */
function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const above = (Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z > 0 ? 1 - above : above;
}

describe('windowAfter', () => {
  const after = predictive(posterior(priors.hatch, sumsOf([0.1, 0.2])));

  it('leaves the shares of what remains', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 4, noNaN: true }), (passed) => {
        const cut = windowAfter(passed, after);
        const above = (factor: number): number => studentTAbove((Math.log(factor) - after.centre) / after.scale, after.degrees);
        for (const [share, factor] of [[0.9, cut.from], [0.5, cut.expected], [0.1, cut.to]] as const) assertClose(above(factor) / above(passed), share, 1e-6);
        assert.ok(passed <= cut.from && cut.from <= cut.expected && cut.expected <= cut.to);
      }),
    );
  });

  it('is the window itself as long as nothing has passed', () => {
    const whole = window(after);
    const cut = windowAfter(0, after);
    for (const end of ['from', 'expected', 'to'] as const) assertClose(cut[end], whole[end], 1e-9);
  });

  it('is now where nothing is left', () => {
    assert.deepEqual(windowAfter(1e300, { degrees: 1e6, centre: 0, scale: 1e-3 }), { from: 1e300, expected: 1e300, to: 1e300 });
  });

  it('takes the predictive back out of a window', () => {
    const back = predictiveOf(window(after), 'hatch', 2);
    for (const part of ['degrees', 'centre', 'scale'] as const) assertClose(back[part], after[part], 1e-9);
  });
});
