import assert from 'node:assert/strict';
import fc from 'fast-check';
import { studentTAbove, studentTExceeded, studentTQuantile } from '../../../src/domain/studentT';

const probability = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

function assertClose(actual: number, expected: number, tolerance: number): void {
  assert.ok(Math.abs(actual - expected) <= tolerance * Math.max(1, Math.abs(expected)), `${actual} is not ${expected}`);
}

describe('studentTQuantile', () => {
  // Closed forms for 1, 2 and 4 degrees of freedom: Shaw, Sampling Student's T distribution, Journal of Computational
  // Finance 9 (2006) (from memory).
  it('is the tangent for 1 degree of freedom', () => {
    fc.assert(fc.property(probability, (p) => assertClose(studentTQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)), 1e-9)));
  });

  it('has its closed form for 2 degrees of freedom', () => {
    fc.assert(fc.property(probability, (p) => assertClose(studentTQuantile(p, 2), (2 * p - 1) / Math.sqrt(2 * p * (1 - p)), 1e-9)));
  });

  it('has its closed form for 4 degrees of freedom', () => {
    fc.assert(
      fc.property(probability, (p) => {
        // Nearer the middle the closed form itself loses its digits.
        fc.pre(Math.abs(p - 0.5) > 1e-3);
        const root = Math.sqrt(4 * p * (1 - p));
        const q = Math.cos(Math.acos(root) / 3) / root;
        assertClose(studentTQuantile(p, 4), Math.sign(p - 0.5) * 2 * Math.sqrt(q - 1), 1e-9);
      }),
    );
  });

  it('keeps its digits close to the middle', () => {
    for (const p of [0.50001, 0.5005, 0.501, 0.51]) {
      assertClose(studentTQuantile(p, 1) / Math.tan(Math.PI * (p - 0.5)), 1, 5e-11);
      assertClose((studentTQuantile(p, 2) * Math.sqrt(2 * p * (1 - p))) / (2 * p - 1), 1, 5e-11);
    }
  });

  it('comes to the normal distribution for very many degrees of freedom', () => {
    // Quantiles of the standard normal distribution, to ten digits (from memory).
    assertClose(studentTQuantile(0.9, 1e9), 1.2815515655, 1e-7);
    assertClose(studentTQuantile(0.975, 1e9), 1.9599639845, 1e-7);
  });

  it('is where the area under the density, summed up in small steps, comes to the probability', () => {
    for (const degrees of [3, 5, 7.5, 12, 40, 129]) {
      for (const p of [0.6, 0.9, 0.975]) {
        assertClose(areaUpTo(studentTQuantile(p, degrees), degrees), p, 1e-7);
      }
    }
  });

  it('is odd about one half, exactly', () => {
    for (const degrees of [1, 2.5, 8, 30]) {
      assert.equal(studentTQuantile(0.25, degrees), -studentTQuantile(0.75, degrees));
      assert.equal(studentTQuantile(0.5, degrees), 0);
    }
  });

  it('grows with the probability', () => {
    const degrees = fc.oneof(fc.double({ min: 0.3, max: 50, noNaN: true }), fc.integer({ min: 1, max: 20_000 }));
    fc.assert(
      fc.property(probability, probability, degrees, (a, b, v) => {
        fc.pre(b - a > 1e-9);
        assert.ok(studentTQuantile(a, v) < studentTQuantile(b, v));
      }),
    );
  });

  it('falls with the degrees of freedom, to thousands of them', () => {
    let before = Infinity;
    for (let degrees = 1; degrees <= 20_000; degrees++) {
      const quantile = studentTQuantile(0.9, degrees);
      assert.ok(quantile < before, `${degrees}`);
      before = quantile;
    }
  });

  for (const [p, degrees] of [[0, 5], [1, 5], [NaN, 5], [-0.1, 5], [0.9, 0], [0.9, -1], [0.9, NaN], [0.9, Infinity]] as const) {
    it(`throws at probability ${p} with ${degrees} degrees of freedom`, () => {
      assert.throws(() => studentTQuantile(p, degrees), RangeError);
    });
  }
});

/** The probability below t, by Simpson's rule over the density, itself scaled by Simpson's rule over its whole width. */
function areaUpTo(t: number, degrees: number): number {
  // t = tan(angle) folds the whole line onto a finite width.
  const folded = (angle: number): number => {
    const x = Math.tan(angle);
    return (1 + (x * x) / degrees) ** (-(degrees + 1) / 2) * (1 + x * x);
  };
  const right = simpson(folded, Math.PI / 2 - 1e-9);
  return 0.5 + (0.5 * simpson(folded, Math.atan(t))) / right;
}

function simpson(f: (x: number) => number, end: number): number {
  const steps = 4000;
  let sum = f(0) + f(end);
  for (let i = 1; i < steps; i++) sum += f((end * i) / steps) * (i % 2 === 1 ? 4 : 2);
  return (sum * end) / steps / 3;
}

describe('studentTAbove and studentTExceeded', () => {
  const degrees = fc.double({ min: 1, max: 200, noNaN: true });

  it('undo each other, far out in the tails too', () => {
    fc.assert(fc.property(fc.double({ min: 1e-12, max: 1 - 1e-9, noNaN: true }), degrees, (tail, df) => assertClose(studentTAbove(studentTExceeded(tail, df), df) / tail, 1, 1e-7)));
  });

  it('agree with the quantiles', () => {
    fc.assert(fc.property(probability, degrees, (p, df) => assertClose(studentTExceeded(1 - p, df), studentTQuantile(p, df), 1e-8)));
    assert.equal(studentTAbove(0, 5), 0.5);
  });

  it('throw where there is no such probability or number of degrees', () => {
    for (const tail of [0, 1, NaN]) assert.throws(() => studentTExceeded(tail, 3), RangeError);
    for (const df of [0, -1, Infinity, NaN]) {
      assert.throws(() => studentTAbove(1, df), RangeError);
      assert.throws(() => studentTExceeded(0.1, df), RangeError);
    }
  });
});
