import assert from 'node:assert/strict';
import { specificGrowthPct } from '../../src/domain/growth';

/** SGR = 100·ln(W2/W1)/days, in % a day. */
describe('specific growth rate', () => {
  it('makes 0.5 g to 2.0 g in 30 days 4.621 % a day', () => {
    assert.equal(specificGrowthPct(0.5, 2, 30)?.toFixed(3), '4.621'); // derived
  });

  /**
   * Angelfish from 0.10 g in 60 days (seen, abstract at actauniversitaria.ugto.mx, article 277). The rates printed there,
   * 4.86, 3.58 and 3.35, bear the unit mg/day and are not those of the formula, so only the weights are taken.
   */
  for (const [grams, rate] of [
    [2.23, '5.174'], // derived
    [0.84, '3.547'], // derived
    [0.716, '3.281'], // derived
  ] as const) {
    it(`makes angelfish that reach ${grams} g grow ${rate} % a day`, () => {
      assert.equal(specificGrowthPct(0.1, grams, 60)?.toFixed(3), rate);
    });
  }
});
