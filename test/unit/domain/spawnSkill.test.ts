import assert from 'node:assert/strict';
import { predictSpawn } from '../../../src/domain/nextSpawn';
import { spawnForecasts } from '../../../src/domain/spawnSkill';
import { spawnIntervals } from '../../../src/domain/spawning';
import type { Spawn } from '../../../src/domain/spawning';
import { berlin, moment } from '../../support/moments';

function spawnsOf(...times: readonly string[]): readonly Spawn[] {
  return times.map((time, i) => ({ clutch: `K${i + 1}`, spawned: moment(time) }));
}

describe('spawnForecasts', () => {
  it('expects each next spawn from the intervals before it', () => {
    const spawns = spawnsOf('2026-03-01T10:00', '2026-03-13T20:00', '2026-03-21T08:00', '2026-04-12T08:00');
    const forecasts = spawnForecasts(spawns, 10, berlin);
    assert.deepEqual(
      forecasts.map(({ profile, mean, actual, observations, held }) => ({ profile, mean: mean?.toFixed(6), actual, observations, held })),
      [
        { profile: 10, mean: undefined, actual: 12, observations: 0, held: true },
        { profile: 10, mean: '12.000000', actual: 8, observations: 1, held: true },
        { profile: 10, mean: '10.000000', actual: 22, observations: 2, held: false },
      ],
    );
    forecasts.forEach(({ from, expected, to }, i) => {
      const { fromDays, expectedDays, toDays } = predictSpawn(10, spawnIntervals(spawns.slice(0, i + 1)));
      assert.deepEqual([from, expected, to], [fromDays, expectedDays, toDays]);
    });
  });

  it('neither judges nor learns from what was only guessed', () => {
    const forecasts = spawnForecasts(spawnsOf('2026-03-01', '~2026-03-11', '2026-03-21', '2026-03-31'), 10, berlin);
    assert.deepEqual(forecasts.map(({ interval, observations }) => [interval.from.clutch, observations]), [['K3', 0]]);
  });

  it('takes the spawns of one day for one', () => {
    const forecasts = spawnForecasts(spawnsOf('2026-03-01T08:00', '2026-03-01T18:00', '2026-03-11T09:00', '2026-03-11'), 10, berlin);
    assert.deepEqual(forecasts.map(({ interval, actual }) => [interval.from.clutch, interval.to.clutch, actual]), [['K2', 'K3', 10]]);
  });

  it('knows nothing yet of a spawn later on the same day', () => {
    // At noon of the 11th that of the evening, which was only guessed, is still to come.
    const forecasts = spawnForecasts(spawnsOf('2026-03-01', '~2026-03-11T18:00', '2026-03-11', '2026-03-21', '2026-03-31'), 10, berlin);
    assert.deepEqual(forecasts.map(({ interval, observations }) => [interval.from.clutch, observations]), [['K3', 1], ['K4', 1]]);
  });

  it('looks back at no earlier spawn again for each of a long row of them', () => {
    const first = moment('1950-01-01T12:00');
    let looks = 0;
    const spawns = Array.from({ length: 2000 }, (_, i): Spawn => {
      const spawned = { instant: first.instant + i * 86_400_000, day: first.day + i, bare: false, about: false };
      return { clutch: `K${i}`, get spawned() { looks++; return spawned; } };
    });
    assert.equal(spawnForecasts(spawns, 2, berlin).length, 1999);
    assert.ok(looks < 20 * spawns.length, `${looks} looks at 2000 spawns`);
  });
});
