import assert from 'node:assert/strict';
import { formatDay } from '../../../src/base/moment';
import type { RoomFiles } from '../../support/room';
import { roomOf } from '../../support/room';

/** Born at 5 mm, sold at 25 mm after 100 days, never longer than 105 mm; half of them are there then. */
const species = 'species,care,hatch_h,sale_d,hatch_mm,sale_mm,max_mm,survival_pct\nmine,cave,72,100,5,25,105,50\n';

/** `K1 from 25: 2026-06-09 to 2026-07-01, 40 fish of 60` for each, in order; with what is not counted. */
function told(files: RoomFiles, now: string, days = 3660): readonly string[] {
  const plan = roomOf({ 'species.csv': species, ...files }, now);
  return plan.ahead(days).flatMap(({ kind, clutch, expected, sale }) => {
    if (kind !== 'sale' || sale === undefined) return [];
    return [`${clutch} from ${sale.minMm} on ${formatDay(expected.day)}: ${sale.fish ?? '?'} of ${sale.total}${sale.uncounted === 0 ? '' : ` and ${sale.uncounted} broods`}`];
  });
}

const register = (...rows: readonly string[]): string => ['clutch,species,tank,spawned,hatched,ended', ...rows, ''].join('\n');

describe('fish ready to sell', () => {
  it('are as many as mortality leaves until their day', () => {
    // Hatched on 1 January, counted on 22 January: of the 79 days left until day 100 a third of ln 2 is for 79 days: 2^(−1/3) = 0.794.
    const files = { 'clutches.csv': register('K1,mine,T1,2025-12-29,2026-01-01,'), 'clutches/K1.csv': 'time,event,count\n2026-01-22T12:00,counted,100\n' };
    assert.deepEqual(told(files, '2026-01-22T12:00'), ['K1 from 25 on 2026-04-11: 79 of 79']);
  });

  it('are told for every length that prices and open orders ask for, the longest that they have now and what is to come', () => {
    const files = {
      'clutches.csv': register('K1,mine,T1,2025-12-29,2026-01-01,'),
      'clutches/K1.csv': 'time,event,count\n2026-04-01,counted,40\n',
      'prices.csv': 'species,min_mm,unit_price\nmine,15,2\nmine,45,9\nother,20,1\n',
      'orders.csv': 'order,species,quantity,due,min_mm,sent\nO1,mine,5,2026-09-01,35,\nO2,mine,5,2026-03-01,30,2026-03-01\n',
    };
    // K = ln(100/80)/100 = 0.0022314: 15 mm on day 47, 35 mm on day 160, 45 mm on day 229. By counts of one day nothing is known of its own mortality.
    assert.deepEqual(told(files, '2026-04-02').map((line) => line.replace(/:.*/, '')), ['K1 from 15 on 2026-02-17', 'K1 from 25 on 2026-04-11', 'K1 from 35 on 2026-06-10', 'K1 from 45 on 2026-08-18']);
    assert.deepEqual(told(files, '2026-05-01').map((line) => line.replace(/:.*/, '')), ['K1 from 25 on 2026-04-11', 'K1 from 35 on 2026-06-10', 'K1 from 45 on 2026-08-18']);
    assert.deepEqual(told(files, '2026-04-02', 30).length, 2);
  });

  it('add up by species and length, longer ones and those that are not counted too', () => {
    const files = {
      'clutches.csv': register('K1,mine,T1,2025-08-29,2025-09-01,', 'K2,mine,T2,2025-12-29,2026-01-01,', 'K3,mine,T3,2025-12-30,2026-01-02,', 'K4,mine,T4,2025-12-30,2026-01-02,2026-03-01'),
      'log.csv': 'clutch,time,event,count\nK1,2026-04-30,counted,20\nK2,2026-04-30,counted,30\nK3,2026-02-01,checked,\n',
      'prices.csv': 'species,min_mm,unit_price\nmine,40,9\n',
    };
    // K1 is longer than 40 mm by now, and among those from 25 mm.
    assert.deepEqual(told(files, '2026-05-01', 0), ['K1 from 40 on 2026-03-13: 20 of 20', 'K2 from 25 on 2026-04-11: 30 of 50', 'K3 from 25 on 2026-04-12: ? of 50 and 1 broods']);
  });

  it('are not sold before they may be', () => {
    const files = { 'clutches.csv': register('K1,mine,T1,2025-12-29,2026-01-01,'), 'clutches/K1.csv': 'time,event,count,hold_until\n2026-04-01,counted,40,2026-06-01\n2026-04-02,checked,,2026-05-20\n' };
    assert.deepEqual(told(files, '2026-04-30').map((line) => line.replace(/:.*/, '')), ['K1 from 25 on 2026-05-20']);
  });

  it('are none of a brood that is gone, sold out, or that nobody answered for', () => {
    const files = {
      'clutches.csv': register('K1,mine,T1,2025-12-29,2026-01-01,2026-04-30', 'K2,mine,T2,2025-12-29,2026-01-01,', 'K3,mine,T3,2025-12-29,,'),
      'log.csv': 'clutch,time,event,count\nK2,2026-04-30,counted,0\n',
    };
    assert.deepEqual(told(files, '2026-05-01'), []);
  });

  it('have a day without lengths of the species, and no length then', () => {
    const files = { 'species.csv': 'species,care,hatch_h,sale_d\nmine,cave,72,100\n', 'clutches.csv': register('K1,mine,T1,2025-12-29,2026-01-01,') };
    assert.deepEqual(told(files, '2026-02-01'), ['K1 from undefined on 2026-04-11: ? of 0 and 1 broods']);
  });
});
