import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

describe('species-differs', () => {
  it('is told of a clutch of another species than its pair', () => {
    const files = { 'pairs.csv': ['pair,species,tank', 'P1,guppy,A'], 'clutches.csv': ['clutch,pair,species,tank,spawned', 'K1,P1,kribensis,A,2026-05-31', 'K2,P1,guppy,A,2026-05-31', 'K3,P1,,A,2026-05-31'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'species-differs'), [
      { at: 'clutches.csv: kribensis', says: 'The clutch is kribensis, but the pair P1 is guppy.', related: ['pairs.csv: guppy: Pair P1'] },
    ]);
  });

  it('is told of a pair with a fish of another species', () => {
    const files = { 'pairs.csv': ['pair,species,tank,male,female', 'P1,guppy,A,F1,F2', 'P2,guppy,A,F2,F9'], 'fish.csv': ['fish,species,sex', 'F1,betta,m', 'F2,guppy,f'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'species-differs'), [{ at: 'pairs.csv: F1', says: 'F1 is betta, but the pair is guppy.', related: ['fish.csv: betta: Fish F1'] }]);
  });

  it('is not told of a pair or clutch without a species or without a known pair', () => {
    const files = { 'pairs.csv': ['pair,species,tank,male', 'P1,,A,F1'], 'fish.csv': ['fish,species', 'F1,betta'], 'clutches.csv': ['clutch,pair,species,tank,spawned', 'K1,P1,kribensis,A,2026-05-31', 'K2,P9,kribensis,A,2026-05-31'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'species-differs'), []);
  });
});
