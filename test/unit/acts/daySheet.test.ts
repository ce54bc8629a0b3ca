import assert from 'node:assert/strict';
import { enterDaySheet, sheetLines } from '../../../src/acts/daySheet';
import { textOf } from '../../../src/base/messages';
import { formatDay } from '../../../src/base/moment';
import { linesAdded, planOf, refusalOf, textsAfter, textsOfResult } from '../../support/acts';
import { moment } from '../../support/moments';
import { roomOf } from '../../support/room';

const now = '2026-04-04T20:00';
const files = {
  'rooms.csv': 'room\nR\n',
  'tanks.csv': 'tank,room,use\nT1,R,breeding\nT2,R,grow-out\n',
  'species.csv': 'species,care,hatch_h,first_feed_h,free_swim_h,sale_d\nslow,cave,240,100,200,90\n',
  'clutches.csv': 'clutch,species,tank,spawned\nK1,slow,T1,2026-04-01T10:00\nK2,slow,T2,2026-02-01T10:00\n',
  'log.csv': 'time,clutch,event\n2026-02-11,K2,hatched\n2026-02-20,K2,free_swimming\n',
  'routines.csv': 'routine,action,about,offset,every,off\nchange-water,Change water,tank,P3D,P3D,no\n',
  'tanks/T2.csv': 'time,event\n2026-03-31,water_change\n',
};
const day = (text: string): number => moment(text).day;
const days = { firstDay: day('2026-04-02'), lastDay: day('2026-04-04') };
const shown = (plan = roomOf(files, now)): readonly string[] => sheetLines(days, plan).map(({ action, clutch, tank, due, event }) => `${formatDay(due.day)} ${clutch} ${tank} ${textOf(action).slice(0, 12)} ${event ?? '-'}`);

describe('daySheet', () => {
  it('lists what was due in its days, each turn of a series by itself', () => {
    assert.deepEqual(shown(), ['2026-04-02 K1 T1 Look at the  checked', '2026-04-03 K1 T1 Look at the  checked', '2026-04-03  T2 Change water water_change', '2026-04-03 K2 T2 Count the fr -', '2026-04-04 K1 T1 Look at the  checked']);
  });

  it('writes what is ticked as one act: earlier hours as about, today and days by the day alone', () => {
    const lines = sheetLines(days, roomOf(files, now));
    const all = enterDaySheet(days, new Set(lines.map(({ key }) => key)));
    const texts = textsAfter(files, now, all);
    assert.deepEqual(linesAdded(files, now, { act: all, path: 'log.csv' }), ['~2026-04-02T10:00,K1,checked', '~2026-04-03T10:00,K1,checked', '2026-04-04,K1,checked']);
    assert.equal(texts['tanks/T2.csv'], 'time,event\n2026-03-31,water_change\n2026-04-03,water_change\n');
    assert.deepEqual(shown(planOf(texts, moment(now).instant)), ['2026-04-03 K2 T2 Count the fr -']);
    const some = textsAfter(files, now, enterDaySheet(days, new Set(lines.filter(({ tank }) => tank === 'T2').map(({ key }) => key))));
    assert.equal(some['log.csv'], files['log.csv']);
  });

  it('makes one log for several rows, and refuses all of it where one can not be written', () => {
    const noLog = Object.fromEntries(Object.entries({ ...files, 'clutches/K2.csv': 'time,event\n2026-02-11,hatched\n2026-02-20,free_swimming\n' }).filter(([path]) => path !== 'log.csv'));
    const keys = new Set(sheetLines(days, roomOf(noLog, now)).map(({ key }) => key));
    assert.equal(textsAfter(noLog, now, enterDaySheet(days, keys))['clutches/K1.csv'], 'time,event\n~2026-04-02T10:00,checked\n~2026-04-03T10:00,checked\n2026-04-04,checked\n');
    const noTime = { ...files, 'tanks/T2.csv': 'event,change_pct\n', 'readings.csv': 'time,tank,event\n2026-03-31,T2,water_change\n' };
    assert.equal(refusalOf(noTime, now, enterDaySheet(days, new Set(sheetLines(days, roomOf(noTime, now)).map(({ key }) => key)))), 'tanks/T2.csv has no column time, so nothing was written. The quick fix in its first line adds it.');
    assert.equal(refusalOf(files, now, enterDaySheet(days, new Set())), 'Nothing is ticked, so nothing was written.');
  });

  it('adds a column that is missing for what it writes, and says so', () => {
    const noEvent = { ...files, 'tanks/T2.csv': 'time,change_pct\n2026-03-20,20\n', 'readings.csv': 'time,tank,event\n2026-03-31,T2,water_change\n' };
    const plan = roomOf(noEvent, now);
    const result = enterDaySheet(days, new Set(sheetLines(days, plan).map(({ key }) => key)))(plan);
    assert.equal(textsOfResult(plan, result)['tanks/T2.csv'], 'time,event,change_pct\n2026-03-20,,20\n2026-04-03,water_change,\n');
    assert.match(result.kind === 'edits' ? textOf(result.told) : '', /tanks\/T2\.csv \(new columns: event\): 4 things\.$/);
  });

  it('leaves out what a tick says too little of', () => {
    const room = { ...files, 'clutches.csv': 'clutch,species,tank,spawned\nK1,slow,T1,2026-03-23T10:00\nK2,slow,T2,2026-02-01T10:00\n' };
    const lines = sheetLines({ firstDay: day('2026-03-01'), lastDay: days.lastDay }, roomOf(room, now));
    const unsaid = lines.filter(({ event }) => event === undefined).map(({ clutch, key }) => `${clutch} ${key.split('/')[2] ?? ''}`);
    assert.deepEqual([...new Set(unsaid)].sort(), ['K1 hatch', 'K2 count']);
    assert.equal(refusalOf(room, now, enterDaySheet({ firstDay: day('2026-03-01'), lastDay: days.lastDay }, new Set(lines.filter(({ event }) => event === undefined).map(({ key }) => key)))), 'Nothing is ticked, so nothing was written.');
  });
});
