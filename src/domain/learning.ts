import { studentTAbove, studentTExceeded, studentTQuantile } from './studentT';

/** What a keeper's own records can teach. */
export type Quantity = 'hatch' | 'firstFeed' | 'freeSwimming' | 'release' | 'interval' | 'growth';

/**
 * What is believed before any record about x = ln(observed / model): its mean is 0, as good as known from `k0`
 * observations; its standard deviation `s0`, as good as known from `v0`.
 */
export interface Prior {
  readonly k0: number;
  readonly v0: number;
  readonly s0: number;
}

/** Common practice, no source: how far broods of one species differ where nothing is known of the pair. */
export const priors: Readonly<Record<Quantity, Prior>> = {
  hatch: { k0: 4, v0: 4, s0: 0.12 },
  firstFeed: { k0: 4, v0: 4, s0: 0.15 },
  freeSwimming: { k0: 4, v0: 4, s0: 0.15 },
  release: { k0: 4, v0: 4, s0: 0.1 },
  interval: { k0: 2, v0: 4, s0: 0.3 },
  growth: { k0: 4, v0: 4, s0: 0.15 },
};

/** What is believed after n observations. */
export interface Posterior {
  readonly n: number;
  /** Mean of the observations alone, 0 where there are none. */
  readonly mean: number;
  /** Mean of x, drawn from the observations' towards the prior's 0. */
  readonly centre: number;
  readonly kn: number;
  readonly vn: number;
  /** Square of the scale of x. */
  readonly scale2n: number;
}

/** Observations as sums, so that one can be left out without walking through the others. */
export interface Sums {
  readonly n: number;
  readonly sum: number;
  readonly squares: number;
}

export const NOTHING_SEEN: Sums = { n: 0, sum: 0, squares: 0 };

/** Throws when an observation isn't finite. */
export function sumsOf(observations: readonly number[]): Sums {
  let sum = 0;
  let squares = 0;
  for (const x of observations) {
    sum += x;
    squares += x * x;
  }
  if (!Number.isFinite(sum)) throw new RangeError('an observation is not a finite number');
  return { n: observations.length, sum, squares };
}

/** One more. Throws when it isn't finite. */
export function withOne({ n, sum, squares }: Sums, x: number): Sums {
  if (!Number.isFinite(x)) throw new RangeError('an observation is not a finite number');
  return { n: n + 1, sum: sum + x, squares: squares + x * x };
}

/** All but one. */
export function without({ n, sum, squares }: Sums, x: number): Sums {
  return n <= 1 ? NOTHING_SEEN : { n: n - 1, sum: sum - x, squares: squares - x * x };
}

/**
 * Normal data with unknown mean and variance under the conjugate prior, prior mean 0. Source: Gelman et al., Bayesian
 * Data Analysis, 3rd ed., section 3.3.
 */
export function posterior(prior: Prior, { n, sum, squares }: Sums): Posterior {
  const { k0, v0, s0 } = prior;
  const mean = n === 0 ? 0 : sum / n;
  // Never below 0, whatever is lost in the last digit.
  const spread = Math.max(0, squares - n * mean * mean);
  const kn = k0 + n;
  const vn = v0 + n;
  const scale2n = (v0 * s0 * s0 + spread + (kn > 0 ? ((k0 * n) / kn) * mean * mean : 0)) / vn;
  return { n, mean, centre: kn > 0 ? (n * mean) / kn : 0, kn, vn, scale2n };
}

/** The distribution of the next x: Student's t with these degrees of freedom, moved and stretched. */
export interface Predictive {
  readonly degrees: number;
  readonly centre: number;
  readonly scale: number;
}

/** What the next observation may be. Throws when prior and observations together say nothing: kn or vn not above 0. */
export function predictive(after: Posterior): Predictive {
  const { kn, vn, centre, scale2n } = after;
  if (!(kn > 0 && vn > 0)) throw new RangeError(`nothing can be predicted with kn ${kn} and vn ${vn}`);
  return { degrees: vn, centre, scale: Math.sqrt(scale2n * (1 + 1 / kn)) };
}

/** Factors on the model's value: it falls between `from` and `to` with 80 %, and as likely above `expected` as below. */
export interface Window {
  readonly from: number;
  readonly expected: number;
  readonly to: number;
}

/** The 10 %, 50 % and 90 % quantiles, back from logarithms to factors. */
export function window({ degrees, centre, scale }: Predictive): Window {
  const reach = scale * studentTQuantile(0.9, degrees);
  return { from: Math.exp(centre - reach), expected: Math.exp(centre), to: Math.exp(centre + reach) };
}

/** The predictive that a window with that many observations behind it came from. */
export function predictiveOf({ expected, to }: Window, quantity: Quantity, observations: number): Predictive {
  const degrees = priors[quantity].v0 + observations;
  const centre = Math.log(expected);
  return { degrees, centre, scale: (Math.log(to) - centre) / studentTQuantile(0.9, degrees) };
}

/**
 * The window of what has not happened yet after `passed` (a factor on the model's value, like the window): the predictive cut
 * off below there, 10, 50 and 90 % of what is left of it.
 */
export function windowAfter(passed: number, { degrees, centre, scale }: Predictive): Window {
  const left = passed > 0 ? studentTAbove((Math.log(passed) - centre) / scale, degrees) : 1;
  // So far out that nothing is left of it: it may happen at once.
  if (!(left > 0)) return { from: passed, expected: passed, to: passed };
  const at = (p: number): number => Math.max(passed, Math.exp(centre + scale * studentTExceeded(left * (1 - p), degrees)));
  return { from: at(0.1), expected: at(0.5), to: at(0.9) };
}
