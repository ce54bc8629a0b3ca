import assert from 'node:assert/strict';
import fc from 'fast-check';
import { cells, column, filledRoom, roomOf, why } from '../../../support/room';

const clutches = ['clutch,species,tank,spawned,eggs', 'K1,kribensis,A,2026-03-01,100'];

describe('tanks_now, alive and survival_pct', () => {
  it('begin in the register tank with nothing counted', () => {
    const room = filledRoom({ 'clutches.csv': clutches }, '2026-03-02T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'tanks_now', 'alive', 'survival_pct'), ['tanks_now A', 'alive', 'survival_pct']);
  });

  it('follow the clutch’s own log and log.csv together, in the order of the times', () => {
    const room = filledRoom(
      {
        'clutches.csv': clutches,
        'clutches/2026/K1.csv': ['time,event,tank,count,to_tank', '2026-04-20,sold,B,5,', '2026-03-20,counted,A,60,'],
        'log.csv': ['clutch,time,event,tank,count,to_tank', 'K1,2026-04-01,moved,A,20,B', 'K1,2026-03-25,lost,A,3,'],
      },
      '2026-05-01T10:00',
    );
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'tanks_now', 'alive', 'survival_pct'), ['tanks_now A B', 'alive 52', 'survival_pct 57.0']);
  });

  it('take no notice of rows later than now', () => {
    const room = filledRoom({ 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,count', '2026-03-20T10:00,counted,60', '2026-03-20T10:01,lost,3', '2026-03-21,lost,4'] }, '2026-03-20T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'alive', 'survival_pct'), ['alive 60', 'survival_pct 60.0']);
  });

  it('show an estimate as one', () => {
    const room = filledRoom({ 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,count', '2026-03-20,counted,~60'] }, '2026-05-01T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'alive', 'survival_pct'), ['alive ~60', 'survival_pct 60.0']);
  });

  it('are 0 and nowhere after joining, and what was sold before has survived', () => {
    const room = filledRoom({ 'clutches.csv': [...clutches, 'K2,kribensis,A,2026-03-01,100'], 'clutches/K1.csv': ['time,event,count,ref', '2026-03-20,counted,60,', '2026-03-21,sold,10,', '2026-03-22,joined,,K2'] }, '2026-05-01T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'tanks_now', 'alive', 'survival_pct'), ['tanks_now', 'alive 0', 'survival_pct 10.0']);
  });

  it('leave the clutch that others joined as it was counted', () => {
    const room = filledRoom({ 'clutches.csv': [...clutches, 'K2,kribensis,A,2026-03-01,100'], 'log.csv': ['clutch,time,event,count,ref', 'K2,2026-03-20,counted,30,', 'K1,2026-03-20,counted,60,', 'K1,2026-03-22,joined,,K2'] }, '2026-05-01T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'alive'), ['0', '30']);
  });

  it('stay as they were after the end', () => {
    const room = filledRoom({ 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,count', '2026-03-20,counted,60', '2026-04-20,ended,'] }, '2026-05-01T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'tanks_now', 'alive', 'survival_pct'), ['tanks_now A', 'alive 60', 'survival_pct 60.0']);
  });

  it('have no tank where the register has none', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,,2026-03-01'], 'clutches/K1.csv': ['time,event,tank,count', '2026-03-20,counted,B,60'] }, '2026-05-01T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'tanks_now', 'alive'), ['tanks_now B', 'alive']);
  });

  it('are the same whatever order rows of distinct times are written in', () => {
    const rows = ['2026-03-15T09:00,hatched,,,', '2026-03-20T09:00,counted,A,60,', '2026-03-21T09:00,lost,A,3,', '2026-03-22T09:00,moved,A,~20,B', '2026-03-23T09:00,sold,,5,', '2026-03-24T09:00,counted,C,4,', '2026-03-25T09:00,moved,B,,C', '2026-03-26T09:00,kept,C,2,'];
    const textsOf = (order: readonly string[]): readonly string[] => {
      const room = filledRoom({ 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,tank,count,to_tank', ...order] }, '2026-05-01T10:00');
      const log = column(room, 'clutches/K1.csv', 'time').map((time) => cells(room, 'clutches/K1.csv', time, 'age_days', 'stage', 'alive').join(' ') + time);
      return [...cells(room, 'clutches.csv', 'K1', 'stage', 'stage_basis', 'tanks_now', 'alive', 'survival_pct', 'hatch_expected', 'sale_expected'), ...log.sort()];
    };
    const written = textsOf(rows);
    fc.assert(
      fc.property(fc.shuffledSubarray(rows, { minLength: rows.length }), (order) => assert.deepEqual(textsOf(order), written)),
      { numRuns: 60 },
    );
  });
});

describe('the explanation of the head count', () => {
  const log = ['time,event,tank,count,to_tank', '2026-03-20,counted,A,60,', '2026-03-21,fed,,,', '2026-03-22T09:00,moved,A,~20,B', '2026-03-23,sold,B,5,'];

  it('of tanks_now begins with the register and tells row by row', () => {
    const room = roomOf({ 'clutches.csv': clutches, 'clutches/K1.csv': log }, '2026-05-01T10:00');
    assert.deepEqual(why(room, 'clutches.csv', 'K1', 'tanks_now'), {
      value: 'A B',
      formula: 'Where the fish went, row by row, from the tank they were laid or dropped in.',
      notes: [],
      inputs: [
        'tank of K1: A <clutches.csv: A>',
        'counted on 2026-03-20: 60 A <clutches/K1.csv: 2026-03-20>',
        'moved on 2026-03-22T09:00: ~20 A → B <clutches/K1.csv: 2026-03-22T09:00>',
        'sold on 2026-03-23: 5 B <clutches/K1.csv: 2026-03-23>',
      ],
      constants: [],
      window: undefined,
    });
  });

  it('of alive names the tanks that are not counted', () => {
    const room = roomOf({ 'clutches.csv': clutches, 'clutches/K1.csv': ['time,event,tank,count', '2026-03-20,counted,B,60'] }, '2026-05-01T10:00');
    const { value, notes, inputs } = why(room, 'clutches.csv', 'K1', 'alive');
    assert.deepEqual([value, ...notes, ...inputs], ['', 'Not counted yet in A, so the sum is not known.', 'counted on 2026-03-20: 60 B <clutches/K1.csv: 2026-03-20>']);
  });

  it('of alive has no note where all are counted', () => {
    const room = roomOf({ 'clutches.csv': clutches, 'clutches/K1.csv': log }, '2026-05-01T10:00');
    const { value, notes } = why(room, 'clutches.csv', 'K1', 'alive');
    assert.deepEqual([value, notes], ['~55', []]);
  });

  it('of survival_pct gives alive, sold, kept and the eggs', () => {
    const room = roomOf({ 'clutches.csv': clutches, 'clutches/K1.csv': log }, '2026-05-01T10:00');
    const { value, notes, inputs } = why(room, 'clutches.csv', 'K1', 'survival_pct');
    assert.deepEqual([value, notes, inputs.slice(0, 4)], ['60.0', [], ['alive: ~55', 'sold: 5', 'kept: 0', 'eggs of K1: 100 <clutches.csv: 100>']]);
  });

  it('of survival_pct without eggs gives the fish first counted', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-01'], 'clutches/K1.csv': [...log, '2026-03-24,lost,A,20,'] }, '2026-05-01T10:00');
    const { value, inputs } = why(room, 'clutches.csv', 'K1', 'survival_pct');
    assert.deepEqual([value, inputs[3]], ['66.7', 'fish when they were first all counted: 60']);
  });

  it('of survival_pct says why it is not known', () => {
    const room = roomOf({ 'clutches.csv': clutches }, '2026-05-01T10:00');
    assert.deepEqual(why(room, 'clutches.csv', 'K1', 'survival_pct').notes, ['Not all are counted, so it is not known.']);
  });
});
