import assert from 'node:assert/strict';
import { column, filledRoom, roomOf, why } from '../../../support/room';

describe('spawn_interval_days', () => {
  it('are the calendar days since the same pair’s spawn before, in whatever order they are written', () => {
    const room = filledRoom(
      {
        'clutches.csv': ['clutch,pair,species,tank,spawned', 'K3,P1,kribensis,A,2026-03-10T01:00', 'K1,P1,kribensis,A,2026-01-01', 'M1,P2,kribensis,B,2026-02-20', 'K2,P1,kribensis,A,~2026-02-05T23:00', 'M2,P2,kribensis,B,2026-03-01'],
      },
      '2026-04-01T10:00',
    );
    assert.deepEqual(column(room, 'clutches.csv', 'spawn_interval_days'), ['33', '', '', '35', '9']);
  });

  it('are empty without a pair', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-01-01', 'K2,kribensis,A,2026-02-05'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'spawn_interval_days'), ['', '']);
  });

  it('are 0 between two spawns of one day, as written where the moments are equal', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,pair,species,tank,spawned', 'K1,P1,kribensis,A,2026-01-01', 'K2,P1,kribensis,A,2026-01-01', 'K3,P1,kribensis,A,2026-01-01T08:00'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'spawn_interval_days'), ['', '0', '0']);
  });

  it('don’t count a spawn later than now', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,pair,species,tank,spawned', 'K1,P1,kribensis,A,2026-01-01', 'K2,P1,kribensis,A,2026-05-01'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'spawn_interval_days'), ['', '']);
  });

  it('count spawns whose clutch has ended', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,pair,species,tank,spawned,ended', 'K1,P1,kribensis,A,2026-01-01,2026-01-05', 'K2,P1,kribensis,A,2026-02-05,'] }, '2026-04-01T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'spawn_interval_days'), ['', '35']);
  });

  it('are explained by both spawns', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,pair,species,tank,spawned', 'K1,P1,kribensis,A,2026-01-01', 'K2,P1,kribensis,A,2026-02-05'] }, '2026-04-01T10:00');
    assert.deepEqual(why(room, 'clutches.csv', 'K2', 'spawn_interval_days'), {
      value: '35',
      formula: "Calendar days from the pair's spawn before to this one.",
      notes: [],
      inputs: ['spawned of K1: 2026-01-01 <clutches.csv: 2026-01-01>', 'spawned of K2: 2026-02-05 <clutches.csv: 2026-02-05>'],
      constants: [],
      window: undefined,
    });
  });

  it('say why they are empty', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,pair,species,tank,spawned', 'K1,P1,kribensis,A,2026-01-01', 'K2,,kribensis,A,2026-02-05'] }, '2026-04-01T10:00');
    assert.deepEqual(['K1', 'K2'].map((id) => why(room, 'clutches.csv', id, 'spawn_interval_days').notes), [["It is the pair's first."], ['No pair is given.']]);
  });

  it('counts no bare day behind a spawn of its day that is still to come', () => {
    const clutches = ['clutch,pair,species,tank,spawned', 'K1,P1,kribensis,A,2026-06-01', 'K2,P1,kribensis,A,2026-06-10T18:00', 'K3,P1,kribensis,A,2026-06-10', 'K4,P1,kribensis,A,2026-06-10T08:00'];
    const intervals = (now: string): readonly string[] => column(filledRoom({ 'clutches.csv': clutches }, now), 'clutches.csv', 'spawn_interval_days');
    assert.deepEqual(intervals('2026-06-10T10:00'), ['', '', '9', '0']);
    assert.deepEqual(intervals('2026-06-10T20:00'), ['', '0', '0', '9']);
  });
});
