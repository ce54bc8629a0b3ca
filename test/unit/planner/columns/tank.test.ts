import assert from 'node:assert/strict';
import { column, filledRoom, roomOf, why } from '../../../support/room';

describe('fish of a tank', () => {
  const tanks = ['tank,room', 'A,R', 'B,R', 'C,R', 'D,R'];
  const clutches = ['clutch,species,tank,spawned,ended', 'K1,guppy,A,2026-03-01,', 'K2,guppy,A,2026-03-02,', 'K3,guppy,C,2026-03-02,'];

  it('are the living that stand in it, of all clutches', () => {
    const room = filledRoom({ 'tanks.csv': tanks, 'clutches.csv': clutches, 'log.csv': ['clutch,time,event,tank,count,to_tank', 'K1,2026-03-05,counted,A,30,', 'K2,2026-03-05,counted,A,20,', 'K1,2026-03-06,moved,A,10,B'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'tanks.csv', 'fish'), ['40', '10', '', '0']);
  });

  it('are not known while one clutch there isn’t counted', () => {
    const room = filledRoom({ 'tanks.csv': tanks, 'clutches.csv': clutches, 'log.csv': ['clutch,time,event,count', 'K1,2026-03-05,counted,30'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'tanks.csv', 'fish'), ['', '0', '', '0']);
  });

  it('are an estimate while one is', () => {
    const room = filledRoom({ 'tanks.csv': tanks, 'clutches.csv': clutches, 'log.csv': ['clutch,time,event,count', 'K1,2026-03-05,counted,~30', 'K2,2026-03-05,counted,20', 'K3,2026-03-05,counted,9'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'tanks.csv', 'fish'), ['~50', '0', '9', '0']);
  });

  it('leave out clutches that have ended', () => {
    const ended = ['clutch,species,tank,spawned,ended', 'K1,guppy,A,2026-03-01,2026-03-20', 'K2,guppy,A,2026-03-02,'];
    const room = filledRoom({ 'tanks.csv': tanks, 'clutches.csv': ended, 'log.csv': ['clutch,time,event,count', 'K1,2026-03-05,counted,30', 'K2,2026-03-05,counted,20'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'tanks.csv', 'fish')[0], '20');
  });

  it('leave out clutches that spawn later than now', () => {
    const room = filledRoom({ 'tanks.csv': tanks, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,guppy,A,2026-04-02'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'tanks.csv', 'fish')[0], '0');
  });

  it('are explained by what each clutch has there', () => {
    const room = roomOf({ 'tanks.csv': tanks, 'clutches.csv': clutches, 'log.csv': ['clutch,time,event,count', 'K1,2026-03-05,counted,30'] }, '2026-04-01T10:00');
    const { value, formula, inputs } = why(room, 'tanks.csv', 'A', 'fish');
    assert.deepEqual([value, formula, ...inputs], [
      '',
      'Fish of all open clutches that stand in the tank; not known while one is not counted.',
      'fish of K1 here: 30 <clutches.csv: K1>',
      'fish of K2 here:  <clutches.csv: K2>',
    ]);
  });
});

describe('last_reading of a tank', () => {
  it('is the moment of the last row with a reading, of its own log, by tank, by room, or of its water', () => {
    const room = filledRoom(
      {
        'tanks.csv': ['tank,room,system', 'A,R,', 'B,R,', 'C,Q,', 'D,Q,ring', 'E,S,ring', 'F,S,'],
        'tanks/A.csv': ['time,event,temp_c,change_pct', '2026-03-05T09:00,tested,25,', '2026-03-04,tested,25,', '2026-03-06,water_change,,30', '2026-04-02,tested,25,'],
        'readings.csv': ['time,tank,room,temp_c,ph', '2026-03-03,,R,25,', '~2026-03-20T18:00,C,,,7', '2026-03-07,E,,25,'],
      },
      '2026-04-01T10:00',
    );
    assert.deepEqual(column(room, 'tanks.csv', 'last_reading'), ['2026-03-05T09:00', '2026-03-03', '~2026-03-20T18:00', '2026-03-07', '2026-03-07', '']);
  });

  it('is explained by its row', () => {
    const room = roomOf({ 'tanks.csv': ['tank,room', 'A,R', 'B,R'], 'tanks/A.csv': ['time,temp_c', '2026-03-05 09:00,25'] }, '2026-04-01T10:00');
    const told = ['A', 'B'].map((id) => {
      const { value, notes, inputs } = why(room, 'tanks.csv', id, 'last_reading');
      return [value, ...notes, ...inputs];
    });
    assert.deepEqual(told, [['2026-03-05T09:00', 'latest reading: 2026-03-05T09:00 <tanks/A.csv: 2026-03-05 09:00>'], ['', 'There is none.']]);
  });
});
