import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';
import type { Plan } from '../../../../src/planner/plan';

function roomWith(...log: readonly string[]): Plan {
  return roomOf({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-01'], 'clutches/K1.csv': ['time,event,tank,count,to_tank,ref,length_mm', ...log] }, '2026-06-01T10:00');
}

describe('count-impossible', () => {
  it('stands at the count that takes more than there is', () => {
    const room = roomWith('2026-03-20,counted,A,30,,,', '2026-03-21,lost,A,31,,,');
    assert.deepEqual(problemsOf(room, 'count-impossible'), [{ at: 'clutches/K1.csv: 31', says: '31 fish are taken from A, but only 30 were there.', related: [] }]);
  });

  it('stands at a tank that the brood isn’t in', () => {
    const room = roomWith('2026-03-20,counted,A,30,,,', '2026-03-21,lost,B,3,,,');
    assert.deepEqual(problemsOf(room, 'count-impossible'), [{ at: 'clutches/K1.csv: B', says: 'None of this brood was in B then.', related: [] }]);
  });

  it('stands at the event where the brood is in no tank', () => {
    const room = roomWith('2026-03-20,counted,A,0,,,', '2026-03-21,lost,,3,,,', '2026-03-22,moved,,3,B,,');
    assert.deepEqual(problemsOf(room, 'count-impossible'), [
      { at: 'clutches/K1.csv: lost', says: 'None of this brood was in any tank then.', related: [] },
      { at: 'clutches/K1.csv: moved', says: 'None of this brood was in any tank then.', related: [] },
    ]);
  });

  it('is told in the order of the times, not of the rows', () => {
    assert.deepEqual(problemsOf(roomWith('2026-03-21,lost,A,30,,,', '2026-03-20,counted,A,30,,,'), 'count-impossible'), []);
  });

  it('is not told of a row later than now', () => {
    assert.deepEqual(problemsOf(roomWith('2026-03-20,counted,A,30,,,', '2026-06-21,lost,A,31,,,'), 'count-impossible'), []);
  });
});

describe('value-required in a log', () => {
  it('is told of a row that needs a count', () => {
    const room = roomWith('2026-03-20,counted,A,,,,');
    assert.deepEqual(problemsOf(room, 'value-required'), [{ at: 'clutches/K1.csv: ', says: 'Say how many: counted needs a count. Write ~ before it if it is an estimate.', related: [] }]);
  });

  it('is told of a row that may be about any of several tanks', () => {
    const room = roomWith('2026-03-20,counted,A,30,,,', '2026-03-20,counted,B,5,,,', '2026-03-21,counted,,6,,,');
    assert.deepEqual(problemsOf(room, 'value-required').map(({ says }) => says), ['Say in which tank: the brood stands in several or in none, so counted could be about any.']);
  });

  it('is told of a move to nowhere, of a measurement without a length and of a joining without a clutch', () => {
    const room = roomWith('2026-03-20,moved,A,,,,', '2026-03-21,measured,A,,,,', '2026-03-22,joined,A,,,,');
    assert.deepEqual(problemsOf(room, 'value-required').map(({ says }) => says), ['Say into which tank they were moved.', 'Say how long they were: measured needs a length.', 'Say which clutch takes these fish over.']);
  });

  it('is not told of rows that have what they need', () => {
    const room = roomWith('2026-03-20,counted,A,30,,,', '2026-03-20,moved,A,,B,,', '2026-03-21,measured,,,,,5.5', '2026-03-21,lost,,2,,,', '2026-03-22,joined,,,,K2,', '2026-03-02,fungus,,,,,');
    assert.deepEqual(problemsOf(room, 'value-required'), []);
  });
});
