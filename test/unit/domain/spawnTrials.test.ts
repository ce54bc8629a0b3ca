import assert from 'node:assert/strict';
import fc from 'fast-check';
import { predictSpawn } from '../../../src/domain/nextSpawn';
import { spawnForecasts } from '../../../src/domain/spawnSkill';
import { apartByFate, withoutDoubled } from '../../../src/domain/spawnTrials';
import type { Fate } from '../../../src/domain/spawnTrials';
import { spawnIntervals } from '../../../src/domain/spawning';
import type { Spawn } from '../../../src/domain/spawning';
import { berlin, moment } from '../../support/moments';

/** Spawns so many days apart. */
function spawnsAfter(...intervals: readonly number[]): readonly Spawn[] {
  let day = moment('2026-01-01T12:00').day;
  return [0, ...intervals].map((days, i) => {
    day += days;
    return { clutch: `K${i}`, spawned: { instant: day * 86_400_000 + 43_200_000, day, bare: false, about: false } };
  });
}

describe('withoutDoubled', () => {
  const tried = (...intervals: readonly number[]): readonly (readonly number[])[] =>
    withoutDoubled(spawnForecasts(spawnsAfter(...intervals), 30, berlin), 30).map((trial) => [trial.tried.actual, trial.tried.observations, trial.filled.observations]);

  it('leaves an interval of twice its neighbours out of what is judged, and out of what teaches once both are known', () => {
    assert.deepEqual(tried(30, 32, 63, 31, 30), [
      [30, 0, 0],
      [32, 1, 1],
      // By then 63 stands beside two intervals before it.
      [31, 2, 3],
      [30, 3, 4],
    ]);
  });

  it('finds the first by the two after it', () => {
    assert.deepEqual(tried(60, 30, 31, 30), [
      [30, 1, 1],
      [31, 2, 2],
      [30, 2, 3],
    ]);
  });

  it('leaves a pair alone that only grew slow', () => {
    assert.deepEqual(tried(30, 30, 60, 60, 60).map(([actual]) => actual), [30, 30, 60, 60, 60]);
    assert.deepEqual(tried(30, 60).map(([actual]) => actual), [30, 60]);
    assert.deepEqual(tried(30, 30, 120, 30, 30).map(([actual]) => actual), [30, 30, 120, 30, 30]);
  });

  it('is the filled forecast where no interval is twice as long', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 25, max: 35 }), { maxLength: 20 }), (intervals) => {
        const spawns = spawnsAfter(...intervals);
        for (const { tried: { observations, from, expected, to, actual }, filled } of withoutDoubled(spawnForecasts(spawns, 30, berlin), 30)) {
          assert.deepEqual([observations, from, expected, to, actual], [filled.observations, filled.from, filled.expected, filled.to, filled.actual]);
        }
      }),
    );
  });
});

describe('apartByFate', () => {
  it('learns intervals after lost broods from those alone, where the fate was seen before the next spawn', () => {
    const spawns = spawnsAfter(12, 30, 13, 31, 12);
    const lost = new Set(['K0', 'K2', 'K4']);
    const fateOf = ({ clutch, spawned }: Spawn): Fate | undefined => {
      if (clutch === 'K3') return { kind: 'reared', time: { ...spawned, day: spawned.day + 40, instant: spawned.instant + 40 * 86_400_000 } };
      return { kind: lost.has(clutch) ? 'lost' : 'reared', time: spawned };
    };
    const trials = apartByFate(spawnForecasts(spawns, 30, berlin), 30, fateOf);
    assert.deepEqual(trials.map(({ tried, filled }) => [tried.actual, tried.observations, filled.observations]), [
      [12, 0, 0],
      [30, 0, 1],
      [13, 1, 2],
      [12, 2, 4],
    ]);
    assert.equal(trials.at(-1)?.tried.expected, predictSpawn(30, spawnIntervals(spawnsAfter(12, 13))).expectedDays);
  });
});
