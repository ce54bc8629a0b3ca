import assert from 'node:assert/strict';
import { posterior, predictive, sumsOf, window } from '../../../src/domain/learning';
import type { Prior } from '../../../src/domain/learning';
import { Scoring } from '../../../src/domain/skill';
import type { Forecast, Score } from '../../../src/domain/skill';
import { spawnForecasts } from '../../../src/domain/spawnSkill';
import { dayMs, zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import { judgedHalfway } from '../../../src/planner/lateHatch';
import { replay } from '../../../src/planner/replay';
import { BETWEEN_PAIRS, syntheticRoom, WITHIN_INTERVAL } from '../../support/syntheticRoom';
import type { World } from '../../support/syntheticRoom';
import { evaluationOf } from '../../support/writtenRoom';

const ROOMS = 200;
/** A pair has shown something of itself. */
const SOME = 4;
const utc = zoneOf('UTC') as Zone;

/** What was expected in the rooms of a world, where at least four of the pair's own were known. */
interface Judged {
  readonly hatch: Score;
  /** The true moment of the hatch in place of its record: of the forecasts as filled, and with hatches taken for half-way. */
  readonly trueHatch: Score;
  readonly trueHatchHalfway: Score;
  readonly interval: Score;
  /** Days between the spawns of each pair, with fractions, and the usual ones of its species. */
  readonly intervals: readonly { readonly usual: number; readonly days: readonly number[] }[];
}

function judged(world: World): Judged {
  const scorings = { hatch: new Scoring(), trueHatch: new Scoring(), trueHatchHalfway: new Scoring(), interval: new Scoring() };
  const intervals: { usual: number; days: readonly number[] }[] = [];
  for (let seed = 1; seed <= ROOMS; seed++) {
    const room = syntheticRoom(seed, world);
    const evaluation = evaluationOf(room.files, room.now);
    const truth = new Map(room.broods.map(({ clutch, hatch }) => [clutch, hatch]));
    for (const pair of room.pairs) {
      const states = room.broods.filter((brood) => brood.pair === pair).flatMap(({ clutch }) => evaluation.clutch(clutch) ?? []);
      for (const forecast of replay(states, evaluation)) {
        if (forecast.observations < SOME || forecast.halfway === undefined) continue;
        const asItWas = (told: Forecast): Forecast => {
          const actual = truth.get(forecast.clutch.clutch) as number;
          return { ...told, actual, held: told.from <= actual && actual <= told.to };
        };
        scorings.hatch.add(forecast);
        scorings.trueHatch.add(asItWas(forecast));
        scorings.trueHatchHalfway.add(asItWas(judgedHalfway(forecast, forecast.halfway).tried));
      }
      const spawns = evaluation.pair(pair)?.spawns ?? [];
      const usual = evaluation.records.profile(states[0]?.species ?? '')?.interval_d as number;
      for (const forecast of spawnForecasts(spawns, usual, utc)) if (forecast.observations >= SOME) scorings.interval.add(forecast);
      intervals.push({ usual, days: spawns.slice(1).map(({ spawned }, i) => (spawned.instant - (spawns[i]?.spawned.instant as number)) / dayMs) });
    }
  }
  const score = (scoring: Scoring): Score => scoring.score ?? assert.fail('nothing was forecast');
  return { hatch: score(scorings.hatch), trueHatch: score(scorings.trueHatch), trueHatchHalfway: score(scorings.trueHatchHalfway), interval: score(scorings.interval), intervals };
}

function heldPct({ n, held }: Pick<Score, 'n' | 'held'>): number {
  return (100 * held) / n;
}

function assertBetween(value: number, low: number, high: number, about: string): void {
  assert.ok(value >= low && value <= high, `${about}: ${value.toFixed(2)} is not between ${low} and ${high}`);
}

/** How many intervals hold under another prior, in days with fractions. */
function heldUnder(prior: Prior, intervals: Judged['intervals']): number {
  let n = 0;
  let held = 0;
  for (const { usual, days } of intervals) {
    for (let i = SOME; i < days.length; i++) {
      const { from, to } = window(predictive(posterior(prior, sumsOf(days.slice(0, i).map((each) => Math.log(each / usual))))));
      const actual = (days[i] as number) / usual;
      n++;
      if (from <= actual && actual <= to) held++;
    }
  }
  return heldPct({ n, held });
}

describe('200 synthetic rooms, written and read as CSV, of pairs with four observations or more', () => {
  let seen: Judged;
  before(() => {
    seen = judged({ swingDays: 5, keeper: 'minute' });
  });

  it('have about the 80 % of hatches within their windows that are meant', () => {
    assert.ok(seen.hatch.n > 3000);
    assertBetween(heldPct(seen.hatch), 76, 84, 'hatches within the window');
  });

  it('have hatches forecast with at most 0.8 of the error of the species alone', () => {
    assertBetween(seen.hatch.mae / seen.hatch.maeProfile, 0.5, 0.8, 'ratio of errors');
  });

  // More than is meant: the prior takes intervals of a pair for more uneven (s0 0.30) than they are here (0.25), and of a
  // window in whole days both its first and its last day count.
  it('have more than 80 % of spawns within their windows, but not nearly all', () => {
    assert.ok(seen.interval.n > 4000);
    assertBetween(heldPct(seen.interval), 76, 91, 'spawns within the window');
    assertBetween(seen.interval.mae / seen.interval.maeProfile, 0.5, 0.95, 'ratio of errors');
  });

  it('would have 80 % of spawns within windows with fractions of a day, under a prior that is true of these pairs', () => {
    const truePrior: Prior = { k0: (WITHIN_INTERVAL / BETWEEN_PAIRS) ** 2, v0: 1000, s0: WITHIN_INTERVAL };
    assertBetween(heldUnder(truePrior, seen.intervals), 78, 82, 'spawns within the window');
  });

  it('are forecast nearer to the truth where hatches that were found at a look count as half-way since the look before', () => {
    const { hatch, trueHatch, trueHatchHalfway } = judged({ swingDays: 5, keeper: 'looks' });
    assertBetween(heldPct(hatch), 76, 84, 'recorded hatches within the window');
    assertBetween(heldPct(trueHatch), 70, 84, 'true hatches within the window');
    assert.ok(trueHatchHalfway.mae < 0.95 * trueHatch.mae, `${trueHatchHalfway.mae} is not less than ${trueHatch.mae}`);
  });
});
