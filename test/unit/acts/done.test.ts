import assert from 'node:assert/strict';
import { done, doneWays } from '../../../src/acts/done';
import { textOf } from '../../../src/base/messages';
import { CsvDocument } from '../../../src/csv/document';
import { keyOfOccurrence as keyOf } from '../../../src/planner/coming';
import type { DueEntry } from '../../../src/planner/due';
import type { Plan } from '../../../src/planner/plan';
import { defaultRoutinesText } from '../../../src/schema/defaults';
import { linesAdded, planOf, refusalOf, textsAfter, textsOfResult } from '../../support/acts';
import { moment } from '../../support/moments';
import { textsOf } from '../../support/plans';
import type { RoomFiles } from '../../support/room';
import { roomOf } from '../../support/room';

const HOUR = 3_600_000;

/** The entry of a routine, by whatever thing. */
function entryOf(plan: Plan, routine: string, days = 0): DueEntry {
  const entry = plan.due(days).find(({ occurrence }) => occurrence.routine.routine === routine);
  assert.ok(entry, `${routine} is not due: ${plan.due(days).map(({ occurrence }) => occurrence.routine.routine).join(' ')}`);
  return entry;
}

/** What would be typed for whatever is needed and has no likely answer. */
const typed: Readonly<Record<string, string>> = { count: '1', length: '24', to_tank: 'T3', ref: 'K9', outcome: 'eaten', clutch: 'K77', culture: 'MW-2' };

function answersTo(fields: readonly { readonly name: string; readonly likely: string; readonly isNeeded: boolean; readonly choices: readonly string[] }[]): Record<string, string> {
  return Object.fromEntries(fields.flatMap(({ name, likely, isNeeded, choices }) => (isNeeded && likely === '' ? [[name, choices[0] ?? typed[name] ?? '']] : [])));
}

/** Tries each way to have each open thing done, and goes on with the first, but never does some; the names of the routines that were done, with their ways. */
function liveThrough(files: RoomFiles, { from, hours, step, leaves = [] }: { readonly from: string; readonly hours: number; readonly step: number; readonly leaves?: readonly string[] }): ReadonlySet<string> {
  let texts = textsOf(roomOf(files, from));
  const seen = new Set<string>();
  const start = moment(from).instant;
  for (let hour = 0; hour <= hours; hour += step) {
    for (;;) {
      const plan = planOf(texts, start + hour * HOUR + 40_500);
      const entries = plan.due(0).filter(({ occurrence }) => occurrence.state !== 'upcoming' && occurrence.level !== 'round' && !leaves.includes(occurrence.routine.routine));
      let next: Readonly<Record<string, string>> | undefined;
      for (const entry of entries) {
        const key = keyOf(entry);
        for (const { way, fields } of doneWays(key, plan)) {
          const after = textsOfResult(plan, done(key, way, answersTo(fields))(plan));
          const still = planOf(after, plan.now.instant).due(0).filter(({ row, occurrence }) => occurrence.state !== 'upcoming' && keyOf({ row, occurrence }) === key);
          assert.deepEqual(still, [], `${key} is still open after ${way} in ${JSON.stringify(answersTo(fields))}`);
          seen.add(`${entry.occurrence.routine.routine} ${way}`);
          next ??= after;
        }
      }
      if (next === undefined) break;
      texts = next;
    }
  }
  return seen;
}

const tanks = { 'tanks.csv': 'tank,room,use\nT1,R,breeding\nT2,R,grow-out\nT3,R,grow-out\n' };
const on = 'routine,action,about,off\nmeasure,Measure ten fish,clutch,no\ntest-water,Test the water,tank,no\nchange-water,Change water,tank,no\n';

/** The built-in routines that apply to a way of breeding: what is off there stands in a row of its own. */
function builtInFor(care: string): readonly string[] {
  const list = CsvDocument.parse(defaultRoutinesText);
  const rows = Array.from({ length: list.rowCount - 1 }, (_, i) => Array.from({ length: list.cellCount(0) }, (__, column) => list.value(i + 1, column)));
  const names = new Set(rows.flatMap(([routine = '', , , about, only = '']) => (about === 'clutch' && (only === '' || only === care) ? [routine] : [])));
  for (const row of rows) if (row[4] === care && row.at(-1) === 'yes') names.delete(row[0] as string);
  names.delete('feed');
  return [...names].sort();
}

describe('done', () => {
  for (const care of ['cave', 'substrate', 'bubble-nest', 'scatterer', 'mop', 'mouthbrooder', 'livebearer']) {
    it(`makes every routine of the tool go away, of ${care}`, () => {
      const species = 'species,care,hatch_h,first_feed_h,free_swim_h,release_d,strip_d,juvenile_d,sale_d,hatch_mm,sale_mm,max_mm,interval_d,feeds_per_day\n';
      const files = {
        ...tanks,
        'species.csv': `${species}fish,${care},72,150,240,${care === 'mouthbrooder' ? '21,14' : ','},40,90,4,25,90,33,2\n`,
        'pairs.csv': 'pair,species,tank\nP1,fish,T1\n',
        'clutches.csv': 'clutch,pair,species,tank,spawned,ended,outcome\nK1,P1,,T1,2026-03-01T10:00,,\nK9,,fish,T2,2026-02-28T10:00,,\n',
        'routines.csv': on,
      };
      // Who starts brine shrimp and strips the female has done by that what would come later.
      const [all, others] = [[], ['shrimp', 'strip', 'clear-tank']].map((leaves) => liveThrough(files, { from: '2026-03-01T11:00', hours: 24 * 125, step: 12, leaves })) as [ReadonlySet<string>, ReadonlySet<string>];
      const seen = new Set([...all, ...others]);
      const routines = new Set([...seen].map((name) => name.split(' ')[0]));
      assert.deepEqual(builtInFor(care).filter((routine) => !routines.has(routine)), []);
      if (care === 'cave') assert.ok(['hatch hatched', 'hatch gone', 'hatch not-known', 'look-at-eggs fungus', 'first-feed fed'].every((way) => seen.has(way)), [...seen].join());
    });
  }

  it('makes the routines of tanks go away, in a log of their own and in the sheet of all', () => {
    const rows = 'time,tank,room,event,temp_c,ph,change_pct\n2026-03-01T10:00,T1,,tested,25,7,\n2026-03-01T10:00,T1,,water_change,,,30\n';
    for (const files of [{ 'readings.csv': rows }, { 'tanks/T1.csv': 'time,event,ph\n2026-03-01,tested,7\n2026-03-01,water_change,\n' }]) {
      const seen = liveThrough({ ...tanks, 'routines.csv': on, ...files }, { from: '2026-03-01T11:00', hours: 24 * 30, step: 24 });
      assert.deepEqual([...seen].sort(), ['change-water water_change', 'test-water tested']);
    }
  });

  it('fills in what is likely: the last count, an empty tank to grow out in, the last water change', () => {
    const files = {
      ...tanks,
      'pairs.csv': 'pair,species,tank\nP1,kribensis,T1\n',
      'clutches.csv': 'clutch,pair,tank,spawned\nK1,P1,T1,2026-04-01\nK2,P1,T2,2026-03-01\n',
      'log.csv': 'time,clutch,event,tank,count,to_tank\n2026-04-04,K1,hatched,,,\n2026-04-14,K1,free_swimming,,,\n2026-04-13,K1,counted,,~80,\n2026-03-04,K2,hatched,,,\n',
      'readings.csv': 'time,tank,room,event,change_pct\n2026-04-30,T1,,water_change,25\n2026-04-01,T1,,water_change,50\n',
      'routines.csv': `${on}move-now,Move,clutch,no\n`,
    };
    const plan = roomOf({ ...files, 'routines.csv': 'routine,action,about,off,offset,done_by\nmove-now,Move,clutch,no,2026-05-05,moved\nchange-water,Change water,tank,no,,\n' }, '2026-05-07T09:00');
    const likely = (routine: string): readonly string[] => doneWays(keyOf(entryOf(plan, routine)), plan).flatMap(({ way, fields }) => fields.map(({ name, likely: text }) => `${way} ${name} ${text}`));
    assert.deepEqual(likely('count'), ['counted time 2026-05-07T09:00', 'counted count ~80']);
    assert.deepEqual(likely('move-now'), ['moved time 2026-05-07T09:00', 'moved to_tank T3', 'moved count']
      .map((text) => (text.endsWith('count') ? `${text} ` : text)));
    assert.deepEqual(likely('change-water'), ['water_change time 2026-05-07T09:00', 'water_change change_pct 25']);
  });

  it('asks for the tank where a brood stands in several, and refuses what says nothing', () => {
    const files = {
      ...tanks,
      'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01\n',
      'log.csv': 'time,clutch,event,tank,count,to_tank\n2026-04-04,K1,hatched,,,\n2026-04-14,K1,free_swimming,,,\n2026-04-20,K1,moved,T1,40,T2\n',
    };
    const now = '2026-04-30T09:00:40';
    const key = keyOf(entryOf(roomOf(files, now), 'count'));
    assert.deepEqual(doneWays(key, roomOf(files, now))[0]?.fields.map(({ name, choices }) => `${name} ${choices.join()}`.trim()), ['time 2026-04-30T09:00,~2026-04-28', 'tank T1,T2', 'count']);
    assert.equal(refusalOf(files, now, done(key, 'counted', {})), 'How much or where is missing: count. Nothing was written.');
    assert.equal(refusalOf(files, now, done(key, 'counted', { count: 'many' })).includes('many'), true);
    assert.deepEqual(linesAdded(files, now, { act: done(key, 'counted', { count: '36', tank: 'T2' }), path: 'log.csv' }), ['2026-04-30T09:00,K1,counted,T2,36,']);
    const noTank = { ...files, 'log.csv': 'time,clutch,event,count\n2026-04-04,K1,hatched,\n2026-04-14,K1,free_swimming,\n', 'clutches/K1.csv': 'time,event,count,to_tank\n2026-04-20,moved,40,T2\n' };
    assert.equal(textsAfter(noTank, now, done(key, 'counted', { count: '36' }))['clutches/K1.csv'], 'time,event,tank,count,to_tank\n2026-04-20,moved,,40,T2\n2026-04-30T09:00,counted,T1,36,\n');
  });

  it('refuses what was done meanwhile, what is too early to count, and what is still to come', () => {
    const files = { ...tanks, 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01T10:00\n', 'log.csv': 'time,clutch,event\n' };
    const plan = roomOf(files, '2026-04-02T11:00');
    const look = done(keyOf(entryOf(plan, 'look-at-eggs')), 'checked', {});
    assert.deepEqual(linesAdded(files, '2026-04-02T11:00', { act: look, path: 'log.csv' }), ['2026-04-02T11:00,K1,checked']);
    assert.equal(refusalOf({ ...files, 'log.csv': 'time,clutch,event\n2026-04-02T10:30,K1,checked\n' }, '2026-04-02T11:00', look), 'This is not to be done any more: it was recorded, or changed, meanwhile.');
    const tomorrow = plan.due(2).findLast(({ occurrence }) => occurrence.routine.routine === 'look-at-eggs') as DueEntry;
    assert.equal(refusalOf(files, '2026-04-02T11:00', done(keyOf(tomorrow), 'checked', {})).startsWith('It falls due on 2026-04-03.'), true);
    assert.equal(refusalOf(files, '2026-04-02T11:00', done(keyOf(entryOf(plan, 'look-at-eggs')), 'checked', { time: '2026-04-02T12:00' })), '2026-04-02T12:00 is later than now, so nothing was written.');
  });

  it('sends orders, sets cultures up anew, and leaves what no row makes go away', () => {
    const files = {
      'clutches.csv': 'clutch,species,tank,spawned\n',
      'orders.csv': 'order,species,quantity,due,sent,shipment\nO1,kribensis,10,2026-06-12,,\n',
      'cultures.csv': 'culture,food,started,grams,renew_every,ended\nMW-1,microworm,2026-05-20,,P18D,\nBS-1,brine_shrimp,2026-06-09T20:00,2,,\n',
      'routines.csv': 'routine,action,about,anchor,offset,done_by\npack,Pack,order,due,-P1D,\n',
    };
    const now = '2026-06-11T09:00';
    const plan = roomOf(files, now);
    const keys = Object.fromEntries(['pack', 'renew-culture', 'culture-ready'].map((routine) => [routine, keyOf(entryOf(plan, routine))]));
    const act = (routine: string, answers = {}): ReturnType<typeof done> => done(keys[routine] as string, doneWays(keys[routine] as string, plan)[0]?.way ?? '', answers);
    const after = (routine: string): readonly string[] => planOf(textsOfResult(plan, act(routine)(plan)), plan.now.instant).due(0).map(({ occurrence }) => occurrence.routine.routine);
    assert.deepEqual(after('pack'), ['renew-culture', 'culture-ready']);
    assert.equal(textsOfResult(plan, act('pack')(plan))['orders.csv'], 'order,species,quantity,due,sent,shipment\nO1,kribensis,10,2026-06-12,2026-06-11,\n');
    assert.equal(textsOfResult(plan, act('renew-culture')(plan))['cultures.csv'], 'culture,food,started,grams,renew_every,ended\nMW-1,microworm,2026-05-20,,P18D,2026-06-11T09:00\nBS-1,brine_shrimp,2026-06-09T20:00,2,,\nMW-2,microworm,2026-06-11T09:00,,P18D,\n');
    assert.equal(after('renew-culture').includes('renew-culture'), false);
    assert.deepEqual(doneWays(keys['culture-ready'] as string, plan), []);
    assert.equal(refusalOf(files, now, act('culture-ready')), 'No row makes this go away by itself. Open its row instead.');
  });

  it('takes the keys of entries of what is coming', () => {
    const files = { ...tanks, 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01T10:00\n', 'log.csv': 'time,clutch,event\n' };
    const { entries } = roomOf(files, '2026-04-02T11:00').coming(2);
    const look = entries.find(({ occurrence, state }) => occurrence?.routine.routine === 'look-at-eggs' && state === 'due');
    assert.deepEqual(linesAdded(files, '2026-04-02T11:00', { act: done(look?.key ?? '', 'checked', {}), path: 'log.csv' }), ['2026-04-02T11:00,K1,checked']);
    assert.equal(refusalOf(files, '2026-04-02T11:00', done('clutches/K1/next-spawn/', 'checked', {})), 'This is not to be done any more: it was recorded, or changed, meanwhile.');
  });

  it('shows the caution where a treatment is written', () => {
    const files = { ...tanks, 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01T10:00\n', 'log.csv': 'time,clutch,event,note\n', 'routines.csv': 'routine,action,about,offset,done_by\ntreat,Treat,clutch,2026-04-02,treated\n' };
    const plan = roomOf(files, '2026-04-02T11:00');
    const result = done(keyOf(entryOf(plan, 'treat')), 'treated', { note: 'salt, by the label' })(plan);
    assert.equal(result.kind === 'edits' && result.caution !== undefined && textOf(result.caution), 'Medication and salt: the label, local law and your veterinarian come first.');
    assert.deepEqual(linesAdded(files, '2026-04-02T11:00', { act: () => result, path: 'log.csv' }), ['2026-04-02T11:00,K1,treated,"salt, by the label"']);
  });
});
