import assert from 'node:assert/strict';
import fc from 'fast-check';
import { textOf } from '../../../src/base/messages';
import { formatDay, formatMoment } from '../../../src/base/moment';
import type { Entry } from '../../../src/planner/entry';
import { Plan } from '../../../src/planner/plan';
import { keyText } from '../../../src/records/row';
import { berlin } from '../../support/moments';
import { anyRoom } from '../../support/randomRoom';
import { roomOf } from '../../support/room';
import { sampleRoom, samplesNow } from '../../support/samples';

function told({ records: { zone } }: Plan, { kind, action, room, tank, clutch, pair, due, from, to, state, hasHours }: Entry): string {
  const at = (moment: typeof due): string => (hasHours ? formatMoment(moment, zone) : formatDay(moment.day));
  const window = at(from) === at(due) && at(to) === at(due) ? '' : ` (${at(from)} to ${at(to)})`;
  return `${kind}: ${at(due)}${window} ${[room, tank, clutch || pair].filter((part) => part !== '').join(' ')}: ${textOf(action)}${state === 'upcoming' ? '' : `, ${state}`}`;
}

const species = 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,sale_mm,hatch_mm,max_mm,interval_d,feeds_per_day\nblue,cave,26,72,120,192,30,80,30,4,60,35,3\n';

describe('what is coming', () => {
  it('tells each thing once: a hatch that is asked for and foretold, food that is asked for and planned', () => {
    const plan = roomOf(
      { 'clutches.csv': 'clutch,species,tank,spawned,eggs\nK1,blue,T1,2026-06-09T08:00,100\n', 'tanks.csv': 'tank,room\nT1,front\n', 'species.csv': species },
      '2026-06-10T09:00',
    );
    const lines = plan.coming(8).entries.map((entry) => told(plan, entry));
    assert.deepEqual(lines, [
      "check: 2026-06-10T08:00 front T1 K1: Look at the eggs: fungus, missing ones; don't disturb, due",
      "check: 2026-06-11T08:00 front T1 K1: Look at the eggs: fungus, missing ones; don't disturb",
      'hatch: 2026-06-12T08:00 (2026-06-11T18:37 to 2026-06-13T00:27) front T1 K1: Hatched, gone, or not known?',
      // For the early end of the window; the plan by amounts is for the days of the expected stage.
      'live-food: 2026-06-14T16:48 (2026-06-14T16:48 to 2026-06-17T07:11) front T1 K1: Start brine shrimp for the first feed',
      'live-food: 2026-06-16T00:00 : Start 0.1 g of brine shrimp',
      'live-food: 2026-06-17T00:00 : Start 0.1 g of brine shrimp',
      'first-feed: 2026-06-17T08:00 (2026-06-16T04:48 to 2026-06-18T19:11) front T1 K1: First feed: microworms, brine shrimp',
      'live-food: 2026-06-18T00:00 : Start 0.1 g of brine shrimp',
    ]);
  });

  it('foretells no first feed of fry that are fed already, early too', () => {
    const files = { 'clutches.csv': 'clutch,species,tank,spawned,hatched\nK1,blue,T1,2026-06-09T08:00,2026-06-12T08:00\n', 'species.csv': species };
    const feeds = (log: string): number => roomOf({ ...files, 'log.csv': `clutch,time,event\n${log}` }, '2026-06-13T12:00').ahead(10).filter(({ kind }) => kind === 'first-feed').length;
    assert.deepEqual(['', 'K1,2026-06-13T08:00,checked\n', 'K1,2026-06-13T08:00,fed\n'].map(feeds), [1, 1, 0]);
  });

  it('foretells the first feed as long as the hatch is to come, however late', () => {
    // The hatch was expected on 10 June at 8:00, the first feed twelve hours later.
    const quick = species.replace(',72,120,', ',72,12,');
    const at = (now: string): readonly string[] => {
      const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,blue,T1,2026-06-07T08:00\n', 'species.csv': quick }, now);
      return plan.ahead(10).flatMap(({ kind, expected }) => (kind === 'hatch' || kind === 'first-feed' ? [`${kind} ${formatMoment(expected, berlin)}`] : []));
    };
    assert.deepEqual(at('2026-06-09T08:00').map((line) => line.replace(/T.*/, '')), ['hatch 2026-06-10', 'first-feed 2026-06-10']);
    const late = at('2026-06-11T08:00');
    assert.equal(late.length, 2);
    const [hatch = '', feed = ''] = late.map((line) => line.split(' ')[1]);
    assert.ok(hatch > '2026-06-11T08:00' && feed > hatch, late.join());
  });

  it('gives the feeding as days on which a tank is fed, from the first feed until sale size', () => {
    const plan = roomOf(
      { 'clutches.csv': 'clutch,species,tank,spawned,hatched,eggs\nK1,blue,T1,2026-03-10T08:00,2026-03-13T08:00,100\n', 'tanks.csv': 'tank,room\nT1,front\n', 'species.csv': species },
      '2026-05-20T09:00',
    );
    assert.deepEqual(plan.coming(60).feedings.map(({ key, tank, firstDay, lastDay, timesADay }) => [key, tank, formatDay(firstDay), formatDay(lastDay), timesADay]), [['clutches/K1/feed/T1', 'T1', '2026-05-20', '2026-05-31', 3]]);
  });

  it('shows jobs that are not over, and orders that have not left, late ones as overdue', () => {
    const plan = roomOf(
      {
        'tanks.csv': 'tank,room\nT1,front\nT2,front\n',
        'maintenance.csv': 'job,what,tanks,room,from,to\nJ1,New racks,,front,2026-06-09,2026-06-12\nJ2,Old,T1,,2026-06-01,2026-06-09\nJ3,Filter,T2,,2026-06-20T08:00,2026-06-20T10:00\n',
        'orders.csv': 'order,buyer,species,quantity,due,sent\nO1,Shop,blue,20,2026-06-08,\nO2,,blue,5,2026-06-12,\nO3,,blue,5,2026-06-11,2026-06-09\n',
      },
      '2026-06-10T09:00',
    );
    assert.deepEqual(plan.coming(14).entries.map((entry) => `${told(plan, entry)} [${entry.tanks.join(' ')}]`), [
      'order: 2026-06-08 : 20 × blue leave for Shop, overdue []',
      'maintenance: 2026-06-09 (2026-06-09 to 2026-06-12) front: New racks, due [T1 T2]',
      'order: 2026-06-12 : 5 × blue leave for the buyer []',
      'maintenance: 2026-06-20T08:00 (2026-06-20T08:00 to 2026-06-20T10:00) front T2: Filter [T2]',
    ]);
  });

  it('holds in the sample all that is due and all that is foretold, each under a key of its own', async () => {
    const plan = await sampleRoom('three-rooms');
    const { entries, feedings } = plan.coming(60);
    const keys = [...entries, ...feedings].map(({ key }) => key);
    assert.equal(new Set(keys).size, keys.length);
    const due = plan.due(60).filter(({ occurrence }) => occurrence.level !== 'round' && occurrence.routine.routine !== 'shrimp');
    const shown = new Set(entries.map(({ occurrence, row }) => `${row.path} ${keyText(row)} ${occurrence?.routine.routine ?? ''} ${occurrence?.index ?? ''}`));
    assert.ok(due.length > 50, `${due.length} are due`);
    assert.deepEqual(due.filter(({ occurrence, row }) => !shown.has(`${row.path} ${keyText(row)} ${occurrence.routine.routine} ${occurrence.index}`)), []);
    const hatches = plan.ahead(60).filter(({ kind }) => kind === 'hatch' || kind === 'release');
    assert.ok(hatches.length > 0);
    for (const hatch of hatches) {
      const same = entries.filter(({ kind, clutch }) => kind === 'hatch' && clutch === hatch.clutch);
      assert.equal(same.length, 1, hatch.clutch);
      assert.deepEqual(same[0]?.to, hatch.to);
    }
  });

  it('has unique keys in any room, and nothing after the days that were asked for', () => {
    fc.assert(
      fc.property(anyRoom, fc.nat(90), (room, days) => {
        const plan = new Plan({ machineZone: berlin, now: samplesNow.instant });
        plan.apply([...room].map(([path, text]) => ({ path, file: { text } })));
        const { entries, feedings } = plan.coming(days);
        const keys = [...entries, ...feedings].map(({ key }) => key);
        assert.equal(new Set(keys).size, keys.length);
        const last = plan.now.day + days;
        for (const { state, due, from } of entries) assert.ok(state === 'overdue' || due.day <= last || from.day <= last, `${due.day} of ${last}`);
        for (const { firstDay, lastDay } of feedings) assert.ok(firstDay >= plan.now.day && firstDay <= lastDay && lastDay <= last);
      }),
      { numRuns: 50 },
    );
  });
});
