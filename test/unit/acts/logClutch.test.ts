import assert from 'node:assert/strict';
import { clutchEvents, clutchLogFields, logClutch } from '../../../src/acts/logClutch';
import { textOf } from '../../../src/base/messages';
import { linesAdded, refusalOf, textsAfter, textsOfResult } from '../../support/acts';
import { roomOf } from '../../support/room';

const now = '2026-05-01T09:00';
const files = {
  'tanks.csv': 'tank,room,use\nT1,R,breeding\nT2,R,grow-out\nT3,R,grow-out\n',
  'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01\nK2,kribensis,T1,2026-04-30T10:00\n',
  'log.csv': 'time,clutch,event,tank,count,length_in,to_tank,note\n2026-04-04,K1,hatched,,,,,\n2026-04-20,K1,counted,T1,80,,,\n2026-04-21,K1,moved,T1,30,,T2,\n',
};
const row = (event: string, answers: Record<string, string>): readonly string[] => linesAdded(files, now, { act: logClutch({ clutch: 'K1', event, tank: 'T2' }, answers), path: 'log.csv' });
const why = (event: string, answers: Record<string, string>): string => refusalOf(files, now, logClutch({ clutch: 'K1', event, tank: 'T2' }, answers));

describe('logClutch', () => {
  it('writes what was answered, in the columns and units of the log', () => {
    assert.deepEqual(row('measured', { length: '0.4' }), ['2026-05-01T09:00,K1,measured,T2,,0.4,,']);
    assert.deepEqual(row('lost', { count: '~3', tank: 'T1', time: '~2026-04-30' }), ['~2026-04-30,K1,lost,T1,~3,,,']);
    assert.deepEqual(row('moved', { count: '10' }), ['2026-05-01T09:00,K1,moved,T2,10,,T3,']);
    assert.deepEqual(row('treated', { note: 'leaf, oak' }), ['2026-05-01T09:00,K1,treated,T2,,,,"leaf, oak"']);
  });

  it('asks in the order of the work, with the tank where there are several', () => {
    const names = (event: string): readonly string[] => clutchLogFields({ clutch: 'K1', event, tank: 'T2' }, roomOf(files, now)).map(({ header, likely }) => `${header} ${likely}`.trim());
    assert.deepEqual(names('counted'), ['time 2026-05-01T09:00', 'tank T2', 'count 30']);
    assert.deepEqual(names('measured'), ['time 2026-05-01T09:00', 'tank T2', 'length_in']);
    assert.deepEqual(names('spawned'), []);
    assert.deepEqual([clutchEvents('K1', roomOf(files, now))[0], clutchEvents('K2', roomOf(files, now)).slice(0, 3)], ['first_feed', ['checked', 'fungus', 'hatched']]);
  });

  it('refuses fish that are not there, tanks that are not there, and numbers that are none', () => {
    assert.equal(why('lost', { count: '31' }), '31 of K1: that is more than the 30 that are there, so nothing was written. Count them first.');
    assert.equal(why('lost', { count: '1', tank: 'T3' }), 'No fish of K1 stand in T3.');
    assert.equal(why('moved', { to_tank: 'T9' }), 'T9 is no tank in use.');
    assert.equal(why('lost', {}), 'How much or where is missing: count. Nothing was written.');
    assert.match(why('lost', { count: 'few' }), /few/);
    assert.equal(why('joined', { ref: 'K9' }), 'K9 is no clutch whose fish are in the room.');
    assert.equal(why('ended', {}), 'No row makes this go away by itself. Open its row instead.');
  });

  it('adds the columns that are missing for what was answered, where the format has them', () => {
    const after = 'time,clutch,event,tank,count,length_in,to_tank,ref,unit_price,note\n2026-04-04,K1,hatched,,,,,,,\n2026-04-20,K1,counted,T1,80,,,,,\n2026-04-21,K1,moved,T1,30,,T2,,,\n2026-05-01T09:00,K1,sold,T2,1,,,O1,4,\n';
    const orders = { ...files, 'orders.csv': 'order,species,quantity,due\nO1,kribensis,1,2026-05-02\n' };
    const plan = roomOf(orders, now);
    const result = logClutch({ clutch: 'K1', event: 'sold', tank: 'T2' }, { unit_price: '4' })(plan);
    assert.equal(textsOfResult(plan, result)['log.csv'], after);
    assert.equal(result.kind === 'edits' && textOf(result.told), 'Written into log.csv (new columns: ref, unit_price): K1, sold, 2026-05-01 09:00, tank T2, count 1, ref O1, unit_price 4.');
    assert.equal(textsAfter(files, now, logClutch({ clutch: 'K1', event: 'counted', tank: 'T2' }, { count: '9' }))['log.csv'], `${files['log.csv']}2026-05-01T09:00,K1,counted,T2,9,,,\n`);
    const fields = (texts: typeof files): readonly string[] => clutchLogFields({ clutch: 'K1', event: 'sold', tank: 'T2' }, roomOf(texts, now)).map(({ name }) => name);
    assert.deepEqual([fields(files), fields(orders)], [['time', 'tank', 'count'], ['time', 'tank', 'count', 'ref']]);
  });

  it('counts what was there at the time that is written', () => {
    assert.deepEqual(row('lost', { count: '70', tank: 'T1', time: '2026-04-20T12:00' }), ['2026-04-20T12:00,K1,lost,T1,70,,,']);
    assert.equal(why('lost', { count: '70', tank: 'T1' }), '70 of K1: that is more than the 50 that are there, so nothing was written. Count them first.');
  });

  it('makes the log where there is none, as the others are, else as the register is separated', () => {
    const own = { 'clutches.csv': 'clutch;species;tank;spawned\r\nK1;kribensis;T1;2026-04-01\r\n' };
    assert.equal(textsAfter(own, now, logClutch({ clutch: 'K1', event: 'counted' }, { count: '80' }))['clutches/K1.csv'], 'time;event;tank;count;length_mm;to_tank;note\r\n2026-05-01T09:00;counted;;80;;;\r\n');
    const like = { ...own, 'clutches/K0.csv': 'time,event,count,alive\n' };
    assert.equal(textsAfter(like, now, logClutch({ clutch: 'K1', event: 'treated' }, { note: 'by the label' }))['clutches/K1.csv'], 'time,event,count,note,alive\n2026-05-01T09:00,treated,,by the label,\n');
  });
});
