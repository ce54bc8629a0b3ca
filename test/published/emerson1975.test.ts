import assert from 'node:assert/strict';
import { isMeasured, unionizedAmmonia, unionizedShare } from '../../src/domain/water';

// Source: "Calculated from Emmerson et al. 1975", Fundamentals of Aquatic Veterinary Medicine, table 1.4 (seen). Its column
// of 32 °C is left out: it is up to 4.5 % higher than the formula it names, which ends at 30 °C.
const printed: readonly (readonly [ph: number, celsius: number, share: number])[] = [
  [7, 28, 0.0069],
  [8, 20, 0.0381],
  [8, 24, 0.0502],
  [8, 28, 0.0654],
  [8.4, 28, 0.1495],
];

// Recomputed from the formula to four digits, not published.
const recomputed: readonly (readonly [celsius: number, shares: readonly number[]])[] = [
  [20, [0.01236, 0.03807, 0.1112, 0.2836]],
  [25, [0.01762, 0.05366, 0.1521, 0.3619]],
  [28, [0.02164, 0.06538, 0.1812, 0.4116]],
  [30, [0.02476, 0.07432, 0.2025, 0.4453]],
];

describe('un-ionized ammonia after Emerson et al. 1975', () => {
  for (const [ph, celsius, share] of printed) it(`is ${share} of the total at pH ${ph} and ${celsius} °C`, () => assert.ok(Math.abs(unionizedShare(ph, celsius) - share) <= 0.00011));

  for (const [celsius, shares] of recomputed) it(`has four right digits at ${celsius} °C`, () => assert.deepEqual([7.5, 8, 8.5, 9].map((ph) => Number(unionizedShare(ph, celsius).toPrecision(4))), shares));

  it('is another one with the older constants', () => {
    // Spotte 1970, 4.7 % at 20 °C and pH 8.0 (seen on an aquarists' list): not ours.
    assert.ok(Math.abs(unionizedShare(8, 20) - 0.047) > 0.005);
  });

  it('of 0.5 mg/L at pH 8 and 25 °C is 0.0268 mg/L, both as nitrogen', () => {
    assert.equal(unionizedAmmonia({ tan: 0.5, ph: 8, celsius: 25 }).toFixed(4), '0.0268');
  });

  it('was measured from 0 to 30 °C and pH 6 to 10 (from memory)', () => {
    assert.deepEqual([isMeasured(6, 0), isMeasured(10, 30), isMeasured(5.9, 20), isMeasured(7, 30.1)], [true, true, false, false]);
  });
});
