/** A curve at x: its value, and how fast it changes with each parameter. */
export type Curve = (parameters: readonly number[], x: number) => { readonly value: number; readonly slopes: readonly number[] };

/** Something measured: `y` at `x`. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Fit {
  readonly parameters: readonly number[];
  /** The standard error of each parameter, by the curve's slopes at the best fit. */
  readonly errors: readonly number[];
  /** What remains: the sum of the squared differences. */
  readonly rss: number;
}

interface State {
  readonly parameters: readonly number[];
  readonly rss: number;
  /** JᵀJ and Jᵀr. */
  readonly normal: Matrix;
  readonly gradient: readonly number[];
}

type Matrix = readonly (readonly number[])[];

const MOST_STEPS = 500;
/** Relative change of every parameter below which a step is none. */
const STILL = 1e-12;
/** A last step may seem to do no good, since the sum of squares is known to so many digits. */
const ROUNDING = 1 + 1e-14;
/** What remains of points that lie on the curve, as a share of the sum of their squares. */
const EXACT = 1e-28;
/** Careful at first: far from the best fit a bold step leads to where the curve is flat and nothing leads back. */
const FIRST_DAMPING = 100;
const MOST_DAMPING = 1e16;

/**
 * The parameters with the least sum of squared differences, from a start that is near enough. Undefined without more
 * points than parameters, where the points can't tell the parameters apart, and where the start leads nowhere. Source:
 * Marquardt 1963, SIAM J. Appl. Math. 11:431-441, with the scaling of Moré 1978, Lecture Notes in Mathematics 630:105-116
 * (both from memory).
 */
export function leastSquares(curve: Curve, points: readonly Point[], start: readonly number[]): Fit | undefined {
  if (points.length <= start.length) return undefined;
  const first = stateAt(curve, points, start);
  if (first === undefined) return undefined;
  let at: State = first;
  const size = points.reduce((sum, { y }) => sum + y * y, 0);
  let damping = FIRST_DAMPING;
  let scale = start.map(() => 0);
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    const { parameters, normal, gradient, rss }: State = at;
    scale = scale.map((largest, i) => Math.max(largest, normal[i]?.[i] as number));
    const step = solved(damped(normal, scale, damping), gradient);
    const next = step === undefined ? undefined : stateAt(curve, points, parameters.map((value, i) => value + (step[i] as number)));
    const isBetter = next !== undefined && next.rss <= rss * ROUNDING;
    if (next !== undefined && isBetter) at = next;
    damping = isBetter ? damping / 10 : damping * 10;
    if (damping > MOST_DAMPING) break;
    if (at.rss <= EXACT * size) return fitAt(at, points.length);
    if (isBetter && step?.every((change, i) => Math.abs(change) <= STILL * Math.abs(parameters[i] as number)) === true) return fitAt(at, points.length);
  }
  return undefined;
}

function fitAt({ parameters, rss, normal }: State, n: number): Fit | undefined {
  const variance = rss / (n - parameters.length);
  const errors: number[] = [];
  for (let i = 0; i < parameters.length; i++) {
    const column = solved(normal, parameters.map((_, j) => (i === j ? 1 : 0)));
    if (column === undefined) return undefined;
    errors.push(Math.sqrt(variance * (column[i] as number)));
  }
  return errors.every(Number.isFinite) ? { parameters, errors, rss } : undefined;
}

/** Undefined where the curve has no finite value or slope. */
function stateAt(curve: Curve, points: readonly Point[], parameters: readonly number[]): State | undefined {
  const normal = parameters.map(() => parameters.map(() => 0));
  const gradient = parameters.map(() => 0);
  let rss = 0;
  for (const { x, y } of points) {
    const { value, slopes } = curve(parameters, x);
    const rest = y - value;
    rss += rest * rest;
    slopes.forEach((slope, i) => {
      (gradient[i] as number) += slope * rest;
      slopes.forEach((other, j) => ((normal[i] as number[])[j] as number) += slope * other);
    });
  }
  return [rss, ...gradient, ...normal.flat()].every(Number.isFinite) ? { parameters, rss, normal, gradient } : undefined;
}

/** Damped by the largest slopes met so far, so that the units of the parameters don't matter and no step is bold where the curve is flat. */
function damped(normal: Matrix, scale: readonly number[], damping: number): Matrix {
  return normal.map((row, i) => row.map((value, j) => (i === j ? value + damping * (scale[i] as number) : value)));
}

/**
 * Solves a symmetric positive definite system by Cholesky's way, scaled to a diagonal of ones; undefined where the
 * matrix is none.
 */
function solved(matrix: Matrix, right: readonly number[]): readonly number[] | undefined {
  const n = right.length;
  const scale = matrix.map((row, i) => 1 / Math.sqrt(row[i] as number));
  if (!scale.every(Number.isFinite)) return undefined;
  const lower: number[][] = [];
  const values: number[] = [];
  for (let i = 0; i < n; i++) {
    const row: number[] = [];
    lower.push(row);
    let value = (right[i] as number) * (scale[i] as number);
    for (let j = 0; j <= i; j++) {
      const other = lower[j] as number[];
      let rest = (matrix[i]?.[j] as number) * (scale[i] as number) * (scale[j] as number);
      for (let k = 0; k < j; k++) rest -= (row[k] as number) * (other[k] as number);
      if (j < i) {
        row.push(rest / (other[j] as number));
        value -= (row[j] as number) * (values[j] as number);
      } else {
        // Parameters that the points can hardly tell apart: what would come out is rounding.
        if (!(rest > 1e-14)) return undefined;
        row.push(Math.sqrt(rest));
      }
    }
    values.push(value / (row[i] as number));
  }
  for (let i = n - 1; i >= 0; i--) {
    let value = values[i] as number;
    for (let k = i + 1; k < n; k++) value -= (lower[k]?.[i] as number) * (values[k] as number);
    values[i] = value / (lower[i]?.[i] as number);
  }
  return values.map((value, i) => value * (scale[i] as number));
}
