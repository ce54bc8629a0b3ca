import assert from 'node:assert/strict';
import fc from 'fast-check';
import { posterior, predictive, priors, sumsOf, window } from '../../../src/domain/learning';
import { KnownSoFar, Scoring } from '../../../src/domain/skill';
import type { Forecast } from '../../../src/domain/skill';

function assertClose(actual: number, expected: number): void {
  assert.ok(Math.abs(actual - expected) <= 1e-9, `${actual} is not ${expected}`);
}

function forecast(told: Partial<Forecast>): Forecast {
  return { from: 8, expected: 10, to: 13, profile: 12, mean: 9, observations: 3, actual: 11, held: true, ...told };
}

describe('Scoring', () => {
  it('counts the windows that held and averages by how much each way to expect missed', () => {
    const scoring = new Scoring();
    scoring.add(forecast({}));
    scoring.add(forecast({ actual: 20, held: false }));
    assert.deepEqual(scoring.score, { n: 2, held: 1, mae: 5.5, maeProfile: 4.5, maeMean: 6.5 });
  });

  it('takes the species where no mean is known yet, so that all are judged on the same broods', () => {
    const scoring = new Scoring();
    scoring.add(forecast({ mean: undefined }));
    assert.equal(scoring.score?.maeMean, undefined);
    scoring.add(forecast({}));
    assert.equal(scoring.score?.maeMean, 1.5);
  });

  it('says nothing of nothing', () => assert.equal(new Scoring().score, undefined));

  it('measures as it is told to', () => {
    const scoring = new Scoring();
    scoring.add(forecast({}), (expected) => Math.max(0, expected - 11));
    assert.deepEqual([scoring.score?.mae, scoring.score?.maeProfile], [0, 1]);
  });
});

describe('KnownSoFar', () => {
  it('knows after any coming and going what the observations that are left teach', () => {
    const change = fc.record({ source: fc.nat(4), x: fc.option(fc.double({ min: -1, max: 1, noNaN: true }), { nil: undefined }) });
    fc.assert(
      fc.property(fc.array(change, { maxLength: 30 }), (changes) => {
        const known = new KnownSoFar('release');
        const left = new Map<number, number>();
        for (const { source, x } of changes) {
          known.take(source, x);
          if (x === undefined) left.delete(source);
          else left.set(source, x);
        }
        const xs = [...left.values()];
        const { from, expected, to } = window(predictive(posterior(priors.release, sumsOf(xs))));
        assert.equal(known.learned.n, xs.length);
        assertClose(known.learned.from, from);
        assertClose(known.learned.expected, expected);
        assertClose(known.learned.to, to);
        if (xs.length === 0) assert.equal(known.meanRatio, undefined);
        else assertClose(known.meanRatio as number, xs.reduce((sum, x) => sum + Math.exp(x), 0) / xs.length);
      }),
    );
  });
});
