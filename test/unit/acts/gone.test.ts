import assert from 'node:assert/strict';
import { gone, outcomes } from '../../../src/acts/gone';
import { refusalOf, textsAfter } from '../../support/acts';
import { roomOf } from '../../support/room';

const header = 'clutch,species,tank,spawned,ended,outcome,note';
const files = { 'clutches.csv': [header, 'K1,kribensis,T1,2026-04-01,,,"a, b"', 'K2,kribensis,T1,2026-04-20T10:00,,,', 'K3,kribensis,T1,2026-03-01,2026-03-09,eaten,'], 'log.csv': 'time,clutch,event\n2026-04-04,K1,hatched\n' };
const now = '2026-04-21T09:00';

describe('gone', () => {
  it('offers the likely outcomes first: of fry other than of eggs', () => {
    assert.deepEqual(outcomes('K1', roomOf(files, now)).slice(0, 4), ['sold', 'eaten', 'lost', 'unknown']);
    assert.deepEqual(outcomes('K2', roomOf(files, now)).slice(0, 4), ['eaten', 'fungus', 'infertile', 'unknown']);
    assert.deepEqual([...outcomes('K2', roomOf(files, now))].sort(), ['culled', 'eaten', 'fungus', 'infertile', 'kept', 'lost', 'sold', 'unknown']);
  });

  it('ends the brood in its row', () => {
    assert.equal(textsAfter(files, now, gone({ clutch: 'K1', outcome: 'sold' }))['clutches.csv'], `${header}\nK1,kribensis,T1,2026-04-01,2026-04-21,sold,"a, b"\nK2,kribensis,T1,2026-04-20T10:00,,,\nK3,kribensis,T1,2026-03-01,2026-03-09,eaten,\n`);
    const without = { 'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,kribensis,T1,2026-04-01,'] };
    assert.equal(textsAfter(without, now, gone({ clutch: 'K1', outcome: 'sold' }))['clutches.csv'], 'clutch,species,tank,spawned,ended,outcome\nK1,kribensis,T1,2026-04-01,2026-04-21,sold\n');
    assert.match(textsAfter(files, now, gone({ clutch: 'K2', outcome: 'eaten', ended: '~2026-04-20T22:00' }))['clutches.csv'] as string, /K2,kribensis,T1,2026-04-20T10:00,~2026-04-20T22:00,eaten,/);
  });

  it('refuses what has ended, what is no outcome, and rows that can not be written into', () => {
    assert.equal(refusalOf(files, now, gone({ clutch: 'K3', outcome: 'sold' })), 'K3 is no clutch whose fish are in the room.');
    assert.match(refusalOf(files, now, gone({ clutch: 'K1', outcome: 'flown' })), /flown/);
    assert.equal(refusalOf(files, now, gone({ clutch: 'K1', outcome: '' })), 'How much or where is missing: outcome. Nothing was written.');
    assert.equal(refusalOf(files, now, gone({ clutch: 'K1', outcome: 'sold', ended: '2026-04-22' })), '2026-04-22 is later than now, so nothing was written.');
    const short = { 'clutches.csv': [header, 'K1,kribensis,T1,2026-04-01'] };
    assert.equal(refusalOf(short, now, gone({ clutch: 'K1', outcome: 'sold' })), 'clutches.csv, line 2: the row has too many or too few cells, so nothing was written. Mend it first; the quick fix helps.');
    const filled = { 'clutches.csv': [header, 'K1,kribensis,T1,2026-04-01,,lost,'] };
    assert.equal(refusalOf(filled, now, gone({ clutch: 'K1', outcome: 'sold' })), 'clutches.csv, line 2: outcome holds "lost" already, so nothing was written. Clear the cell or change it by hand.');
  });
});
