import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

// A guppy is of sale size 75 days after it was dropped.
describe('no-news', () => {
  const header = 'clutch,species,tank,spawned,ended';

  it('is told of a brood past sale size without a row for 60 days', () => {
    const files = { 'clutches.csv': [header, 'G1,guppy,A,2026-01-01,'], 'log.csv': ['clutch,time,event', 'G1,2026-04-02,fed', 'G1,2026-03-30,checked'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'no-news'), [
      { at: 'clutches.csv: G1', says: 'Past sale size, and not a row in the log since 2026-04-02. Sold, kept, or still there?', related: [] },
    ]);
  });

  it('is not told a day before', () => {
    const files = { 'clutches.csv': [header, 'G1,guppy,A,2026-01-01,'], 'log.csv': ['clutch,time,event', 'G1,2026-04-03,fed'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'no-news'), []);
  });

  it('is told of a brood without any row', () => {
    const files = { 'clutches.csv': [header, 'G1,guppy,A,2026-01-01,'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'no-news').map(({ says }) => says), ['Past sale size, and not a row in the log yet. Sold, kept, or still there?']);
  });

  it('is not told of a brood that is younger, has ended, or that nobody knows of', () => {
    const files = { 'clutches.csv': [header, 'G1,guppy,A,2026-03-20,', 'G2,guppy,A,2026-01-01,2026-02-01', 'K1,kribensis,A,2025-06-01,', 'X1,unheard-of,A,2025-06-01,'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'no-news'), []);
  });
});
