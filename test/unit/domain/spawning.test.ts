import assert from 'node:assert/strict';
import { intervalObservations, median, spawnIntervals } from '../../../src/domain/spawning';
import type { Spawn } from '../../../src/domain/spawning';
import { moment } from '../../support/moments';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';

function spawnsOf(...times: readonly string[]): readonly Spawn[] {
  return times.map((time, i) => ({ clutch: `K${i + 1}`, spawned: moment(time) }));
}

describe('spawnIntervals', () => {
  it('are the calendar days between successive spawns', () => {
    const told = spawnIntervals(spawnsOf('2026-03-01T23:00', '2026-03-31T01:00', '2026-05-01')).map(({ days, from, to }) => `${from.clutch} to ${to.clutch}: ${days}`);
    assert.deepEqual(told, ['K1 to K2: 30', 'K2 to K3: 31']);
  });

  it('are none for one spawn, and none for none', () => {
    assert.deepEqual([spawnIntervals(spawnsOf('2026-03-01')), spawnIntervals([])], [[], []]);
  });

  it('are as about where either end is', () => {
    const told = spawnIntervals(spawnsOf('2026-03-01', '~2026-03-31', '2026-05-01', '2026-06-01')).map(({ about }) => about);
    assert.deepEqual(told, [true, true, false]);
  });

  it('count the days of the fishroom’s own calendar', () => {
    const auckland = zoneOf('Pacific/Auckland') as Zone;
    const spawns = ['2026-03-01T10:00Z', '2026-03-02T12:00Z'].map((time, i) => ({ clutch: `K${i}`, spawned: moment(time, auckland) }));
    assert.deepEqual(spawnIntervals(spawns).map(({ days }) => days), [2]);
  });
});

describe('intervalObservations', () => {
  it('are how much longer than usual the intervals were, as logarithms', () => {
    assert.deepEqual(intervalObservations(spawnIntervals(spawnsOf('2026-03-01', '2026-03-31', '2026-06-29')), 30), [0, Math.log(3)]);
  });

  it('leave out those of 0 days and those with an end as about', () => {
    const intervals = spawnIntervals(spawnsOf('2026-03-01T08:00', '2026-03-01T20:00', '2026-03-31', '~2026-05-01', '2026-06-01'));
    assert.deepEqual(intervalObservations(intervals, 30), [0]);
  });
});

describe('median', () => {
  const cases: readonly (readonly [behaviour: string, values: readonly number[], middle: number | undefined])[] = [
    ['is the middle one of an odd number', [40, 9, 31], 31],
    ['is the mean of the middle two of an even number', [40, 9, 31, 32], 31.5],
    ['is the value itself of one', [7], 7],
    ['is not known of none', [], undefined],
    ['sorts by size, not as text', [100, 20, 3], 20],
  ];
  for (const [behaviour, values, middle] of cases) {
    it(behaviour, () => assert.deepEqual(median(values), middle));
  }

  it('leaves the values as they were', () => {
    const values = [3, 1, 2];
    median(values);
    assert.deepEqual(values, [3, 1, 2]);
  });
});
