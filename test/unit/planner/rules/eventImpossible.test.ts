import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

const header = 'clutch,species,tank,spawned,hatched,free_swimming,ended';
const related = (id: string): readonly string[] => [`clutches.csv: ${id}: Clutch ${id}`];

function impossible(clutches: readonly string[], log: readonly string[] = []): ReturnType<typeof problemsOf> {
  return problemsOf(roomOf({ 'clutches.csv': [header, ...clutches], 'log.csv': ['clutch,time,event,count', ...log] }, '2026-06-01T10:00'), 'event-impossible');
}

describe('what can’t have happened', () => {
  it('are events that the species doesn’t have', () => {
    const told = impossible(['K1,kribensis,A,2026-03-01,,,', 'G1,guppy,A,2026-03-01,,,', 'M1,yellow-lab,A,2026-03-01,,,'], ['K1,2026-03-05,released,', 'G1,2026-03-05,hatched,', 'M1,2026-03-20,released,', 'M1,2026-03-15,hatched,']);
    assert.deepEqual(told, [
      { at: 'log.csv: released', says: 'released does not happen with kribensis (cave).', related: related('K1') },
      { at: 'log.csv: hatched', says: 'hatched does not happen with guppy (livebearer).', related: related('G1') },
    ]);
  });

  it('are rows before the spawn', () => {
    const told = impossible(['K1,kribensis,A,2026-03-05T10:00,,,'], ['K1,2026-03-05T09:59,checked,', 'K1,2026-03-05,checked,', 'K1,2026-03-04,fed,']);
    assert.deepEqual(told, [
      { at: 'log.csv: 2026-03-05T09:59', says: 'This is before the spawn (2026-03-05T10:00).', related: related('K1') },
      { at: 'log.csv: 2026-03-04', says: 'This is before the spawn (2026-03-05T10:00).', related: related('K1') },
    ]);
  });

  it('are rows after the end', () => {
    const told = impossible(['K1,kribensis,A,2026-03-01,2026-03-04,,2026-04-01', 'K2,kribensis,A,2026-03-01,2026-03-04,,'], ['K1,2026-04-01,fed,', 'K1,2026-04-02,fed,', 'K2,2026-04-01T10:00,joined,', 'K2,2026-04-01T10:01,lost,2']);
    assert.deepEqual(told, [
      { at: 'log.csv: 2026-04-02', says: 'This is after the end of the clutch (2026-04-01).', related: related('K1') },
      { at: 'log.csv: 2026-04-01T10:01', says: 'This is after the end of the clutch (2026-04-01T10:00).', related: related('K2') },
    ]);
  });

  it('are milestones before the one that comes before them', () => {
    const told = impossible(['K1,kribensis,A,2026-03-05,2026-03-04,,', 'K2,kribensis,A,2026-03-01,2026-03-05,2026-03-04,', 'K3,kribensis,A,2026-03-01,2026-03-05,,', 'M1,yellow-lab,A,2026-03-05,,2026-03-04,'], ['K3,2026-03-04,free_swimming,']);
    assert.deepEqual(told, [
      { at: 'clutches.csv: 2026-03-04', says: 'hatched is before spawned (2026-03-05).', related: [] },
      { at: 'clutches.csv: 2026-03-04', says: 'free_swimming is before hatched (2026-03-05).', related: [] },
      { at: 'clutches.csv: 2026-03-04', says: 'released is before spawned (2026-03-05).', related: [] },
      { at: 'log.csv: 2026-03-04', says: 'free_swimming is before hatched (2026-03-05).', related: related('K3') },
    ]);
  });

  it('is an end before the spawn, or a milestone of the register after the end', () => {
    const told = impossible(['K1,kribensis,A,2026-03-05,,,2026-03-04', 'K2,kribensis,A,2026-03-01,2026-03-05,,2026-03-04']);
    assert.deepEqual(told, [
      { at: 'clutches.csv: 2026-03-04', says: 'ended is before spawned (2026-03-05).', related: [] },
      { at: 'clutches.csv: 2026-03-05', says: 'This is after the end of the clutch (2026-03-04).', related: [] },
    ]);
  });

  it('is told once of a milestone that its row puts before the spawn', () => {
    assert.deepEqual(impossible(['K1,kribensis,A,2026-03-05,,,'], ['K1,2026-03-04,hatched,']).map(({ says }) => says), ['This is before the spawn (2026-03-05).']);
  });

  it('is nothing that is only about then', () => {
    assert.deepEqual(impossible(['K1,kribensis,A,~2026-03-05,2026-03-04,,', 'K2,kribensis,A,2026-03-05,~2026-03-04,,', 'K3,kribensis,A,2026-03-05,,,'], ['K3,~2026-03-04,checked,']), []);
  });

  it('is no spawned row of the log, which differs from the register instead', () => {
    assert.deepEqual(impossible(['K1,kribensis,A,2026-03-05,,,'], ['K1,2026-03-02,spawned,']), []);
  });

  it('is nothing on one and the same day', () => {
    assert.deepEqual(impossible(['K1,kribensis,A,2026-03-05T18:00,2026-03-05,2026-03-05,2026-03-05'], ['K1,2026-03-05,fed,']), []);
  });

  it('leaves the order alone where nothing is known of the species, but not spawn and end', () => {
    assert.deepEqual(impossible(['K1,unheard-of,A,2026-03-05,2026-03-07,2026-03-06,'], ['K1,2026-03-04,released,']).map(({ says }) => says), ['This is before the spawn (2026-03-05).']);
  });

  it('can’t be accepted, since the record can’t be right', () => {
    const files = { 'clutches.csv': ['clutch,species,tank,spawned,accept', 'K1,kribensis,A,2026-03-05,'], 'log.csv': ['clutch,time,event', 'K1,2026-03-04,fed'] };
    assert.deepEqual(roomOf(files, '2026-06-01T10:00').problems('log.csv').flatMap(({ fixes }) => fixes), []);
  });
});
