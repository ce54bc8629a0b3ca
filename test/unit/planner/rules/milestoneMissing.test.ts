import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

describe('milestone-missing', () => {
  it('is told where a later milestone is recorded', () => {
    const files = {
      'clutches.csv': ['clutch,species,tank,spawned,free_swimming', 'K1,kribensis,A,2026-03-01,2026-03-14', 'K2,kribensis,A,2026-03-01,'],
      'log.csv': ['clutch,time,event', 'K2,2026-03-14,free_swimming'],
    };
    const says = 'free_swimming is recorded, but hatched before it is not.';
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'milestone-missing'), [
      { at: 'clutches.csv: K1', says, related: [] },
      { at: 'clutches.csv: K2', says, related: [] },
    ]);
  });

  it('is told also where the species has no usual time for it', () => {
    const files = { 'species.csv': ['species,care', 'cave-fish,cave'], 'clutches.csv': ['clutch,species,tank,spawned,free_swimming', 'K1,cave-fish,A,2026-03-01,2026-03-14'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'milestone-missing').length, 1);
  });

  it('is not told of what is still to come, of rows about fry, and of those that don’t hatch', () => {
    const files = {
      'clutches.csv': ['clutch,species,tank,spawned,hatched,free_swimming', 'K1,kribensis,A,2026-03-01,2026-03-04,', 'K2,kribensis,A,2026-03-01,,', 'M1,yellow-lab,A,2026-03-01,,2026-03-25', 'L1,guppy,A,2026-03-01,,2026-03-01'],
      'log.csv': ['clutch,time,event', 'K2,2026-03-14,fed'],
    };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'milestone-missing'), []);
  });

  it('is not told where the keeper knows', () => {
    const files = { 'clutches.csv': ['clutch,species,tank,spawned,free_swimming,accept', 'K1,kribensis,A,2026-03-01,2026-03-14,milestone-missing'] };
    assert.deepEqual(problemsOf(roomOf(files, '2026-06-01T10:00'), 'milestone-missing'), []);
  });
});
