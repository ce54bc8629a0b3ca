import assert from 'node:assert/strict';
import { thermalDuration } from '../../src/domain/thermalTime';

/** Published development times at several temperatures, through 1/D = (T − zero) / sum. */
interface Observed {
  /** °C */
  readonly temperature: number;
  readonly days: number;
}

/** The line through two observations: the temperature at which its rate is 0. */
function zeroThrough(a: Observed, b: Observed): number {
  return (a.days * a.temperature - b.days * b.temperature) / (a.days - b.days);
}

function assertClose(actual: number, expected: number, tolerance: number): void {
  assert.ok(Math.abs(actual - expected) <= tolerance, `${actual} is not ${expected}`);
}

describe('thermal time, Nile tilapia, onset of feeding', () => {
  // Rana 1990 II, Influence of incubation temperature on Oreochromis niloticus: 8, 5 and 4 days after hatching at 24, 28
  // and 30 °C (seen, abstract at discovery.researcher.life).
  const at24: Observed = { temperature: 24, days: 8 };
  const at28: Observed = { temperature: 28, days: 5 };
  const at30: Observed = { temperature: 30, days: 4 };
  const zero = zeroThrough(at24, at30);

  it('has a zero of 18 °C and a sum of 48 degree-days', () => {
    assertClose(zero, 18, 1e-9); // derived
    assertClose(at30.days * (at30.temperature - zero), 48, 1e-9); // derived
  });

  it('leads from 24 °C to 30 °C', () => {
    const days = thermalDuration({ duration: at24.days, reference: at24.temperature, temperature: at30.temperature, zero });
    assertClose(days, at30.days, 1e-9);
  });

  it('predicts the third temperature, which took no part in the fit, to the day', () => {
    const days = thermalDuration({ duration: at24.days, reference: at24.temperature, temperature: at28.temperature, zero });
    assertClose(days, 4.8, 1e-9); // derived
    assert.equal(Math.round(days), at28.days);
  });
});

describe('thermal time, Oreochromis karongae, hatch', () => {
  // 14.7 days at 25 °C, 7.3 days at 29 °C (seen, abstract at primescholarslibrary.org). Two points: they show no more
  // than that the line goes through both.
  const at25: Observed = { temperature: 25, days: 14.7 };
  const at29: Observed = { temperature: 29, days: 7.3 };

  it('leads from 25 °C to 29 °C with a zero of 21.05 °C', () => {
    const zero = 21.05; // derived
    assertClose(zeroThrough(at25, at29), zero, 0.005);
    assertClose(thermalDuration({ duration: at25.days, reference: 25, temperature: 29, zero }), at29.days, 0.02);
    assertClose(at25.days * (25 - zeroThrough(at25, at29)), 58.01, 0.01); // derived
  });
});

describe('thermal time, common carp, embryos', () => {
  it('takes three times as long at 16 °C as at 24 °C', () => {
    // Réalis-Doyelle et al. 2018 (seen, abstract at searchworks.staging.jioinstitute.edu.in); its zero of 12.0 °C is derived.
    assertClose(thermalDuration({ duration: 1, reference: 24, temperature: 16, zero: 12 }), 3, 1e-9);
  });
});
