import assert from 'node:assert/strict';
import { offeredTexts, offeredValues } from '../../../support/completions';

const pairs = { 'pairs.csv': 'pair,species,tank,retired\nKR1,kribensis,T1,\nKR2,kribensis,T2,2026-02-01\nBE1,betta,T4,\n' };
const header = 'clutch,pair,species,tank,spawned';

describe('nextIds', () => {
  it('goes on in counting, with the zeros that fill a number up', () => {
    assert.deepEqual(offeredValues({ 'tanks.csv': 'tank,room\nT37,R\nT38,R\n«»' }), ['T39']);
    assert.deepEqual(offeredValues({ 'tanks.csv': 'tank,room\nT08,R\nT09,R\n«»,R\n' }), ['T10']);
    assert.deepEqual(offeredValues({ 'tanks.csv': 'tank,room\nT009,R\nA7b,R\n«A»,R\n' }), ['A8b', 'T010']);
    assert.deepEqual(offeredValues({ 'tanks.csv': 'tank,room\nT9,R\n«T10»,R\n' }), ['T10']);
    assert.deepEqual(offeredValues({ 'rooms.csv': 'room\nfront\n«»\n' }), []);
  });

  it('passes over what is taken', () => {
    const backwards = Array.from({ length: 2_100 }, (_, i) => `T${2_100 - i},R`).join('\n');
    assert.deepEqual(offeredValues({ 'tanks.csv': `tank,room\n${backwards}\n«»\n` }), ['T2101']);
  });

  it('goes on with the names of the pair that the row gives', () => {
    const rows = 'KR1-8,KR1,,T1,2026-03-01\nBE1-3,BE1,,T4,2026-04-01\n';
    assert.deepEqual(offeredValues({ ...pairs, 'clutches.csv': `${header}\n${rows}«»,KR1,,T1,2026-06-10\n` }), ['KR1-9']);
    assert.deepEqual(offeredValues({ ...pairs, 'clutches.csv': `${header}\n${rows}«KR1-»,KR1,,T1,2026-06-10\n` }), ['KR1-9']);
  });

  it('begins to count for a pair as other pairs do', () => {
    assert.deepEqual(offeredValues({ ...pairs, 'clutches.csv': `${header}\nBE1.03,BE1,,T4,2026-04-01\n«»,KR1,,T1,2026-06-10\n` }), ['KR1.01']);
  });

  it('offers each pair that still breeds where the row names none, the one that should spawn about now first', () => {
    const rows = 'KR1-7,KR1,,T1,2026-04-05\nKR1-8,KR1,,T1,2026-05-07\nBE1-3,BE1,,T4,2026-06-08\nKR2-4,KR2,,T2,2026-01-01\nGX-1,,betta,T4,2026-02-01\n';
    const texts = offeredTexts({ ...pairs, 'clutches.csv': `${header}\n${rows}«»` });
    assert.deepEqual(texts.map((text) => text.replace(/\d{4}-\d\d-\d\d/, 'DAY')), ['KR1-9 (kribensis · spawn ~DAY)', 'BE1-4 (betta · spawn ~DAY)', 'GX-2 (next free name)']);
  });

  it('prefers the names of things of the row\'s species', () => {
    const text = 'pair,species,tank\nKR1,kribensis,T1\nBE1,betta,T4\n«»,kribensis,T1\n';
    assert.deepEqual(offeredValues({ 'pairs.csv': text }), ['KR2', 'BE2']);
  });

  it('names the routines that there are', () => {
    assert.ok(offeredTexts({ 'routines.csv': 'routine,action,about\n«»,,clutch\n' }).includes('test-water (Test the water)'));
  });
});
