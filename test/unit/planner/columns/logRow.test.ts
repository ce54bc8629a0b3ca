import assert from 'node:assert/strict';
import { cells, column, filledRoom, roomOf, why } from '../../../support/room';

const species = ['species,care,hatch_h,free_swim_h,juvenile_d,sale_d', 'cave-fish,cave,72,240,40,100'];
const clutches = ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00', 'K2,cave-fish,B,2026-03-05'];

describe('the computed columns of a log', () => {
  it('tell age, stage and what was alive at each row', () => {
    const room = filledRoom(
      {
        'species.csv': species,
        'clutches.csv': clutches,
        'clutches/K1.csv': ['time,event,tank,count,to_tank', '2026-03-02,checked,,,', '2026-03-04T08:00,hatched,,,', '2026-03-14T08:00,counted,A,60,', '2026-03-20,lost,,5,', '2026-03-21,moved,A,~20,B', '2026-04-13T12:00,sold,B,20,'],
      },
      '2026-06-01T10:00',
    );
    assert.deepEqual(
      column(room, 'clutches/K1.csv', 'time').map((time) => cells(room, 'clutches/K1.csv', time, 'age_days', 'stage', 'alive').join(', ')),
      ['age_days 1, stage egg, alive', 'age_days 3, stage wriggler, alive', 'age_days 13, stage free-swimming, alive 60', 'age_days 19, stage free-swimming, alive 55', 'age_days 20, stage free-swimming, alive ~55', 'age_days 43, stage juvenile, alive ~35'],
    );
  });

  it('go by the order of the times, not by that of the rows', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,count', '2026-03-20,lost,5', '2026-03-14,counted,60', '2026-03-25,lost,1'] }, '2026-06-01T10:00');
    assert.deepEqual(column(room, 'clutches/K1.csv', 'alive'), ['55', '60', '54']);
  });

  it('tell of each row of log.csv what is of its clutch', () => {
    const room = filledRoom(
      { 'species.csv': species, 'clutches.csv': clutches, 'log.csv': ['clutch,time,event,count', 'K1,2026-03-14,counted,60', 'K2,2026-03-14,counted,30', 'K1,2026-03-15,lost,1', 'K9,2026-03-15,lost,1'] },
      '2026-06-01T10:00',
    );
    assert.deepEqual([column(room, 'log.csv', 'age_days'), column(room, 'log.csv', 'alive')], [['13', '9', '14', ''], ['60', '30', '59', '']]);
  });

  it('stop their age at the end, and have ended from then on', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event', '2026-03-04T08:00,hatched', '2026-03-10T08:00,ended', '2026-03-12T08:00,checked'] }, '2026-06-01T10:00');
    assert.deepEqual([column(room, 'clutches/K1.csv', 'age_days'), column(room, 'clutches/K1.csv', 'stage')], [['3', '9', '9'], ['wriggler', 'ended', 'ended']]);
  });

  it('are age 0 and no stage before the spawn', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event', '2026-02-20,checked'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'clutches/K1.csv', '2026-02-20', 'age_days', 'stage', 'alive'), ['age_days 0', 'stage', 'alive']);
  });

  it('are empty for rows later than now and for rows that can’t be read', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,count', '2026-03-14,counted,60', '2026-03-16T12:01,lost,5', '2026-03-15,losst,5', '15.3.2026,lost,5', ',lost,5'] }, '2026-03-16T12:00');
    assert.deepEqual([column(room, 'clutches/K1.csv', 'age_days'), column(room, 'clutches/K1.csv', 'alive')], [['13', '', '', '', ''], ['60', '', '', '', '']]);
  });

  it('are empty for a log whose clutch is not there', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': clutches, 'clutches/K9.csv': ['time,event', '2026-03-14,fed'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'clutches/K9.csv', '2026-03-14', 'age_days', 'stage', 'alive'), ['age_days', 'stage', 'alive']);
  });

  it('are explained by what is known now', () => {
    const room = roomOf({ 'species.csv': species, 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,count', '2026-03-04T08:00,hatched,', '2026-03-20,counted,60'] }, '2026-03-21T10:00');
    const told = ['age_days', 'stage', 'alive'].map((header) => {
      const { value, formula, inputs } = why(room, 'clutches/K1.csv', '2026-03-20', header);
      return [value, formula, ...inputs];
    });
    assert.deepEqual(told, [
      ['19', 'Calendar days from the day of the spawn to the day of this row.', 'spawned of K1: 2026-03-01T10:00 <clutches.csv: 2026-03-01T10:00>'],
      [
        'free-swimming',
        'The stage of the last milestone whose time had come on 2026-03-20, by what is known now.',
        'spawned, recorded: 2026-03-01T10:00',
        'hatched, recorded: 2026-03-04T08:00',
        'free_swimming, expected: 2026-03-14T08:00',
        'juvenile, expected: 2026-04-13T09:00',
        'sale_size, expected: 2026-06-12',
      ],
      ['60', 'What was alive after this row.'],
    ]);
  });
});
