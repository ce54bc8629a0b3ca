import { deepStrictEqual } from 'node:assert/strict';
import { roundsOf } from '../../../src/planner/rounds';
import { clockTime } from '../../../src/planner/feedRounds';
import { roomOf } from '../../support/room';

describe('the rounds of a day', () => {
  const species = 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,feeds_per_day\ncaver,cave,26,72,156,300,40,100,2\n';
  /** The first feed is 156 h after the hatch: of K1 on 10 June at 21:00, of K2 and K3 a day before. */
  const told = (clutches: string, days: number): readonly string[] => {
    const plan = roomOf({ 'fishroom.json': '{"rounds":["08:00","13:00","19:00"],"timezone":"Europe/Berlin"}', 'species.csv': species, 'clutches.csv': `clutch,species,tank,spawned,hatched\n${clutches}` }, '2026-06-10T07:00');
    const day = plan.now.day + days;
    const entries = plan.due(days).filter(({ occurrence }) => occurrence.due.day === day);
    return roundsOf(entries, { day, now: plan.now, config: plan.records.config, zone: plan.records.zone }).map(({ minute, tanks }) => `${minute === undefined ? '' : clockTime(minute)} ${tanks.join(' ')}`);
  };
  const k1 = 'K1,caver,T1,2026-06-01T09:00,2026-06-04T09:00\n';

  it('begin on the day of the first feed with the round at or before it', () => {
    deepStrictEqual([told(k1, 0), told(k1, 1)], [['19:00 T1'], ['08:00 T1', '13:00 T1']]);
  });

  it('are those of all broods of a tank', () => {
    deepStrictEqual(told(`${k1}K2,caver,T1,2026-05-31T09:00,2026-06-03T09:00\nK3,caver,T2,2026-05-31T09:00,2026-06-03T09:00\n`, 0), ['08:00 T1 T2', '13:00 T1 T2']);
  });
});
