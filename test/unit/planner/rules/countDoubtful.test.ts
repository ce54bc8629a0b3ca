import assert from 'node:assert/strict';
import { fixed, problemsOf, roomOf } from '../../../support/room';

function clutchesWith(accept: string): readonly string[] {
  return ['clutch,species,tank,spawned,eggs,accept', `K1,kribensis,A,2026-03-01,30,${accept}`];
}

describe('more fish than eggs', () => {
  it('are told at the eggs', () => {
    const room = roomOf({ 'clutches.csv': clutchesWith(''), 'log.csv': ['clutch,time,event,count', 'K1,2026-03-20,counted,31'] }, '2026-04-01T10:00');
    assert.deepEqual(problemsOf(room, 'count-doubtful'), [{ at: 'clutches.csv: 30', says: '31 fish came of 30 eggs. Check the counts.', related: [] }]);
  });

  it('are those that live, were sold or kept', () => {
    const room = roomOf({ 'clutches.csv': clutchesWith(''), 'log.csv': ['clutch,time,event,count', 'K1,2026-03-20,counted,20', 'K1,2026-03-21,sold,10', 'K1,2026-03-22,kept,2', 'K1,2026-03-23,counted,20'] }, '2026-04-01T10:00');
    assert.deepEqual(problemsOf(room, 'count-doubtful').map(({ says }) => says), ['32 fish came of 30 eggs. Check the counts.']);
  });

  it('are told of what was sold alone where nothing was counted', () => {
    const room = roomOf({ 'clutches.csv': clutchesWith(''), 'log.csv': ['clutch,time,event,count', 'K1,2026-03-21,sold,31'] }, '2026-04-01T10:00');
    assert.deepEqual(problemsOf(room, 'count-doubtful').length, 1);
  });

  it('are not told where there are as many fish as eggs, or no eggs are recorded', () => {
    const log = ['clutch,time,event,count', 'K1,2026-03-20,counted,30', 'K2,2026-03-20,counted,30'];
    const room = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned,eggs', 'K1,kribensis,A,2026-03-01,30', 'K2,kribensis,A,2026-03-01,'], 'log.csv': log }, '2026-04-01T10:00');
    assert.deepEqual(problemsOf(room, 'count-doubtful'), []);
  });

  it('are not told where the keeper knows', () => {
    const room = roomOf({ 'clutches.csv': clutchesWith('count-doubtful'), 'log.csv': ['clutch,time,event,count', 'K1,2026-03-20,counted,31'] }, '2026-04-01T10:00');
    assert.deepEqual(problemsOf(room, 'count-doubtful'), []);
  });

  it('can be accepted', () => {
    const room = roomOf({ 'clutches.csv': clutchesWith('spawn-late'), 'log.csv': ['clutch,time,event,count', 'K1,2026-03-20,counted,31'] }, '2026-04-01T10:00');
    const fix = { code: 'count-doubtful', path: 'clutches.csv', fix: 'I know about it: accept count-doubtful for K1' } as const;
    assert.deepEqual(fixed(room, fix), 'clutch,species,tank,spawned,eggs,accept\nK1,kribensis,A,2026-03-01,30,spawn-late count-doubtful\n');
  });
});
