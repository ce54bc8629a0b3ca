import assert from 'node:assert/strict';
import { cell, filledRoom, problemsOf, roomOf, why } from '../../support/room';
import type { RoomFiles } from '../../support/room';

const now = '2026-06-10T09:00';

/** The shares of ammonia are those of Emerson et al. 1975, four digits: at 25 °C 0.05366 at pH 8 and 0.1521 at pH 8.5. */
const files: RoomFiles = {
  'tanks.csv': ['tank,room,system', 'T1,R1,', 'T2,R1,S1', 'T3,R1,S1', 'T4,R2,'],
  'tanks/T1.csv': ['time,event,temp_c,ph,tan_mg_l', '2026-06-01T08:00,tested,25,8,0.5', '2026-06-05T08:00,tested,,8.5,0.5', '2026-06-08T08:30,tested,,,1', '2026-06-09T08:00,tested,,,1', '2026-06-11T08:00,tested,25,8,0.5'],
  'tanks/T2.csv': ['time,event,temp_c,ph,tan_mg_l', '2026-06-08,tested,25,8,'],
  'readings.csv': ['tank,room,time,temp_c,ph,tan_mg_l', 'T3,,2026-06-09,,,0.5', ',R2,2026-06-09T07:00,25,8,1', ',R2,2026-06-09T08:00,,8,1', 'T9,,2026-06-09,25,8,0.1'],
};

describe('the water of tanks that are out of use', () => {
  it('is not warned of, and that of a system where one is in use', () => {
    const plan = (retired: string): readonly string[] =>
      problemsOf(roomOf({ 'tanks.csv': ['tank,room,system,retired', 'T1,R1,,2026-01-01', 'T2,R1,S1,2026-01-01', `T3,R1,S1,${retired}`], 'readings.csv': ['room,time,temp_c,ph,tan_mg_l', 'R1,2026-06-09,28,8.5,1'] }, now), 'water-ammonia').map(({ at }) => at);
    assert.equal(plan('').length, 1);
    assert.deepEqual(plan('2026-06-01'), []);
  });
});

describe('un-ionized ammonia', () => {
  const plan = filledRoom(files, now);
  const column = (path: string): readonly string[] => {
    const file = plan.records.file(path);
    const at = file?.header.columnOf.get('nh3_mg_l') ?? -1;
    return [...(file?.rows() ?? [])].map((row) => file?.cellText(row, at) ?? '');
  };

  it('takes a pH or a temperature that is not in the row from the latest of the seven days before', () => {
    // The last two rows: the temperature of 1 June is seven days and half an hour old; a row still to come counts for nothing.
    assert.deepEqual(column('tanks/T1.csv'), ['0.0268', '0.0760', '', '', '']);
  });

  it('takes them from the other tanks on the same water, and of a row about a room from nothing but the row', () => {
    assert.deepEqual(column('readings.csv'), ['0.0268', '0.0537', '', '0.0054']);
  });

  it('of a tank is that of its latest test', () => {
    assert.deepEqual(['T1', 'T2', 'T3', 'T4'].map((tank) => cell(plan, 'tanks.csv', tank, 'nh3_mg_l')), ['', '0.0268', '0.0268', '0.0537']);
  });

  it('tells what it was reckoned from, or why it is empty', () => {
    const told = why(plan, 'tanks/T1.csv', '2026-06-05T08:00', 'nh3_mg_l');
    assert.deepEqual(told.inputs, ['tan_mg_l of 2026-06-05T08:00: 0.5 <tanks/T1.csv: 0.5>', 'ph of 2026-06-05T08:00: 8.5 <tanks/T1.csv: 8.5>', 'temp_c of 2026-06-01T08:00: 25 <tanks/T1.csv: 25>']);
    assert.deepEqual(told.constants, ['pKa: 9.2464 (Emerson and others 1975, fresh water)']);
    assert.deepEqual(why(plan, 'tanks/T1.csv', '2026-06-09T08:00', 'nh3_mg_l').notes, ['There is no pH or no temperature in the seven days up to the row.']);
    const hot = roomOf({ 'tanks/T1.csv': ['time,temp_c,ph,tan_mg_l', '2026-06-01,31,8,1'] }, now);
    assert.deepEqual(why(hot, 'tanks/T1.csv', '2026-06-01', 'nh3_mg_l').notes.slice(0, 1), ['The share of ammonia was measured from 0 to 30 °C and pH 6 to 10. Beyond, the value is a guess.']);
  });

  it('appears when a row’s moment comes', () => {
    const kept = filledRoom(files, now);
    kept.setNow(kept.now.instant + 2 * 86_400_000);
    assert.deepEqual(kept.fills('tanks/T1.csv').changes.map(({ after }) => after), ['0.0268']);
  });
});

describe('what is told of the water', () => {
  const told = (more: RoomFiles, at = now): readonly string[] => {
    const plan = roomOf({ 'tanks.csv': ['tank,room,system', 'T1,R1,', 'T2,R1,S1', 'T3,R1,S1'], ...more }, at);
    return (['water-ammonia', 'water-range', 'outside-model'] as const).flatMap((code) => problemsOf(plan, code).map((problem) => `${code} ${problem.at}: ${problem.says}`));
  };
  const log = (...rows: readonly string[]): RoomFiles => ({ 'tanks/T1.csv': ['time,temp_c,ph,tan_mg_l,no2_mg_l,no3_mg_l', ...rows] });
  const caution = 'Published study values, not a prescription: the label, local law and your veterinarian come first.';

  it('is too much ammonia from 0.02 mg/l NH3-N on, in the latest test of the last seven days', () => {
    // 0.5 mg/l at pH 8 and 25 °C: 0.0268; the limit is 0.373 mg/l there, less than one step of a kit away.
    assert.deepEqual(told(log('2026-06-09,25,8,0.5,,')), [
      `water-ammonia tanks/T1.csv: 0.5: 0.0268 mg/l un-ionized ammonia, as nitrogen (NH3-N), from 0.5 mg/l total ammonia at pH 8 and 25 °C: too much from 0.02 on. That is near the kit's limit: test again. Changing 63 % of the water brings it down to half of that limit. ${caution}`,
    ]);
    assert.deepEqual(told(log('2026-06-09,25,8,0.25,,')), []);
    assert.deepEqual(told(log('2026-06-08,25,8,0.5,,', '2026-06-09,25,8,0.1,,')), []);
    assert.equal(told(log('2026-06-03,25,8,0.5,,')).length, 1);
    assert.deepEqual(told(log('2026-06-02,25,8,0.5,,')), []);
  });

  it('says that gills are harmed from about 0.05 on', () => {
    assert.match(told(log('2026-06-09,25,8,1,,'))[0] ?? '', /: 0\.0537 mg\/l .* gill damage is reported from about 0\.05\. Changing 82 % /);
    assert.match(told(log('2026-06-09,28,9,0.25,,'))[0] ?? '', /gill damage .* near the kit's limit/);
  });

  it('says where the share of ammonia was not measured', () => {
    assert.deepEqual(told(log('2026-06-09,31,8,0.1,,')), ['outside-model tanks/T1.csv: 0.1: The share of ammonia was measured from 0 to 30 °C and pH 6 to 10. Beyond, the value is a guess.']);
  });

  it('is nitrite from 0.5 and nitrate above 50 mg/l, with how much to change', () => {
    assert.deepEqual(told(log('2026-06-09,,,,0.5,50')), ['water-range tanks/T1.csv: 0.5: 0.5 mg/l nitrite (NO2): too much from 0.5 on. Changing 50 % of the water brings it down to half of that; test again tomorrow.']);
    assert.deepEqual(told(log('2026-06-09,,,,,100')), ['water-range tanks/T1.csv: 100: 100 mg/l nitrate (NO3): too much above 50. Changing 50 % of the water brings it down to that; in changes of a quarter it takes 3.']);
  });

  it('is a temperature or pH that a species there does not stand: of broods, pairs and fish', () => {
    const species = { 'species.csv': ['species,care,temp_min_c,temp_max_c,ph_min,ph_max', 'cold,cave,18,22,6,7', 'warm,cave,26,30,,'] };
    const clutches = { 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cold,T1,2026-06-09T08:00'] };
    assert.deepEqual(told({ ...species, ...clutches, ...log('2026-06-09,24,7.5,,,') }), [
      'water-range tanks/T1.csv: 24: 24 °C is too warm for cold, which stand at most 22 °C. Look at the heater and at the thermometer; pull the plug before you reach into the water.',
      'water-range tanks/T1.csv: 7.5: pH 7.5 is too high for cold, which stand at most 7. Test again before you change anything, and change it slowly.',
    ]);
    const pairs = { 'pairs.csv': ['pair,species,tank,retired', 'P1,warm,T1,', 'P2,cold,T1,2026-01-01'] };
    assert.deepEqual(told({ ...species, ...pairs, ...log('2026-06-09,24,,,,') }), ['water-range tanks/T1.csv: 24: 24 °C is too cold for warm, which want at least 26 °C. Look at the heater and at the thermometer; pull the plug before you reach into the water.']);
    const fish = { 'fish.csv': ['fish,species,tank,left', 'F1,warm,T1,2026-07-01', 'F2,cold,T1,2026-05-01'] };
    assert.equal(told({ ...species, ...fish, ...log('2026-06-09,24,,,,') }).length, 1);
  });

  it('is told once for tanks on one water, and of a room at the tanks that it matters to', () => {
    const species = { 'species.csv': ['species,care,temp_min_c,temp_max_c', 'warm,cave,26,30'] };
    const pairs = { 'pairs.csv': ['pair,species,tank', 'P1,warm,T3'] };
    assert.deepEqual(told({ ...species, ...pairs, 'tanks/T2.csv': ['time,temp_c', '2026-06-09,24'] }).map((line) => line.slice(0, 30)), ['water-range tanks/T2.csv: 24: ']);
    assert.deepEqual(told({ ...species, ...pairs, 'readings.csv': ['tank,room,time,temp_c', ',R1,2026-06-09,24'] }).map((line) => line.slice(0, 28)), ['water-range tanks.csv: T2: 2']);
  });

  it('takes the limits of fishroom.json in place of the usual ones and of those of the species', () => {
    const settings = { 'fishroom.json': '{"limits": {"nh3_mg_l": 0.03, "no3_mg_l": 20, "temp_max_c": 23}}' };
    assert.deepEqual(told({ ...settings, ...log('2026-06-09,25,8,0.5,,30') }).map((line) => line.slice(0, 61)), ['water-range tanks/T1.csv: 25: 25 °C is above your limit of 23', 'water-range tanks/T1.csv: 30: 30 mg/l nitrate (NO3): too much']);
  });

  it('says of nitrate how fast it rose since the test before, and where it settles', () => {
    const watched = (...rows: readonly string[]): readonly string[] =>
      told({ 'tanks/T1.csv': ['time,event,no3_mg_l,change_pct', ...rows] }).map((line) => /It rose by .*$/.exec(line)?.[0] ?? line.slice(-14));
    // 20 + 7·4 = 48, a quarter less is 36, and seven days more are 64. With a quarter a week 7·4/0.25 = 112, and 84 after the change.
    assert.deepEqual(watched('2026-05-26T08:00,,20,', '2026-06-02T08:00,water_change,,25', '2026-06-09T08:00,,64,'), [
      'It rose by 4.0 mg/l a day since the test before: with a quarter changed every week it settles at 112 mg/l before each change and 84 after it.',
    ]);
    // Nobody knows how much was changed; the test before is too old; it fell.
    assert.deepEqual(watched('2026-05-26T08:00,,20,', '2026-06-02T08:00,water_change,,', '2026-06-09T08:00,,64,'), ['er it takes 1.']);
    assert.deepEqual(watched('2026-03-26T08:00,,20,', '2026-06-09T08:00,,64,'), ['er it takes 1.']);
    assert.deepEqual(watched('2026-05-26T08:00,,90,', '2026-06-09T08:00,,64,'), ['er it takes 1.']);
  });

  it('is explained with the ways to change it, and a caution', () => {
    const plan = roomOf({ 'tanks.csv': ['tank,room,nh3_mg_l', 'T1,R1,'], ...log('2026-06-09,25,8,0.5,,') }, now);
    // 0.02683 to 0.01: ln 2.683 = 0.987 volumes, 1 − 1/2.683 = 62.7 %; 0.75^4 = 0.316.
    assert.deepEqual(why(plan, 'tanks.csv', 'T1', 'nh3_mg_l').notes, ['To bring it down to half of the limit, change 63 % of the water once; in changes of a quarter it takes 4. Dripping takes 1.0 times the volume of the tank.', caution]);
  });

  it('goes when the reading is seven days old', () => {
    const plan = roomOf(log('2026-06-09T08:00,25,8,0.5,,'), now);
    const end = plan.now.instant + 6 * 86_400_000 - 3_600_000;
    plan.setNow(end);
    assert.equal(problemsOf(plan, 'water-ammonia').length, 1);
    assert.equal(plan.nextChange, end + 1);
    plan.setNow(end + 1);
    assert.equal(problemsOf(plan, 'water-ammonia').length, 0);
  });
});
