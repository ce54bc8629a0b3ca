import assert from 'node:assert/strict';
import { fixed, problemsOf, roomOf } from '../../../support/room';

const header = 'clutch,species,tank,spawned,hatched,free_swimming,ended';

function differing(clutches: readonly string[], log: readonly string[]): ReturnType<typeof problemsOf> {
  return problemsOf(roomOf({ 'clutches.csv': [header, ...clutches], 'log.csv': ['clutch,time,event', ...log] }, '2026-06-01T10:00'), 'milestone-differs');
}

describe('milestone-differs', () => {
  it('is told at the register, with the row of the log', () => {
    assert.deepEqual(differing(['K1,kribensis,A,2026-03-01,2026-03-04,,'], ['K1,2026-03-06,hatched']), [
      { at: 'clutches.csv: 2026-03-04', says: 'hatched is 2026-03-04 here and 2026-03-06 in the log, more than a day apart. The log holds.', related: ['log.csv: 2026-03-06: The row hatched of the log'] },
    ]);
  });

  it('is told of free_swimming and ended too', () => {
    const told = differing(['K1,kribensis,A,2026-03-01,,2026-03-14,2026-04-01'], ['K1,2026-03-16,free_swimming', 'K1,2026-04-03,ended']);
    assert.deepEqual(told.map(({ says }) => says.split(',')[0]), ['free_swimming is 2026-03-14 here and 2026-03-16 in the log', 'ended is 2026-04-01 here and 2026-04-03 in the log']);
  });

  it('is not told of a day’s difference', () => {
    assert.deepEqual(differing(['K1,kribensis,A,2026-03-01,2026-03-04,,', 'K2,kribensis,A,2026-03-01,2026-03-04T10:00,,'], ['K1,2026-03-05T20:00,hatched', 'K2,2026-03-05T10:00,hatched']), []);
  });

  it('is told of a minute more than a day', () => {
    assert.deepEqual(differing(['K1,kribensis,A,2026-03-01,2026-03-04T10:00,,'], ['K1,2026-03-05T10:01,hatched']).length, 1);
  });

  it('goes by the first such row of the log', () => {
    assert.deepEqual(differing(['K1,kribensis,A,2026-03-01,2026-03-04,,'], ['K1,2026-03-09,hatched', 'K1,2026-03-05,hatched']), []);
  });

  it('compares a mouthbrooder’s free_swimming with its release', () => {
    assert.deepEqual(differing(['M1,yellow-lab,A,2026-03-01,,2026-03-20,'], ['M1,2026-03-25,released']).map(({ says }) => says), [
      'free_swimming is 2026-03-20 here and 2026-03-25 in the log, more than a day apart. The log holds.',
    ]);
  });

  it('lets the register hold for the spawn', () => {
    const files = { 'clutches.csv': ['clutch,species,tank,spawned,age_days', 'K1,kribensis,A,2026-03-05,'], 'log.csv': ['clutch,time,event', 'K1,2026-03-01,spawned'] };
    const room = roomOf(files, '2026-03-06T10:00');
    assert.deepEqual([problemsOf(room, 'milestone-differs').map(({ says }) => says), room.fills('clutches.csv').changes.map(({ after }) => after)], [
      ['spawned is 2026-03-05 here and 2026-03-01 in the log, more than a day apart. The register holds.'],
      ['1'],
    ]);
  });

  it('can be set as in the log', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned,hatched', 'K1,kribensis,A,2026-03-01,2026-03-04'], 'log.csv': ['clutch,time,event', 'K1,2026-03-06 08:00,hatched'] }, '2026-06-01T10:00');
    assert.deepEqual(fixed(room, { code: 'milestone-differs', path: 'clutches.csv', fix: 'Set hatched to 2026-03-06T08:00, as in the log' }), 'clutch,species,tank,spawned,hatched\nK1,kribensis,A,2026-03-01,2026-03-06T08:00\n');
  });
});
