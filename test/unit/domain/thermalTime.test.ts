import assert from 'node:assert/strict';
import fc from 'fast-check';
import { thermalDuration, withinModel } from '../../../src/domain/thermalTime';

describe('thermalDuration', () => {
  it('is the duration itself at the reference temperature', () => {
    assert.equal(thermalDuration({ duration: 72, temperature: 26, reference: 26, zero: 12 }), 72);
  });

  it('halves where the distance from the zero doubles', () => {
    assert.equal(thermalDuration({ duration: 72, temperature: 26, reference: 19, zero: 12 }), 36);
  });

  it('keeps duration × distance from the zero', () => {
    const above = fc.double({ min: 0.01, max: 40, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: -5, max: 20, noNaN: true }), above, above, (zero, a, b) => {
        const duration = thermalDuration({ duration: 100, reference: zero + a, temperature: zero + b, zero });
        assert.ok(Math.abs(duration * b - 100 * a) < 1e-6 * 100 * a);
      }),
    );
  });

  for (const [temperature, reference] of [[12, 26], [11, 26], [26, 12], [NaN, 26]] as const) {
    it(`throws at ${temperature} °C with a reference of ${reference} °C and a zero of 12 °C`, () => {
      assert.throws(() => thermalDuration({ duration: 72, temperature, reference, zero: 12 }), /developmental zero of 12 °C/);
    });
  }
});

describe('withinModel', () => {
  for (const [temperature, min, max, inside] of [
    [26, 24, 28, true],
    [21, 24, 28, true],
    [20.9, 24, 28, false],
    [31, 24, 28, true],
    [31.1, 24, 28, false],
    [13.1, undefined, undefined, true],
    [13, undefined, undefined, false],
    [13, 14, 28, false],
    [45, undefined, undefined, true],
    [13.1, undefined, 28, true],
    [31.1, undefined, 28, false],
    [20.9, 24, undefined, false],
    [NaN, 24, 28, false],
  ] as const) {
    it(`is ${inside} at ${temperature} °C for ${min ?? 'any'} to ${max ?? 'any'} °C with a zero of 12 °C`, () => {
      assert.equal(withinModel({ temperature, zero: 12, min, max }), inside);
    });
  }
});
