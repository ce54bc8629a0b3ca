import assert from 'node:assert/strict';
import fc from 'fast-check';
import { compareMoments } from '../../../src/base/moment';
import { spawnForecasts } from '../../../src/domain/spawnSkill';
import type { Evaluation } from '../../../src/planner/evaluation';
import { replay } from '../../../src/planner/replay';
import type { ClutchForecast } from '../../../src/planner/replay';
import { berlin, moment } from '../../support/moments';
import { anyWrittenRoom, evaluationOf, filesOf } from '../../support/writtenRoom';
import type { WrittenRoom } from '../../support/writtenRoom';

const now = moment('2026-05-10T12:00').instant;
const runs = { numRuns: Number(process.env['RUNS'] ?? 40) };

/** All that was expected of the broods of a room. */
function forecastsOf(room: WrittenRoom, evaluation: Evaluation): readonly ClutchForecast[] {
  const ofPair = (pair: string): readonly ClutchForecast[] => replay(room.clutches.filter((clutch) => clutch.pair === pair).flatMap(({ id }) => evaluation.clutch(id) ?? []), evaluation);
  const alone = room.clutches.filter(({ pair }) => pair === '').flatMap(({ id }) => replay([evaluation.clutch(id) ?? []].flat(), evaluation));
  return [...ofPair('P1'), ...ofPair('P2'), ...alone];
}

/** To the millisecond but one: the sums behind a window are added up in another order. */
function assertSameInstant(actual: number | undefined, expected: number, about: string): void {
  assert.ok(actual !== undefined && Math.abs(actual - expected) <= 1, `${about}: ${actual} is not ${expected}`);
}

/** Throws unless each forecast is that of a plan of its moment, read from what was written by then. Returns them. */
function assertAsThen(room: WrittenRoom): readonly ClutchForecast[] {
  const forecasts = forecastsOf(room, evaluationOf(filesOf(room), now));
  for (const { quantity, clutch, then, window } of forecasts) {
    const { timeline } = evaluationOf(filesOf(room, then.instant), then.instant).clutch(clutch.clutch) ?? assert.fail(`${clutch.clutch} was not there`);
    const milestones = { hatch: 'hatched', freeSwimming: 'free_swimming', growth: 'sale_size' } as const;
    const shown = quantity === 'firstFeed' ? timeline.firstFeed : timeline.of(milestones[quantity as keyof typeof milestones]);
    const about = `${quantity} of ${clutch.clutch}`;
    assert.equal(shown?.basis, 'expected', about);
    assertSameInstant(shown.time.instant, window.time.instant, about);
    assertSameInstant(shown.from.instant, window.from.instant, about);
    assertSameInstant(shown.to.instant, window.to.instant, about);
  }
  return forecasts;
}

describe('replay', () => {
  it('expects of each brood what a plan made then, from what was written by then, expects', () => {
    fc.assert(fc.property(anyWrittenRoom, (room) => void assertAsThen(room)), runs);
  });

  const brood = { pair: 'P1', freeSwimming: '', ended: '' };
  const empty = { log: [], readings: [], retired: '' };

  it('takes a bare day for what it was before the rows came behind which it stands now', () => {
    const clutches = [{ ...brood, id: 'C1', spawned: '~2026-03-31T14:00', hatched: '', freeSwimming: '2026-04-06' }];
    const log = ['~2026-04-05T00:15 checked', '2026-04-05 hatched', '2026-04-05T00:00 hatched'].map((row) => {
      const [time = '', event = ''] = row.split(' ');
      return { time, clutch: 'C1', event, count: '', length: '', toTank: '' };
    });
    assert.deepEqual(assertAsThen({ ...empty, clutches, log }).map(({ quantity }) => quantity), ['freeSwimming']);
  });

  it('foretells no growth that was measured on the very day of the birth', () => {
    const clutches = [{ ...brood, id: 'C1', spawned: '2026-04-03T11:00', hatched: '2026-04-06T00:00' }];
    const log = [{ time: '2026-04-06', clutch: 'C1', event: 'measured', count: '', length: '5', toTank: '' }];
    assert.deepEqual(assertAsThen({ ...empty, clutches, log }).map(({ quantity }) => quantity), ['hatch']);
  });

  it('takes a hatch of the same day with the readings up to then', () => {
    const readings = ['2026-03-12T08:00', '2026-03-14T10:00', '2026-03-14T11:30'].map((time, i) => ({ time, tank: 'T1', celsius: String(22 + 3 * i) }));
    const clutches = [
      { ...brood, id: 'C1', spawned: '2026-03-11T20:00', hatched: '2026-03-14' },
      { ...brood, id: 'C2', spawned: '2026-03-14T09:00', hatched: '2026-03-17T09:00' },
      { ...brood, id: 'C3', spawned: '2026-03-14T11:00', hatched: '2026-03-17T09:00' },
      { ...brood, id: 'C4', spawned: '2026-03-14T13:00', hatched: '2026-03-17T09:00' },
    ];
    const forecasts = assertAsThen({ ...empty, clutches, readings });
    assert.deepEqual(forecasts.map(({ clutch, observations }) => [clutch.clutch, observations]), [['C1', 0], ['C2', 1], ['C3', 1], ['C4', 1]]);
    assert.equal(new Set(forecasts.slice(1).map(({ mean, profile }) => ((mean ?? 0) / profile).toFixed(4))).size, 3);
  });

  it('learns growth from broods spawned before alone, and only what was measured by then', () => {
    const clutches = [
      { ...brood, id: 'C1', spawned: '2026-03-06T10:00', hatched: '2026-03-08T10:00' },
      { ...brood, id: 'C2', spawned: '2026-03-10T10:00', hatched: '2026-03-25T10:00' },
      { ...brood, id: 'C3', spawned: '2026-03-11T10:00', hatched: '2026-03-13T10:00' },
    ];
    const measured = { event: 'measured', count: '', toTank: '' };
    const log = [
      { ...measured, time: '2026-03-20T10:00', clutch: 'C1', length: '5' },
      { ...measured, time: '2026-03-22T10:00', clutch: 'C3', length: '9' },
      { ...measured, time: '2026-04-10T10:00', clutch: 'C1', length: '12' },
      { ...measured, time: '2026-04-20T10:00', clutch: 'C2', length: '9' },
    ];
    const growth = assertAsThen({ ...empty, clutches, log }).filter(({ quantity }) => quantity === 'growth');
    assert.deepEqual(growth.map(({ clutch, observations }) => [clutch.clutch, observations]), [['C1', 0], ['C3', 0], ['C2', 1]]);
  });

  it('expects each next spawn as a plan made then, from what was written by then, does', () => {
    fc.assert(
      fc.property(anyWrittenRoom, (room) => {
        const evaluation = evaluationOf(filesOf({ ...room, retired: '' }), now);
        for (const pair of ['P1', 'P2']) {
          for (const { then, from, expected, to, interval } of spawnForecasts(evaluation.pair(pair)?.spawns ?? [], 9, berlin)) {
            const next = evaluationOf(filesOf({ ...room, retired: '' }, then.instant), then.instant).pair(pair)?.next;
            const { day } = interval.from.spawned;
            assert.deepEqual([next?.from, next?.expected, next?.to], [day + from, day + expected, day + to], `after ${interval.from.clutch}`);
          }
        }
      }),
      runs,
    );
  });

  it('expects the same whatever is written later', () => {
    fc.assert(
      fc.property(anyWrittenRoom, fc.integer({ min: 5, max: 44 }), (room, day) => {
        const instant = moment('2026-03-01T09:30').instant + day * 86_400_000;
        const early = forecastsOf(room, evaluationOf(filesOf(room, instant), instant));
        const late = forecastsOf(room, evaluationOf(filesOf(room), now));
        for (const { clutch, quantity, then, expected, mean, profile, halfway, actual } of early) {
          const same = late.find((other) => other.clutch.clutch === clutch.clutch && other.quantity === quantity && compareMoments(other.then, then) === 0);
          // What is written later may contradict the record itself.
          if (same === undefined) continue;
          // Measured again, growth is judged by another length.
          if (quantity === 'growth' && same.actual !== actual) continue;
          const rounded = (values: readonly (number | undefined)[]): readonly unknown[] => values.map((value) => value?.toFixed(5));
          assert.deepEqual(rounded([same.expected, same.mean, same.profile, same.halfway?.mean]), rounded([expected, mean, profile, halfway?.mean]));
        }
      }),
      runs,
    );
  });

  it('finds forecasts of all kinds in most rooms', () => {
    const rooms = fc.sample(anyWrittenRoom, { numRuns: 50, seed: 5 });
    const found = rooms.filter((room) => forecastsOf(room, evaluationOf(filesOf(room), now)).length >= 3).length;
    assert.ok(found > 30, `only ${found} of 50`);
    const kinds = new Set(rooms.flatMap((room) => forecastsOf(room, evaluationOf(filesOf(room), now)).map(({ quantity, observations }) => `${quantity}${observations > 0 ? ', learned' : ''}`)));
    assert.deepEqual([...kinds].sort(), ['firstFeed', 'firstFeed, learned', 'freeSwimming', 'freeSwimming, learned', 'growth', 'growth, learned', 'hatch', 'hatch, learned']);
  });
});
