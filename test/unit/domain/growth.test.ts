import assert from 'node:assert/strict';
import fc from 'fast-check';
import { daysToLength, faster, lengthAt, lengthLimitsOf, profileGrowth, rateTo, specificGrowthPct } from '../../../src/domain/growth';
import type { GrowthCurve } from '../../../src/domain/growth';
import { cave } from '../../support/clutches';

const kribensis = { ...cave, hatch_mm: 3.5, sale_mm: 25, max_mm: 80 };

const anyCurve: fc.Arbitrary<GrowthCurve> = fc
  .record({ hatchMm: fc.double({ min: 1, max: 10, noNaN: true }), more: fc.double({ min: 5, max: 300, noNaN: true }), perDay: fc.double({ min: 1e-4, max: 0.1, noNaN: true }) })
  .map(({ hatchMm, more, perDay }) => ({ hatchMm, maxMm: hatchMm + more, perDay }));

function assertClose(actual: number | undefined, expected: number, relative = 1e-9): void {
  assert.ok(actual !== undefined && Math.abs(actual - expected) <= relative * Math.abs(expected), `${actual} is not ${expected}`);
}

describe('growth of a species', () => {
  it('reaches the length at sale on the day of sale', () => {
    const curve = profileGrowth(kribensis);
    assert.ok(curve !== undefined);
    assertClose(curve.perDay, Math.log(76.5 / 55) / 140); // by hand
    assertClose(lengthAt(curve, 140), 25);
    assertClose(daysToLength(curve, 25), 140);
    assert.equal(lengthAt(curve, 0), 3.5);
    assert.equal(lengthAt(curve, -3), 3.5);
  });

  it('is not known where a number is missing or lengths are not in their order', () => {
    for (const odd of [{ hatch_mm: undefined }, { sale_mm: undefined }, { max_mm: undefined }, { sale_d: undefined }, { sale_mm: 80 }, { sale_mm: 90 }, { hatch_mm: 25 }, { hatch_mm: 90 }, { sale_d: 0 }]) {
      const profile = { ...kribensis, ...odd } as Parameters<typeof profileGrowth>[0];
      assert.equal(profileGrowth(profile), undefined, JSON.stringify(odd));
    }
    assert.equal(profileGrowth(undefined), undefined);
    assert.equal(lengthLimitsOf({ ...kribensis, hatch_mm: 80 }), undefined);
  });
});

describe('a growth curve', () => {
  it('never shrinks, and stays between the length at birth and the full-grown one', () => {
    fc.assert(
      fc.property(anyCurve, fc.double({ min: 0, max: 5000, noNaN: true }), fc.double({ min: 0, max: 500, noNaN: true }), (curve, days, more) => {
        const [before, after] = [lengthAt(curve, days), lengthAt(curve, days + more)];
        assert.ok(before <= after && before >= curve.hatchMm * (1 - 1e-12) && after <= curve.maxMm);
      }),
    );
  });

  it('is found again from one length, and its day from the length', () => {
    fc.assert(
      fc.property(anyCurve, fc.double({ min: 1, max: 100, noNaN: true }), (curve, days) => {
        const mm = lengthAt(curve, days);
        fc.pre(curve.maxMm - mm > 0.01 * curve.maxMm && mm - curve.hatchMm > 0.001);
        assertClose(rateTo(curve, mm, days), curve.perDay, 1e-6);
        assertClose(daysToLength(curve, mm), days, 1e-6);
      }),
    );
  });

  it('run through twice as fast takes half as long', () => {
    const curve = { hatchMm: 3, maxMm: 60, perDay: 0.01 };
    assertClose(daysToLength(faster(curve, 2), 30), (daysToLength(curve, 30) as number) / 2);
  });

  it('has no day for what is never reached, and no rate outside its lengths', () => {
    const curve = { hatchMm: 3, maxMm: 60, perDay: 0.01 };
    assert.deepEqual([60, 61, Number.NaN].map((mm) => daysToLength(curve, mm)), [undefined, undefined, undefined]);
    assert.equal(daysToLength(curve, 3), 0);
    assert.equal(daysToLength({ ...curve, perDay: 0 }, 30), undefined);
    assert.deepEqual([[3, 10], [60, 10], [30, 0], [30, -1], [Number.NaN, 10]].map(([mm, days]) => rateTo(curve, mm as number, days as number)), [undefined, undefined, undefined, undefined, undefined]);
  });
});

describe('specific growth rate', () => {
  it('is not told without days or sizes', () => {
    assert.deepEqual([specificGrowthPct(0, 2, 30), specificGrowthPct(2, 0, 30), specificGrowthPct(1, 2, 0)], [undefined, undefined, undefined]);
    assertClose(specificGrowthPct(10, 10 * Math.E, 100), 1);
  });
});
