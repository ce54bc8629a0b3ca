const remembered = new Map<number, Map<number, number>>();
const rememberedPerProbability = 10_000;

/**
 * The value that a Student t variable stays below with probability `p`. Degrees of freedom need not be whole; to ten
 * digits up to a million of them. Throws unless 0 < p < 1 and 0 < degrees < infinity.
 */
export function studentTQuantile(p: number, degrees: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`probability ${p} is not between 0 and 1`);
  if (!(degrees > 0 && degrees < Infinity)) throw new RangeError(`${degrees} are no degrees of freedom`);
  if (p === 0.5) return 0;
  let quantiles = remembered.get(p);
  if (quantiles === undefined || quantiles.size >= rememberedPerProbability) {
    quantiles = new Map();
    remembered.set(p, quantiles);
  }
  let quantile = quantiles.get(degrees);
  if (quantile === undefined) {
    quantile = p < 0.5 ? -upperQuantile(p, degrees) : upperQuantile(1 - p, degrees);
    quantiles.set(degrees, quantile);
  }
  return quantile;
}

/** The probability that a Student t variable is above `t`. Throws unless 0 < degrees < infinity. */
export function studentTAbove(t: number, degrees: number): number {
  if (!(degrees > 0 && degrees < Infinity)) throw new RangeError(`${degrees} are no degrees of freedom`);
  const tail = upperTail({ t: Math.abs(t), degrees, ratio: gammaRatio(degrees / 2) });
  return t < 0 ? 1 - tail : tail;
}

/** The value that a Student t variable is above with probability `tail`; unlike the quantile of 1 − tail, it doesn't lose a small one. */
export function studentTExceeded(tail: number, degrees: number): number {
  if (!(tail > 0 && tail < 1)) throw new RangeError(`probability ${tail} is not between 0 and 1`);
  if (!(degrees > 0 && degrees < Infinity)) throw new RangeError(`${degrees} are no degrees of freedom`);
  return tail > 0.5 ? -upperQuantile(1 - tail, degrees) : upperQuantile(tail, degrees);
}

/**
 * The value that is exceeded with probability `tail` < 1/2, by Newton's method from 0: to the right of 0 the upper tail
 * is convex, so every step stops short of the root, and the first that doesn't go up has met rounding.
 */
function upperQuantile(tail: number, degrees: number): number {
  const ratio = gammaRatio(degrees / 2);
  let t = 0;
  for (;;) {
    const logDensity = -((degrees + 1) / 2) * Math.log1p((t * t) / degrees);
    const density = (ratio / Math.sqrt(degrees * Math.PI)) * Math.exp(logDensity);
    const next = t + (upperTail({ t, degrees, ratio }) - tail) / density;
    if (!(next > t)) return t;
    t = next;
  }
}

interface TailPoint {
  readonly t: number;
  readonly degrees: number;
  /** `gammaRatio(degrees / 2)` */
  readonly ratio: number;
}

/**
 * P(T > t) for t >= 0 = I_x(degrees/2, 1/2) / 2 with x = degrees / (degrees + t²); I is the regularized incomplete beta
 * function. Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.7.1 and 26.5.2 (from memory).
 */
function upperTail({ t, degrees, ratio }: TailPoint): number {
  if (t === 0) return 0.5;
  const a = degrees / 2;
  const x = degrees / (degrees + t * t);
  const complement = (t * t) / (degrees + t * t);
  // x^a · (1 − x)^(1/2) / B(a, 1/2)
  const front = (Math.exp(-a * Math.log1p((t * t) / degrees)) * Math.sqrt(complement) * ratio) / Math.sqrt(Math.PI);
  if (x < (a + 1) / (a + 2.5)) return (0.5 * front * betaFraction(a, 0.5, x)) / a;
  return 0.5 - front * betaFraction(0.5, a, complement);
}

/**
 * The continued fraction of the incomplete beta function, by Lentz's method. Source: NIST Digital Library of
 * Mathematical Functions, 8.17.22 (from memory). Quick for x below (a + 1) / (a + b + 2).
 */
function betaFraction(a: number, b: number, x: number): number {
  let c = 1;
  let d = 1 / (1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 100_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d);
    c = 1 + even / c;
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d);
    c = 1 + odd / c;
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  return value;
}

/**
 * Γ(x + 1/2) / Γ(x) to about 15 digits, by its asymptotic series, which is that good from 60 on; below, Γ(x + 1) = x·Γ(x)
 * leads up to there. No difference of logarithms is taken, so nothing cancels where x is large. Source of the series:
 * Graham, Knuth & Patashnik, Concrete Mathematics, exercise 9.60 (from memory).
 */
function gammaRatio(x: number): number {
  let factor = 1;
  let y = x;
  for (; y < 60; y++) factor *= y / (y + 0.5);
  const z = 1 / y;
  return factor * Math.sqrt(y) * (1 + z * (-1 / 8 + z * (1 / 128 + z * (5 / 1024 + z * (-21 / 32_768 - (z * 399) / 262_144)))));
}
