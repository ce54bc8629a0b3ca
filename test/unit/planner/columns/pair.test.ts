import assert from 'node:assert/strict';
import { cells, column, filledRoom, roomOf, why } from '../../../support/room';

const species = ['species,care,interval_d', 'cave-fish,cave,30', 'slow-fish,cave,'];

describe('clutches, last_spawned and interval_median_days', () => {
  it('tell of the pair’s spawns up to now', () => {
    const room = filledRoom(
      {
        'species.csv': species,
        'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A', 'P2,cave-fish,B'],
        'clutches.csv': ['clutch,pair,tank,spawned', 'K4,P1,A,2026-06-10', 'K1,P1,A,2026-01-01', 'K3,P1,A,2026-03-03T20:00', 'K2,P1,A,2026-02-01', 'M1,P2,B,2026-02-01'],
      },
      '2026-06-01T10:00',
    );
    assert.deepEqual(
      [cells(room, 'pairs.csv', 'P1', 'clutches', 'last_spawned', 'interval_median_days'), cells(room, 'pairs.csv', 'P2', 'clutches', 'last_spawned', 'interval_median_days')],
      [
        ['clutches 3', 'last_spawned 2026-03-03', 'interval_median_days 30.5'],
        ['clutches 1', 'last_spawned 2026-02-01', 'interval_median_days'],
      ],
    );
  });

  it('are 0 and empty for a pair that never spawned', () => {
    const room = filledRoom({ 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'pairs.csv', 'P1', 'clutches', 'last_spawned', 'interval_median_days'), ['clutches 0', 'last_spawned', 'interval_median_days']);
  });

  it('show a day that is only about right as such', () => {
    const room = filledRoom({ 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,~2026-01-01T10:00'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'pairs.csv', 'P1', 'last_spawned'), ['last_spawned ~2026-01-01']);
  });

  it('take all intervals into the median, those of 0 days and those as about too', () => {
    const room = filledRoom({ 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,2026-01-01', 'K2,P1,A,2026-01-01', 'K3,P1,A,~2026-01-21'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'pairs.csv', 'P1', 'interval_median_days'), ['interval_median_days 10.0']);
  });

  it('are told of other kinds than a pair, and of a pair that is retired', () => {
    const room = filledRoom(
      { 'species.csv': species, 'pairs.csv': ['pair,kind,species,tank,retired', 'P1,harem,cave-fish,A,', 'P2,pair,cave-fish,A,2026-05-01'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,2026-01-01', 'K2,P2,A,2026-01-01'] },
      '2026-06-01T10:00',
    );
    assert.deepEqual([column(room, 'pairs.csv', 'clutches'), column(room, 'pairs.csv', 'last_spawned')], [['1', '1'], ['2026-01-01', '2026-01-01']]);
  });
});

describe('next_spawn_from, _expected and _to', () => {
  const next = ['next_spawn_from', 'next_spawn_expected', 'next_spawn_to'] as const;

  it('are days after the last spawn, by the species alone where there is no interval yet', () => {
    const room = filledRoom({ 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,2026-05-20T23:00'] }, '2026-06-01T10:00');
    // 17, 30 and 53 days: by hand in the tests of predictSpawn.
    assert.deepEqual(cells(room, 'pairs.csv', 'P1', ...next), ['next_spawn_from 2026-06-06', 'next_spawn_expected 2026-06-19', 'next_spawn_to 2026-07-12']);
  });

  it('learn from the pair’s own intervals', () => {
    const room = filledRoom({ 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,2026-04-05', 'K2,P1,A,2026-05-20'] }, '2026-06-01T10:00');
    // 20, 34 and 58 days after an interval of 45: by hand in the tests of predictSpawn.
    assert.deepEqual(cells(room, 'pairs.csv', 'P1', ...next), ['next_spawn_from 2026-06-09', 'next_spawn_expected 2026-06-23', 'next_spawn_to 2026-07-17']);
  });

  it('don’t learn from intervals as about, nor from the future', () => {
    const room = filledRoom(
      { 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,~2026-04-05', 'K2,P1,A,2026-05-20', 'K3,P1,A,2026-06-20'] },
      '2026-06-01T10:00',
    );
    assert.deepEqual(cells(room, 'pairs.csv', 'P1', 'next_spawn_expected'), ['next_spawn_expected 2026-06-19']);
  });

  it('are empty for another kind, a retired pair, one that never spawned, and a species without an interval', () => {
    const room = filledRoom(
      {
        'species.csv': species,
        'pairs.csv': ['pair,kind,species,tank,retired', 'P1,harem,cave-fish,A,', 'P2,trio,cave-fish,A,', 'P3,colony,cave-fish,A,', 'P4,,cave-fish,A,2026-05-01', 'P5,,cave-fish,A,', 'P6,,slow-fish,A,'],
        'clutches.csv': ['clutch,pair,tank,spawned', ...['P1', 'P2', 'P3', 'P4', 'P6'].map((pair, i) => `K${i},${pair},A,2026-05-20`)],
      },
      '2026-06-01T10:00',
    );
    assert.deepEqual(next.map((header) => column(room, 'pairs.csv', header).join('')), ['', '', '']);
  });

  it('are told while the pair’s retirement is to come', () => {
    const room = filledRoom({ 'species.csv': species, 'pairs.csv': ['pair,species,tank,retired', 'P1,cave-fish,A,2026-06-02'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,2026-05-20'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'pairs.csv', 'P1', 'next_spawn_expected'), ['next_spawn_expected 2026-06-19']);
  });

  it('are explained by spawns, interval and window', () => {
    const room = roomOf({ 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,2026-04-05', 'K2,P1,A,2026-05-20'] }, '2026-06-01T10:00');
    assert.deepEqual(why(room, 'pairs.csv', 'P1', 'next_spawn_to'), {
      value: '2026-07-17',
      formula: 'last spawn + interval_d × learned factor, in whole days',
      notes: ['Learned from 1 intervals of the pair. With 80 % it falls within the window.'],
      inputs: ['spawned of K1: 2026-04-05 <clutches.csv: 2026-04-05>', 'spawned of K2: 2026-05-20 <clutches.csv: 2026-05-20>'],
      constants: [
        'interval_d: 30 d (your species.csv) <species.csv: 30>',
        'learned factor: 1.1447 (learned from 1 records of the pair, drawn towards the usual value while they are few (Gelman et al., Bayesian Data Analysis, section 3.3))',
      ],
      window: '2026-06-09 to 2026-07-17, 2026-06-23 expected, from 1',
    });
  });

  it('say why they are empty', () => {
    const room = roomOf(
      {
        'species.csv': species,
        'pairs.csv': ['pair,kind,species,tank,retired', 'P1,harem,cave-fish,A,', 'P2,,cave-fish,A,', 'P3,,cave-fish,A,2026-05-01', 'P4,,slow-fish,A,', 'P5,,slow-fish,A,2026-07-01'],
        'clutches.csv': ['clutch,pair,tank,spawned', ...['P1', 'P3', 'P4', 'P5'].map((pair, i) => `K${i},${pair},A,2026-04-20`)],
      },
      '2026-06-01T10:00',
    );
    assert.deepEqual(['P1', 'P2', 'P3', 'P4', 'P5'].map((id) => why(room, 'pairs.csv', id, 'next_spawn_expected').notes), [
      ['Only told for a pair; this is a harem.'],
      ['The pair has not spawned yet.'],
      ['The pair is retired.'],
      ['The species has no usual interval.'],
      ['The species has no usual interval.'],
    ]);
  });
});

describe('the explanation of a pair’s counts', () => {
  it('points to the spawns', () => {
    const room = roomOf({ 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,cave-fish,A'], 'clutches.csv': ['clutch,pair,tank,spawned', 'K2,P1,A,2026-05-20', 'K1,P1,A,2026-04-05'] }, '2026-06-01T10:00');
    const told = ['clutches', 'last_spawned', 'interval_median_days'].map((header) => {
      const { value, formula, inputs } = why(room, 'pairs.csv', 'P1', header);
      return [value, formula, ...inputs];
    });
    const [first, second] = ['spawned of K1: 2026-04-05 <clutches.csv: 2026-04-05>', 'spawned of K2: 2026-05-20 <clutches.csv: 2026-05-20>'];
    assert.deepEqual(told, [
      ['2', 'Spawns up to now.', first, second],
      ['2026-05-20', 'The day of the latest spawn.', second],
      ['45.0', 'The middle of the intervals between successive spawns.', first, second],
    ]);
  });
});
