import assert from 'node:assert/strict';
import { offeredTexts, offeredValues } from '../../../support/completions';

const clutches = 'clutch,species,tank,spawned,hatched,ended\n';

describe('momentsFitting', () => {
  it('offers now and today, on the clock of the fishroom', () => {
    const texts = { 'fishroom.json': '{"timezone": "Pacific/Auckland"}', 'clutches.csv': `${clutches}K1,kribensis,T1,«»,,\n` };
    assert.deepEqual(offeredTexts(texts, '2026-06-10T23:30'), ['2026-06-10T23:30 (now)', '2026-06-10 (today)']);
  });

  it('writes them as the column does, else as the room does', () => {
    const blank = { 'clutches.csv': `${clutches}K1,kribensis,T1,2026-06-01 19:30,,\nK2,kribensis,T1,«»,,\n` };
    assert.deepEqual(offeredValues(blank), ['2026-06-10 09:00', '2026-06-10']);
    assert.deepEqual(offeredValues({ 'clutches.csv': `${clutches}K1,guppy,T1,2026-06-01 19:30,,\n`, 'clutches/K1.csv': 'time,event\n«»\n' })[0], '2026-06-10 09:00');
    assert.deepEqual(offeredValues({ 'clutches.csv': `${clutches}K1,kribensis,T1,2026-06-01,,\nK2,kribensis,T1,«»,,\n` }), ['2026-06-10', '2026-06-10T09:00']);
  });

  it('offers of a day a day, and of what lies ahead days to come', () => {
    assert.deepEqual(offeredTexts({ 'orders.csv': 'order,species,quantity,due\nO1,guppy,5,«»\n' }), [
      '2026-06-10 (today)',
      '2026-06-11 (tomorrow)',
      '2026-06-17 (in 7 days)',
      '2026-06-24 (in 14 days)',
      '2026-07-08 (in 28 days)',
    ]);
    assert.equal(offeredTexts({ 'maintenance.csv': 'job,what,from,to\nM1,scrub,2026-06-20T10:00,«»\n' })[0], '2026-06-20T10:00 (as in from)');
  });

  it('offers an expected milestone that should have come as about then, never one that lies ahead', () => {
    assert.deepEqual(offeredTexts({ 'clutches.csv': `${clutches}K1,kribensis,T1,2026-06-06T09:00,«»,\n` }), [
      '~2026-06-09T09:00 (hatched, as expected)',
      '2026-06-10T09:00 (now)',
      '2026-06-10 (today)',
    ]);
    assert.deepEqual(offeredTexts({ 'clutches.csv': `${clutches}K1,kribensis,T1,2026-06-08T09:00,«»,\n` }), ['2026-06-10T09:00 (now)', '2026-06-10 (today)']);
  });

  it('offers in a log the milestones that are missing, or the one that the row tells', () => {
    const room = { 'clutches.csv': `${clutches}K1,kribensis,T1,2026-06-01T09:00,,\n` };
    assert.deepEqual(offeredTexts({ ...room, 'clutches/K1.csv': 'time,event\n«»\n' }).slice(0, 1), ['~2026-06-04T09:00 (hatched, as expected)']);
    assert.equal(offeredTexts({ ...room, 'clutches/K1.csv': 'event,time\nhatched,«»\n' })[0], '~2026-06-04T09:00 (hatched, as expected)');
    assert.equal(offeredTexts({ ...room, 'clutches/K1.csv': 'event,time\nchecked,«»\n' })[0], '2026-06-10T09:00 (now)');
  });

  it('takes what the log has recorded', () => {
    const log = { 'clutches/K1.csv': 'time,event\n2026-06-04T07:15,hatched\n2026-06-08,ended\n' };
    assert.equal(offeredTexts({ ...log, 'clutches.csv': `${clutches}K1,kribensis,T1,2026-06-01T09:00,«»,\n` })[0], '2026-06-04T07:15 (as in the log)');
    assert.equal(offeredTexts({ ...log, 'clutches.csv': `${clutches}K1,kribensis,T1,2026-06-01T09:00,,«»\n` })[0], '2026-06-08 (as in the log)');
  });

  it('knows when a fish of a clutch was born', () => {
    const room = { 'clutches.csv': `${clutches}K1,kribensis,T1,2026-05-01T09:00,2026-05-04T10:00,\n` };
    assert.equal(offeredTexts({ ...room, 'fish.csv': 'fish,species,clutch,born\nF1,kribensis,K1,«»\n' })[0], '2026-05-04T10:00 (birth of K1)');
  });
});
