import assert from 'node:assert/strict';
import { gramsFor } from '../../src/domain/liveFood';

// Source: the worksheet on hatching in FAO Fisheries Technical Paper 361 (from memory): 1.6 g of cysts in 80 ml of water,
// of which samples of 250 µl are counted. HE, nauplii from a gram of product, is then 200 times the mean count N.
const WATER_ML = 80;
const CYSTS_G = 1.6;
const SAMPLES_TO_ML = 4;

describe('the hatching efficiency of the worksheet of FAO', () => {
  const efficiencyOf = (mean: number): number => (mean * SAMPLES_TO_ML * WATER_ML) / CYSTS_G;

  it('is 200 times the mean count', () => assert.deepEqual([1, 1000, 1150].map(efficiencyOf), [200, 200_000, 230_000]));

  it('is the yield that a keeper writes down: so many grams give those nauplii back', () => {
    for (const mean of [640, 1000, 1150]) assert.ok(Math.abs(gramsFor(mean * SAMPLES_TO_ML * WATER_ML, efficiencyOf(mean)) - CYSTS_G) < 1e-12);
  });
});
