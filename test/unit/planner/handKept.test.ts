import assert from 'node:assert/strict';
import { textOf } from '../../../src/base/messages';
import type { Plan } from '../../../src/planner/plan';
import { dayMs } from '../../../src/base/zone';
import { filledRoom, roomOf } from '../../support/room';
import { fillAll, samplesNow, sampleRoom } from '../../support/samples';

const now = '2026-06-10T09:00';

function keptByHand(plan: Plan): readonly string[] {
  return plan.paths().flatMap((path) => plan.fills(path).handKept.map(({ file, header, rows }) => `${file} ${header} ${rows}`));
}

function append(plan: Plan, path: string, line: string): void {
  const text = plan.records.file(path)?.doc.text() ?? '';
  plan.apply([{ path, edits: [{ start: text.length, end: text.length, text: line }] }]);
}

describe('a computed column that was kept by hand', () => {
  /** Words of the keeper's own. */
  const byHand = 'clutch,species,tank,spawned,stage,age_days\nK1,kribensis,T1,2026-05-01,small,\nK2,kribensis,T2,2026-05-11,tiny,\nK3,kribensis,T3,2026-05-21,dots,\n';

  it('is left alone and named, the others are filled', () => {
    const plan = roomOf({ 'clutches.csv': byHand }, now);
    const { changes, handKept } = plan.fills('clutches.csv');
    assert.deepEqual([...new Set(changes.map(({ header }) => header))], ['age_days']);
    assert.deepEqual(handKept, [{ file: 'clutches.csv', span: { start: 28, end: 33 }, header: 'stage', rows: 3 }]);
  });

  it('is not the ammonia of all tanks after a test of whole rooms', () => {
    const tank = (i: number): string => `T${i},R1,${['0.0010', '0.0011', '0.0012'][i % 3]}`;
    const byHand = roomOf({ 'tanks.csv': ['tank,room,nh3_mg_l', ...[1, 2, 3, 4, 5].map(tank)], 'readings.csv': ['time,room,temp_c,ph,tan_mg_l', '2026-06-03,R1,26,7,0.1', '2026-06-09,R1,26,7.4,0.5'] }, now);
    assert.deepEqual(keptByHand(byHand), ['tanks.csv nh3_mg_l 5']);
    const plan = filledRoom({ 'tanks.csv': ['tank,room,nh3_mg_l', ...[1, 2, 3, 4, 5].map((i) => `T${i},R1,`)], 'readings.csv': ['time,room,temp_c,ph,tan_mg_l', '2026-06-03,R1,26,7,0.1'] }, now);
    append(plan, 'readings.csv', '2026-06-09,R1,26,7.4,0.5\n');
    assert.deepEqual([keptByHand(plan), plan.fills('tanks.csv').changes.filter(({ header }) => header === 'nh3_mg_l').length], [[], 5]);
  });

  it('is filled when the keeper agrees', () => {
    const plan = roomOf({ 'clutches.csv': byHand }, now);
    const changes = plan.fills('clutches.csv', { overwrite: true }).changes.filter(({ header }) => header === 'stage');
    assert.deepEqual(changes.map(({ before, after }) => `${before} → ${after}`), ['small → egg', 'tiny → egg', 'dots → egg']);
  });

  it('has a hint of its own, whose fix is not to be run unasked', () => {
    const plan = roomOf({ 'clutches.csv': byHand }, now);
    const hints = plan.problems('clutches.csv').filter(({ code }) => code === 'computed-stale').map(({ message, fixes }) => [textOf(message).includes('not worked out here'), fixes.map(({ safe }) => safe)]);
    assert.deepEqual(hints, [[true, [false]], [false, [true]]]);
  });

  it('is one where most filled cells say something that was never so', () => {
    const rows = ['K1,kribensis,T1,2026-05-01,40', 'K2,kribensis,T2,2026-05-11,30', 'K3,kribensis,T3,2026-05-21,77', 'K4,kribensis,T3,2026-05-31,'];
    const plan = roomOf({ 'clutches.csv': `clutch,species,tank,spawned,age_days\n${rows.join('\n')}\n` }, now);
    assert.deepEqual(keptByHand(plan), []);
    assert.deepEqual(plan.fills('clutches.csv').changes.map(({ before, after }) => `${before} → ${after}`), ['77 → 20', ' → 10']);
  });

  it('is left alone in a sheet of one row too', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned,age_days,alive\nK1,kribensis,T1,2026-05-01,77,30\n' }, now);
    assert.deepEqual(keptByHand(plan), ['clutches.csv age_days 1', 'clutches.csv alive 1']);
  });
});

describe("the keeper's own cells in a column that is filled here", () => {
  const sheet = (ages: readonly string[]): string => `clutch,species,tank,spawned,age_days\n${ages.map((age, i) => `K${i},kribensis,T1,2026-05-01,${age}\n`).join('')}`;

  it('are left alone where they say something that is never written there', () => {
    const plan = roomOf({ 'clutches.csv': sheet(['40', '', '40', 'about three weeks', '40']) }, now);
    assert.deepEqual(keptByHand(plan), ['clutches.csv age_days 1']);
    assert.deepEqual(plan.fills('clutches.csv').changes.map(({ before, after }) => `${before} → ${after}`), [' → 40']);
    const hint = plan.problems('clutches.csv').find(({ code }) => code === 'computed-stale');
    assert.deepEqual(hint?.fixes.map(({ title, safe }) => [textOf(title), safe]), [['Fill 1 cell of age_days', true], ['Fill 2 cells of age_days, over what you wrote there too', false]]);
  });

  it('are left alone where nothing would stand in their place', () => {
    const logs = { 'log.csv': 'clutch,time,event,count\nK0,2026-06-01,counted,50\nK1,2026-06-01,counted,60\nK2,2026-06-01,counted,70\n' };
    const plan = roomOf({ ...logs, 'clutches.csv': 'clutch,species,tank,spawned,alive\nK0,kribensis,T1,2026-05-01,50\nK1,kribensis,T1,2026-05-02,60\nK2,kribensis,T1,2026-05-03,\nK3,kribensis,T1,2026-05-04,45\n' }, now);
    assert.deepEqual(keptByHand(plan), ['clutches.csv alive 1']);
    assert.deepEqual(plan.fills('clutches.csv').changes.map(({ before, after }) => `${before} → ${after}`), [' → 70']);
    assert.deepEqual(plan.fills('clutches.csv', { overwrite: true }).changes.map(({ after }) => after), ['70', '']);
  });

  it('are not those that the records gave before something more was written down', () => {
    const room = { 'clutches.csv': 'clutch,species,tank,spawned,eggs,ended,outcome,hatch_expected\nK0,kribensis,T1,2026-06-08T10:00,80,,,\nK1,kribensis,T2,2026-06-08T10:00,80,,,\n' };
    const texts = filledRoom(room, now).records.file('clutches.csv')?.doc.text() ?? '';
    const plan = roomOf({ 'clutches.csv': texts.replace('80,,,', '80,2026-06-09,eaten,') }, now);
    assert.deepEqual(keptByHand(plan), []);
    assert.ok(plan.fills('clutches.csv').changes.some(({ header, before, after }) => header === 'hatch_expected' && before !== '' && after === ''));
  });
});

describe('a column that was filled here', () => {
  const room = {
    'pairs.csv': 'pair,species,tank\nP1,kribensis,T1\n',
    'clutches.csv': 'clutch,pair,tank,spawned,eggs,hatched,free_swimming\nK1,P1,T1,2026-03-20T19:30,80,2026-03-23,2026-03-31\nK2,P1,T1,2026-04-28,70,2026-05-01,2026-05-09\n',
    'log.csv': 'clutch,time,event,tank,count\nK1,2026-04-10,counted,T1,50\nK1,2026-04-20,lost,T1,2\nK1,2026-05-10,counted,T1,44\n',
    'tanks.csv': 'tank,room\nT1,R1\nT2,R1\n',
    'rooms.csv': 'room\nR1\n',
  };

  it('is ours however long nobody looks', () => {
    for (const days of [0.5, 1, 9, 40, 200, 1000]) {
      const plan = filledRoom(room, now);
      plan.setNow(plan.now.instant + days * dayMs);
      assert.deepEqual(keptByHand(plan), [], `after ${days} days`);
    }
  });

  it('is ours when a brood is written down', () => {
    const plan = filledRoom(room, now);
    append(plan, 'clutches.csv', 'K3,P1,T2,2026-06-09T20:00,,,,,,,,,,,,\n');
    assert.deepEqual(keptByHand(plan).filter((column) => /^(clutches|pairs|log)/.test(column)), []);
    assert.ok(plan.fills('pairs.csv').changes.length > 0);
  });

  it('is ours when the log goes on', () => {
    const plan = filledRoom(room, now);
    append(plan, 'log.csv', 'K1,2026-06-10,sold,T1,10,,,\n');
    assert.deepEqual(keptByHand(plan), []);
  });

  it('is ours when the only brood of a sheet is corrected', () => {
    const texts = filledRoom({ 'clutches.csv': 'clutch,species,tank,spawned,age_days,stage,stage_basis,tanks_now,hatch_expected\nK1,kribensis,T1,2026-06-09T10:00,,,,,\n' }, now).records.file('clutches.csv')?.doc.text() ?? '';
    const plan = roomOf({ 'clutches.csv': texts.replace('T10:00', 'T18:00') }, now);
    assert.deepEqual(keptByHand(plan), []);
    assert.deepEqual(plan.fills('clutches.csv').changes.map(({ header }) => header), ['hatch_expected', 'next_due']);
  });

  it('is ours in a real room, whose keeper comes back after some time', async () => {
    const plan = fillAll(await sampleRoom('three-rooms'));
    for (const days of [1, 7, 30, 100]) {
      plan.setNow(samplesNow.instant + days * dayMs);
      assert.deepEqual(keptByHand(plan), [], `after ${days} days`);
    }
  });
});
