import assert from 'node:assert/strict';
import { column, filledRoom, roomOf, why } from '../../../support/room';

describe('age_days of a clutch', () => {
  it('are the calendar days from the day of the spawn', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-01T23:30', 'K2,kribensis,A,2026-03-02', 'K3,kribensis,A,~2026-03-02T09:00'] }, '2026-03-02T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'age_days'), ['1', '0', '0']);
  });

  it('are days of the fishroom’s own calendar', () => {
    const files = { 'fishroom.json': '{"timezone": "Pacific/Auckland"}', 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-01T10:00Z', 'K2,kribensis,A,2026-03-01T12:00Z'] };
    assert.deepEqual(column(filledRoom(files, '2026-03-02T08:00'), 'clutches.csv', 'age_days'), ['1', '0']);
  });

  it('are whole where the clock is moved in between', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-28T12:00', 'K2,kribensis,A,2026-10-24T12:00'] }, '2026-10-26T11:00');
    assert.deepEqual(column(room, 'clutches.csv', 'age_days'), ['212', '2']);
  });

  it('stop at the end', () => {
    const room = filledRoom(
      {
        'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,kribensis,A,2026-03-01,2026-03-11', 'K2,kribensis,A,2026-03-01,', 'K3,kribensis,A,2026-03-01,'],
        'clutches/K2.csv': ['time,event', '2026-03-21T10:00,ended'],
        'clutches/K3.csv': ['time,event,ref', '2026-03-06T10:00,joined,K2'],
      },
      '2026-06-01T10:00',
    );
    assert.deepEqual(column(room, 'clutches.csv', 'age_days'), ['10', '20', '5']);
  });

  it('run on while the end is to come', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,kribensis,A,2026-03-01,2026-03-11'] }, '2026-03-06T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'age_days'), ['5']);
  });

  it('are never below 0', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,kribensis,A,2026-03-10,2026-03-01'] }, '2026-06-01T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'age_days'), ['0']);
  });

  it('are empty for a clutch that spawns later than now, and for one without a readable spawn', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-02T10:01', 'K2,kribensis,A,1.3.2026', 'K3,kribensis,A,'] }, '2026-03-02T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'age_days'), ['', '', '']);
  });

  it('are known without a species', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,unheard-of,A,2026-03-01'] }, '2026-03-02T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'age_days'), ['1']);
  });

  it('are explained by the spawn and the end', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-01'], 'clutches/K1.csv': ['time,event', '2026-03-21T10:00,ended'] }, '2026-06-01T10:00');
    assert.deepEqual(why(room, 'clutches.csv', 'K1', 'age_days'), {
      value: '20',
      formula: 'Calendar days from the day of the spawn to the day the clutch ended.',
      notes: [],
      inputs: ['spawned of K1: 2026-03-01 <clutches.csv: 2026-03-01>', 'ended in the log of K1: 2026-03-21T10:00 <clutches/K1.csv: 2026-03-21T10:00>'],
      constants: [],
      window: undefined,
    });
  });

  it('are explained by the spawn alone while the clutch goes on', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-01'] }, '2026-03-04T10:00');
    const { value, formula, inputs } = why(room, 'clutches.csv', 'K1', 'age_days');
    assert.deepEqual([value, formula, ...inputs], ['3', 'Calendar days from the day of the spawn to today.', 'spawned of K1: 2026-03-01 <clutches.csv: 2026-03-01>']);
  });
});
