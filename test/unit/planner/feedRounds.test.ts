import { deepStrictEqual, equal } from 'node:assert/strict';
import { clockTime, feedDay } from '../../../src/planner/feedRounds';
import type { FeedDay } from '../../../src/planner/feedRounds';
import { roomOf } from '../../support/room';

const species = 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,feeds_per_day\nonce,cave,26,72,120,192,30,80,35,1\nthrice,cave,26,72,120,192,30,80,35,3\n';

function fed(config: string, clutches: string): FeedDay | undefined {
  const plan = roomOf({ 'fishroom.json': config, 'species.csv': species, 'tanks.csv': 'tank,room\nT1,front\nT2,front\nT3,back\n', 'clutches.csv': `clutch,species,tank,spawned,hatched\n${clutches}` }, '2026-06-10T09:00');
  return feedDay(plan.coming(2).feedings, { day: plan.now.day + 1, config: plan.records.config });
}

const told = (day: FeedDay | undefined): readonly unknown[] => (day?.turns ?? []).map(({ minute, times, tanksByRoom }) => [minute === undefined ? times : clockTime(minute), Object.fromEntries(tanksByRoom)]);

describe('the feeding of a day', () => {
  const clutches = 'K1,once,T1,2026-05-20,2026-05-23\nK2,thrice,T2,2026-05-20,2026-05-23\nK3,thrice,T3,2026-05-20,2026-05-23\nK4,thrice,T1,2026-05-20,2026-05-23\n';

  it('is told by rounds, a tank with several broods as often as the one that needs it most', () => {
    const day = fed('{"timezone":"Europe/Berlin","rounds":["19:00","8:00"]}', clutches);
    deepStrictEqual([day?.rounds, day?.tanks], [2, 3]);
    deepStrictEqual(told(day), [['08:00', { front: ['T1', 'T2'], back: ['T3'] }], ['19:00', { front: ['T1', 'T2'], back: ['T3'] }]]);
  });

  it('leaves out rounds for who is fed less often', () => {
    deepStrictEqual(told(fed('{"timezone":"Europe/Berlin","rounds":["08:00","13:00","19:00"]}', 'K1,once,T1,2026-05-20,2026-05-23\nK2,thrice,T2,2026-05-20,2026-05-23\n')), [['08:00', { front: ['T1', 'T2'] }], ['13:00', { front: ['T2'] }], ['19:00', { front: ['T2'] }]]);
  });

  it('is told by how often where the fishroom names no rounds', () => {
    const day = fed('{"timezone":"Europe/Berlin"}', 'K1,once,T1,2026-05-20,2026-05-23\nK2,thrice,T2,2026-05-20,2026-05-23\n');
    deepStrictEqual([day?.rounds, day?.tanks, told(day)], [3, 2, [[1, { front: ['T1'] }], [3, { front: ['T2'] }]]]);
  });

  it('is none where nobody is fed', () => {
    equal(fed('{}', 'K1,once,T1,2026-06-09,\n'), undefined);
  });
});
