import assert from 'node:assert/strict';
import { ordersFor, readiestFirst, saleFields, sell } from '../../../src/acts/sell';
import { linesAdded, planOf, refusalOf, textsAfter } from '../../support/acts';
import { moment } from '../../support/moments';
import { roomOf } from '../../support/room';

const now = '2026-08-01T09:00';
const files = {
  'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01\n',
  'log.csv': 'time,clutch,event,tank,count,ref,unit_price\n2026-04-04,K1,hatched,,,,\n2026-07-01,K1,counted,,40,,\n',
  'orders.csv': 'order,species,quantity,due,unit_price,sent\nO2,kribensis,10,2026-08-20,,\nO1,kribensis,12,2026-08-05,3.5,\nO0,kribensis,5,2026-07-01,,2026-07-01\nB1,betta,5,2026-08-02,,\n',
  'prices.csv': 'species,min_mm,unit_price\nkribensis,,4\n',
};

describe('sell', () => {
  it('takes from the head count and refers to the order, at its price', () => {
    assert.deepEqual(ordersFor('K1', roomOf(files, now)), ['O1', 'O2']);
    assert.deepEqual(saleFields({ clutch: 'K1', ref: 'O1' }, roomOf(files, now)).map(({ name, likely }) => `${name} ${likely}`), ['time 2026-08-01T09:00', 'count 12', 'ref ', 'unit_price 3.5']);
    assert.deepEqual(linesAdded(files, now, { act: sell({ clutch: 'K1' }, { ref: 'O1' }), path: 'log.csv' }), ['2026-08-01T09:00,K1,sold,,12,O1,3.5']);
    assert.deepEqual(linesAdded(files, now, { act: sell({ clutch: 'K1' }, { count: '3' }), path: 'log.csv' }), ['2026-08-01T09:00,K1,sold,,3,,4']);
    const after = planOf(textsAfter(files, now, sell({ clutch: 'K1' }, { ref: 'O1' })), moment(now).instant);
    assert.equal(after.view.clutch('K1')?.study.heads.alive.count, 28);
    assert.deepEqual(after.problems('log.csv').map(({ code }) => code), []);
  });

  it('is likely of those that have come furthest, of those alike the youngest', () => {
    const broods = ['K2,kribensis,T2,2026-07-31', 'K3,kribensis,T3,2026-07-10', 'K4,kribensis,T4,2026-07-12', 'K5,kribensis,T5,2025-12-01', 'K6,kribensis,T6,2026-04-20'];
    const plan = roomOf({ 'clutches.csv': `${files['clutches.csv']}${broods.join('\n')}\n`, 'log.csv': ['K1', 'K3', 'K4', 'K5', 'K6'].reduce((log, id, i) => `${log}${['2026-04-04', '2026-07-13', '2026-07-15', '2025-12-04', '2026-04-23'][i] ?? ''},${id},hatched\n`, 'time,clutch,event\n') }, now);
    assert.deepEqual(readiestFirst(plan).map(({ clutch }) => clutch.clutch), ['K5', 'K6', 'K1', 'K4', 'K3', 'K2']);
  });

  it('refuses more than there is, and orders that are not open', () => {
    assert.equal(refusalOf(files, now, sell({ clutch: 'K1' }, { count: '41' })), '41 of K1: that is more than the 40 that are there, so nothing was written. Count them first.');
    assert.equal(refusalOf(files, now, sell({ clutch: 'K1' }, { count: '4', ref: 'O0' })), 'O0 is no order that is still to be sent.');
    assert.equal(refusalOf(files, now, sell({ clutch: 'K1' }, { count: '4', ref: 'B1' })), 'B1 is no order that is still to be sent.');
    const estimate = { ...files, 'log.csv': files['log.csv'].replace(',40,', ',~40,') };
    assert.deepEqual(linesAdded(estimate, now, { act: sell({ clutch: 'K1' }, { count: '41' }), path: 'log.csv' }), ['2026-08-01T09:00,K1,sold,,41,,4']);
  });
});
