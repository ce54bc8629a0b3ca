import assert from 'node:assert/strict';
import { readyOf, TOO_WARM_C, WARM_C } from '../../src/domain/cultures';
import { vesselFor } from '../../src/domain/liveFood';
import { berlin, moment } from '../support/moments';

// Source: texts on hatching brine shrimp that are derived from FAO Fisheries Technical Paper 361 (seen at
// progressivegardening.com: temperature and salinity, pH, density; not the paper itself): at most 5 g of cysts to a litre in
// vessels of less than 20 litres, at most 2 g in larger ones; 25 to 28 °C, nothing above 33 °C.
describe('vessels for brine shrimp', () => {
  it('hold at most 5 g of cysts to a litre while they are small', () => assert.deepEqual([5, 50, 97.5].map((grams) => grams / vesselFor(grams)), [5, 5, 5]));

  it('hold at most 2 g to a litre from 20 litres on', () => assert.deepEqual([100, 240].map((grams) => [vesselFor(grams), grams / vesselFor(grams)]), [[50, 2], [120, 2]]));

  it('hatch within a day at the warm end of the range, and not at all above 33 °C', () => {
    const hours = (tempC: number): number | undefined => {
      const started = moment('2026-06-01T19:30');
      const ready = readyOf({ culture: 'C', food: 'brine_shrimp', started, tempC, grams: 1, yieldPerG: undefined, renewEvery: undefined, ended: undefined }, berlin);
      return ready === undefined ? undefined : (ready.instant - started.instant) / 3_600_000;
    };
    assert.deepEqual([WARM_C, TOO_WARM_C], [28, 33]);
    assert.deepEqual([25, 28, 34].map(hours), [36, 24, undefined]);
  });
});
