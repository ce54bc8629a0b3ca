import assert from 'node:assert/strict';
import { offeredTexts, offeredValues } from '../../../support/completions';

describe('wordsFitting', () => {
  it('offers the words that a column knows', () => {
    assert.deepEqual(offeredValues({ 'fish.csv': 'fish,species,sex\nF1,guppy,«»\n' }), ['m', 'f', 'u']);
  });

  it('offers in accept what was found about the row first, and only what can be accepted', () => {
    const texts = offeredTexts({ 'clutches.csv': 'clutch,species,tank,spawned,accept\nK1,kribensis,T1,2026-06-01T09:00,no-news «»\n' });
    assert.equal(texts[0], 'overdue (found now)');
    assert.ok(texts.includes('older-fry') && !texts.includes('no-news') && !texts.includes('csv-quote') && !texts.includes('computed-stale'));
  });

  it('offers lengths of time in words, and the words that may stand for one', () => {
    const texts = offeredTexts({ 'routines.csv': 'routine,action,about,every\ncount,Count,clutch,«»\n' });
    assert.deepEqual(texts.slice(0, 3), ['PT12H (12 hours)', 'PT24H (24 hours)', 'P2D (2 days)']);
    assert.equal(texts.at(-1), 'feeds_per_day');
    assert.ok(offeredTexts({ 'routines.csv': 'routine,action,about,offset\ncount,Count,clutch,«»\n' }).includes('-P2D (2 days before)'));
  });

  it('offers in done_by what can be recorded of the thing', () => {
    const values = (about: string): readonly string[] => offeredValues({ 'routines.csv': `routine,action,about,done_by\nx,X,${about},«»\n` });
    assert.ok(values('clutch').includes('counted') && !values('clutch').includes('water_change'));
    assert.ok(values('tank').includes('water_change') && !values('tank').includes('counted'));
    assert.ok(values('').includes('water_change') && values('').includes('counted'));
  });
});
