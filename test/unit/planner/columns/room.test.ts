import assert from 'node:assert/strict';
import { column, filledRoom, roomOf, why } from '../../../support/room';

describe('tanks of a room', () => {
  it('are those that are not retired', () => {
    const room = filledRoom({ 'rooms.csv': ['room', 'R', 'Q', 'S'], 'tanks.csv': ['tank,room,retired', 'A,R,', 'B,R,2026-03-01', 'C,R,2026-04-02', 'D,Q,2026-03-01', 'E,Q,2026-04-01'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'rooms.csv', 'tanks'), ['2', '0', '0']);
  });

  it('are explained one by one', () => {
    const room = roomOf({ 'rooms.csv': ['room', 'R'], 'tanks.csv': ['tank,room', 'A,R', 'B,R', 'C,Q'] }, '2026-04-01T10:00');
    const { value, formula, inputs } = why(room, 'rooms.csv', 'R', 'tanks');
    assert.deepEqual([value, formula, ...inputs], ['2', 'Tanks of the room that are not retired.', 'tank: A <tanks.csv: A>', 'tank: B <tanks.csv: B>']);
  });
});

describe('open_clutches of a room', () => {
  const files = {
    'rooms.csv': ['room', 'R', 'Q'],
    'tanks.csv': ['tank,room', 'A,R', 'B,R', 'C,Q'],
    'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,guppy,A,2026-03-01,', 'K2,guppy,A,2026-03-02,2026-03-20', 'K3,guppy,C,2026-03-02,', 'K4,guppy,B,2026-03-02,', 'K5,guppy,B,2026-04-02,'],
    'log.csv': ['clutch,time,event,tank,count,to_tank', 'K1,2026-03-05,counted,A,30,', 'K1,2026-03-06,moved,A,10,B', 'K4,2026-03-05,counted,B,30,', 'K4,2026-03-06,sold,B,30,', 'K3,2026-03-07,counted,B,4,'],
  };

  it('are those that have not ended and stand there, each once, in every room in which they stand', () => {
    assert.deepEqual(column(filledRoom(files, '2026-04-01T10:00'), 'rooms.csv', 'open_clutches'), ['2', '1']);
  });

  it('are explained one by one', () => {
    const { value, formula, inputs } = why(roomOf(files, '2026-04-01T10:00'), 'rooms.csv', 'R', 'open_clutches');
    assert.deepEqual([value, formula, ...inputs], ['2', 'Clutches that have not ended and stand in the room.', 'clutch: K1 <clutches.csv: K1>', 'clutch: K3 <clutches.csv: K3>']);
  });
});
