import assert from 'node:assert/strict';
import { countedMortality, survivingShare } from '../../src/domain/survival';

/**
 * Ortega-Salas, Cortés & Reyes-Bustamante 2009, Fecundity, growth, and survival of the angelfish Pterophyllum scalare under
 * laboratory conditions (seen, abstract at revistas.ucr.ac.cr/index.php/rbt/article/view/5488): of 80 larvae in 40 litres
 * 50 to 66.3 % were alive after 135 days.
 */
describe('Ortega-Salas and others 2009, angelfish', () => {
  for (const [percent, rate] of [
    [66.3, '0.003044'], // derived
    [50, '0.005134'], // derived
  ] as const) {
    it(`lose ${rate} a day where ${percent} % are left`, () => {
      const mortality = countedMortality([{ days: 0, alive: 80 }, { days: 135, alive: (80 * percent) / 100 }], [], undefined);
      assert.ok(mortality !== undefined);
      assert.equal(mortality.later.toFixed(6), rate);
      assert.ok(Math.abs(100 * survivingShare(mortality, 0, 135) - percent) < 1e-9);
    });
  }
});

describe('survival S = e^(−Zt)', () => {
  for (const [exponent, share] of [
    [0.2, '0.8187'], // derived
    [0.5, '0.6065'], // derived
    [1, '0.3679'], // derived
  ] as const) {
    it(`leaves ${share} after an exponent of ${exponent}`, () => {
      assert.equal(survivingShare({ basis: 'counts', early: exponent / 10, later: exponent / 10 }, 5, 15).toFixed(4), share);
      assert.equal(survivingShare({ basis: 'counts', early: exponent / 100, later: exponent / 100 }, 10, 110).toFixed(4), share);
    });
  }
});
