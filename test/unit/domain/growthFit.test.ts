import assert from 'node:assert/strict';
import fc from 'fast-check';
import { lengthAt } from '../../../src/domain/growth';
import { fitGrowth } from '../../../src/domain/growthFit';
import { leastSquares } from '../../../src/domain/leastSquares';

const limits = { hatchMm: 3.5, maxMm: 80 };

function measured(perDay: number, days: readonly number[], { maxMm = 80, off = [0] }: { readonly maxMm?: number; readonly off?: readonly number[] } = {}): readonly { readonly days: number; readonly mm: number }[] {
  return days.map((day, i) => ({ days: day, mm: lengthAt({ hatchMm: 3.5, maxMm, perDay }, day) + (off[i % off.length] as number) }));
}

function assertClose(actual: number | undefined, expected: number, relative: number): void {
  assert.ok(actual !== undefined && Math.abs(actual - expected) <= relative * Math.abs(expected), `${actual} is not ${expected}`);
}

describe('the growth curve through a brood’s measurements', () => {
  it('is found again with its full-grown length where they come near it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.005, max: 0.05, noNaN: true }), fc.double({ min: 50, max: 150, noNaN: true }), (perDay, maxMm) => {
        const days = [0.2, 0.5, 0.9, 1.4, 2, 3].map((part) => part / perDay);
        const fit = fitGrowth(measured(perDay, days, { maxMm }), limits);
        assertClose(fit?.curve.perDay, perDay, 1e-6);
        assertClose(fit?.curve.maxMm, maxMm, 1e-6);
        assert.ok(fit?.maxError !== undefined);
      }),
    );
  });

  it('takes the full-grown length of the species where young fish do not show it', () => {
    const fit = fitGrowth(measured(0.002, [20, 35, 50, 65, 80], { off: [0.2, -0.2, 0.1] }), limits);
    assert.deepEqual([fit?.curve.maxMm, fit?.maxError], [80, undefined]);
    assertClose(fit?.curve.perDay, 0.002, 0.03);
    assert.ok(fit !== undefined && fit.perDayError > 0);
  });

  it('takes it too where the data say a length that is not likely', () => {
    const fit = fitGrowth(measured(0.03, [10, 30, 50, 80, 120], { maxMm: 30 }), limits);
    assert.deepEqual([fit?.curve.maxMm, fit?.maxError], [80, undefined]);
  });

  it('needs measurements of four days', () => {
    assert.equal(fitGrowth(measured(0.002, [20, 40, 60]), limits), undefined);
    assert.equal(fitGrowth(measured(0.002, [20, 20.01, 40, 60, 60.02]), limits), undefined);
    assert.equal(fitGrowth(measured(0.002, [20, 20.01, 40, 60, 80]), limits)?.n, 5);
    assert.equal(fitGrowth([], limits), undefined);
  });

  it('is none through lengths that are all outside', () => {
    assert.equal(fitGrowth([20, 40, 60, 80].map((days) => ({ days, mm: 2 })), limits), undefined);
  });

  it('does not hang on the order of the measurements', () => {
    const all = measured(0.01, [20, 35, 70, 110, 160, 230], { off: [0.4, -0.3, 0.2] });
    const [a, b] = [fitGrowth(all, limits), fitGrowth([...all].reverse(), limits)];
    assertClose(a?.curve.perDay, b?.curve.perDay as number, 1e-8);
    assertClose(a?.curve.maxMm, b?.curve.maxMm as number, 1e-8);
  });
});

describe('least squares', () => {
  const line = ([a, b]: readonly number[], x: number): { readonly value: number; readonly slopes: readonly number[] } => ({ value: (a as number) + (b as number) * x, slopes: [1, x] });

  it('are those of the line by the usual sums', () => {
    const fit = leastSquares(line, [[1, 2], [2, 3], [3, 5], [4, 6]].map(([x, y]) => ({ x: x as number, y: y as number })), [1, 1]);
    // By hand: slope 7 / 5, intercept 4 − 1.4·2.5, rest 0.2; errors √(0.1·30/20) and √(0.1/5).
    assertClose(fit?.parameters[0], 0.5, 1e-9);
    assertClose(fit?.parameters[1], 1.4, 1e-9);
    assertClose(fit?.rss, 0.2, 1e-9);
    assertClose(fit?.errors[0], Math.sqrt(0.15), 1e-9);
    assertClose(fit?.errors[1], Math.sqrt(0.02), 1e-9);
  });

  it('are those of points on the curve itself', () => {
    const fit = leastSquares(line, [1, 2, 3].map((x) => ({ x, y: 3 * x })), [1, 1]);
    assertClose(fit?.parameters[1], 3, 1e-9);
    assert.ok(Math.abs(fit?.parameters[0] ?? 1) < 1e-9);
  });

  it('are not told with as many parameters as points, of what can not be told apart, and of a curve that has no value', () => {
    assert.equal(leastSquares(line, [{ x: 1, y: 1 }, { x: 2, y: 3 }], [0, 1]), undefined);
    assert.equal(leastSquares(line, [{ x: 2, y: 1 }, { x: 2, y: 3 }, { x: 2, y: 4 }], [0, 1]), undefined);
    assert.equal(leastSquares(() => ({ value: Number.NaN, slopes: [1] }), [{ x: 1, y: 1 }, { x: 2, y: 3 }], [1]), undefined);
  });
});
