import { NOTHING_SEEN, posterior, predictive, priors, window } from './learning';
import type { Quantity, Sums } from './learning';
import type { LearnedWindow } from './timeline';

/** What was expected with what was known then, beside what came about; all in one unit, counted from the same start. */
export interface Forecast {
  readonly from: number;
  readonly expected: number;
  readonly to: number;
  /** What the species' number alone expects. */
  readonly profile: number;
  /** What the plain mean of the pair's own, known then, expects; undefined while none is known. */
  readonly mean: number | undefined;
  /** How many of the pair's own were known. */
  readonly observations: number;
  readonly actual: number;
  /** Whether it came about within the window. */
  readonly held: boolean;
}

/** How good forecasts were. Mean absolute errors are in the unit of the forecasts. */
export interface Score {
  readonly n: number;
  readonly held: number;
  readonly mae: number;
  readonly maeProfile: number;
  /** Over the same forecasts: where none of the pair's own was known yet, the species' number stands in. Undefined where none ever was. */
  readonly maeMean: number | undefined;
}

/** Adds up what forecasts were worth, one by one. */
export class Scoring {
  #n = 0;
  #held = 0;
  #own = 0;
  #profile = 0;
  #mean = 0;
  #withMean = 0;

  /** `error` tells how far an expectation is from what came about; without it, from `actual`. */
  add({ expected, profile, mean, actual, held }: Forecast, error: (expected: number) => number = (value) => Math.abs(value - actual)): void {
    this.#n++;
    if (held) this.#held++;
    if (mean !== undefined) this.#withMean++;
    this.#own += error(expected);
    this.#profile += error(profile);
    this.#mean += error(mean ?? profile);
  }

  /** Undefined before the first. */
  get score(): Score | undefined {
    const n = this.#n;
    if (n === 0) return undefined;
    return { n, held: this.#held, mae: this.#own / n, maeProfile: this.#profile / n, maeMean: this.#withMean === 0 ? undefined : this.#mean / n };
  }
}

/**
 * What a pair's own records taught up to some moment. Sources (broods, intervals) come, change and go one by one, so that
 * walking through a long life costs the same at its end as at its beginning.
 */
export class KnownSoFar {
  readonly #quantity: Quantity;
  readonly #bySource = new Map<unknown, number>();
  #sums: Sums = NOTHING_SEEN;
  #ratios = 0;
  #learned: LearnedWindow | undefined;

  constructor(quantity: Quantity) {
    this.#quantity = quantity;
  }

  /** Takes x = ln(observed / model) of a source in place of what was known of it; undefined: nothing is. */
  take(source: unknown, x: number | undefined): void {
    const before = this.#bySource.get(source);
    if (before === x) return;
    this.#learned = undefined;
    if (before !== undefined) {
      this.#bySource.delete(source);
      this.#add(before, -1);
    }
    if (x === undefined) return;
    this.#bySource.set(source, x);
    this.#add(x, 1);
  }

  /** Factors on the model's value. */
  get learned(): LearnedWindow {
    return (this.#learned ??= { ...window(predictive(posterior(priors[this.#quantity], this.#sums))), n: this.#sums.n });
  }

  /** The plain mean of observed / model, as somebody would reckon it who trusts these records alone; undefined without any. */
  get meanRatio(): number | undefined {
    return this.#sums.n === 0 ? undefined : this.#ratios / this.#sums.n;
  }

  #add(x: number, times: 1 | -1): void {
    const { n, sum, squares } = this.#sums;
    if (n + times === 0) {
      // Not a last digit of what went may be left.
      this.#sums = NOTHING_SEEN;
      this.#ratios = 0;
      return;
    }
    this.#sums = { n: n + times, sum: sum + times * x, squares: squares + times * x * x };
    this.#ratios += times * Math.exp(x);
  }
}
