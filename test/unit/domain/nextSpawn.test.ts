import assert from 'node:assert/strict';
import fc from 'fast-check';
import { predictSpawn } from '../../../src/domain/nextSpawn';
import type { SpawnInterval } from '../../../src/domain/spawning';
import { moment } from '../../support/moments';

const end = { clutch: 'K1', spawned: moment('2026-03-01') };

function intervalsOf(...days: readonly number[]): readonly SpawnInterval[] {
  return days.map((length) => ({ days: length, about: false, from: end, to: end }));
}

/** `20 to 53 days, 30 expected, from 0`. */
function told(usualDays: number, intervals: readonly SpawnInterval[]): string {
  const { fromDays, expectedDays, toDays, observations } = predictSpawn(usualDays, intervals);
  return `${fromDays} to ${toDays} days, ${expectedDays} expected, from ${observations}`;
}

describe('predictSpawn', () => {
  it('goes by the species where the pair has no interval yet', () => {
    // By hand: 90 % of t(4) 1.533206, scale 0.3·√1.5, so 30·e^±0.5633: 17.1, 52.7 days.
    assert.deepEqual(told(30, []), '17 to 53 days, 30 expected, from 0');
  });

  it('rounds to whole days, down as well as up', () => {
    // By hand, 31·e^±0.5633: 17.6, 54.5 (54.45) days.
    assert.deepEqual(told(31, []), '18 to 54 days, 31 expected, from 0');
  });

  it('moves towards the pair’s own intervals, by a third of one', () => {
    // By hand: kn = 3, centre ln(45/30)/3, vn = 5, s²n = (4·0.09 + 2/3·0.4055²)/5, 90 % of t(5) 1.475884: 20.4, 34.3, 57.9 days.
    assert.deepEqual(told(30, intervalsOf(45)), '20 to 58 days, 34 expected, from 1');
  });

  it('grows surer with many like intervals', () => {
    // By hand, with 90 % of t(44) 1.3011: 37.5, 44.1, 51.9 days.
    assert.deepEqual(told(30, intervalsOf(...Array.from({ length: 40 }, () => 45))), '38 to 52 days, 44 expected, from 40');
  });

  it('takes no notice of intervals of 0 days and of those as about', () => {
    const about: SpawnInterval = { days: 90, about: true, from: end, to: end };
    assert.deepEqual(told(30, [...intervalsOf(0), about]), '17 to 53 days, 30 expected, from 0');
  });

  it('has a window that never crosses, for any intervals', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.array(fc.integer({ min: 0, max: 1000 }), { maxLength: 30 }), (usual, days) => {
        const { fromDays, expectedDays, toDays } = predictSpawn(usual, intervalsOf(...days));
        assert.ok(fromDays <= expectedDays && expectedDays <= toDays && Number.isSafeInteger(toDays));
      }),
      { numRuns: 1000 },
    );
  });
});
