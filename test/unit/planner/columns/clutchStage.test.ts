import assert from 'node:assert/strict';
import { moment } from '../../../support/moments';
import { cells, column, filledRoom, roomOf, why } from '../../../support/room';

const species = ['species,care,hatch_h,free_swim_h,juvenile_d,sale_d,release_d', 'cave-fish,cave,72,240,40,100,', 'mouth-fish,mouthbrooder,,,30,90,20', 'live-fish,livebearer,,,30,60,'];

describe('stage and stage_basis', () => {
  it('go up the ladder of each species', () => {
    const room = filledRoom(
      {
        'species.csv': species,
        'clutches.csv': [
          'clutch,species,tank,spawned,hatched,free_swimming,ended',
          'K1,cave-fish,A,2026-05-31,,,',
          'K2,cave-fish,A,2026-05-28,2026-05-31,,',
          'K3,cave-fish,A,2026-05-10,2026-05-13,,',
          'K4,cave-fish,A,2026-04-10,2026-04-13,2026-04-25,',
          'K5,cave-fish,A,2026-01-10,2026-01-13,,',
          'M1,mouth-fish,A,2026-05-20,,,',
          'M2,mouth-fish,A,2026-05-05,,2026-05-24,',
          'L1,live-fish,A,2026-05-20,,,',
          'E1,cave-fish,A,2026-05-20,,,2026-05-25',
        ],
      },
      '2026-06-01T10:00',
    );
    assert.deepEqual(
      column(room, 'clutches.csv', 'stage').map((stage, i) => `${column(room, 'clutches.csv', 'clutch')[i]} ${stage} ${column(room, 'clutches.csv', 'stage_basis')[i]}`.trimEnd()),
      [
        'K1 egg recorded',
        'K2 wriggler recorded',
        'K3 free-swimming expected',
        'K4 juvenile expected',
        'K5 sale-size expected',
        'M1 holding recorded',
        'M2 free-swimming recorded',
        'L1 free-swimming recorded',
        'E1 ended',
      ],
    );
  });

  it('take the species from the pair where the clutch has none, and the clutch’s where both have one', () => {
    const room = filledRoom(
      { 'species.csv': species, 'pairs.csv': ['pair,species,tank', 'P1,mouth-fish,A'], 'clutches.csv': ['clutch,pair,species,tank,spawned', 'K1,P1,,A,2026-05-31', 'K2,P1,cave-fish,A,2026-05-31'] },
      '2026-06-01T10:00',
    );
    assert.deepEqual(column(room, 'clutches.csv', 'stage'), ['holding', 'egg']);
  });

  it('are unanswered where nobody wrote what came of the eggs', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-05-01'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'stage', 'stage_basis'), ['stage egg', 'stage_basis unanswered']);
  });

  it('are empty without a known species', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,unheard-of,A,2026-05-31'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'stage', 'stage_basis'), ['stage', 'stage_basis']);
  });

  it('are empty for a clutch that spawns later than now', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-06-02'] }, '2026-06-01T10:00');
    assert.deepEqual(cells(room, 'clutches.csv', 'K1', 'stage', 'stage_basis'), ['stage', 'stage_basis']);
  });

  it('change as time passes', () => {
    const room = roomOf({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,stage', 'K1,cave-fish,A,2026-05-31T10:00,'] }, '2026-06-01T10:00');
    const stages = ['2026-06-03T09:59', '2026-06-03T10:00', '2026-06-08T10:00'].map((time) => {
      room.setNow(moment(time).instant);
      return room.fills('clutches.csv').changes.map(({ after }) => after);
    });
    assert.deepEqual(stages, [['egg'], ['wriggler'], ['egg']]);
  });
});

describe('the explanation of a stage', () => {
  const files = {
    'species.csv': species,
    'clutches.csv': [
      'clutch,species,tank,spawned,hatched,ended',
      'K1,cave-fish,A,2026-05-20T10:00,2026-05-31,',
      'K2,cave-fish,A,2026-05-28T10:00,,',
      'K3,cave-fish,A,2026-05-01T10:00,,',
      'K4,unheard-of,A,2026-05-31,,',
      'K5,cave-fish,A,2026-05-01,,2026-05-04',
      'K6,mouth-fish,A,2026-05-15,,',
    ],
    'log.csv': ['clutch,time,event,count', 'K6,2026-05-29T08:00,stripped,20'],
  };
  const told = (id: string): readonly string[] => {
    const { value, formula, notes, inputs } = why(roomOf(files, '2026-06-01T10:00'), 'clutches.csv', id, 'stage');
    return [value, formula, ...notes, ...inputs];
  };

  it('by a record points to it', () => {
    assert.deepEqual(told('K1'), ['wriggler', 'The last milestone on record is hatched, so the stage is wriggler.', 'hatched of K1: 2026-05-31 <clutches.csv: 2026-05-31>']);
  });

  it('by expectation tells what it was reckoned from', () => {
    assert.deepEqual(told('K2'), [
      'wriggler',
      'Nothing later is on record, and hatched was expected on 2026-05-31T10:00, so the stage is taken to be wriggler.',
      'Nothing learned yet from this pair. With 80 % it falls within the window.',
      'spawned of K2: 2026-05-28T10:00 <clutches.csv: 2026-05-28T10:00>',
    ]);
  });

  it('that is unanswered says so', () => {
    assert.deepEqual(told('K3').slice(0, 2), [
      'egg',
      'The window of the expected moment has been over for more than two days and nothing was recorded since, so nobody knows whether the brood lives.',
    ]);
  });

  it('that is empty says why', () => {
    assert.deepEqual(told('K4').slice(0, 3), ['', 'The stage of the last milestone whose time has come.', 'Nothing is known of the species. Give the clutch or its pair a species that is in species.csv or built in.']);
  });

  it('that has ended points to the end', () => {
    assert.deepEqual(told('K5'), ['ended', 'The clutch has ended.', 'ended of K5: 2026-05-04 <clutches.csv: 2026-05-04>']);
  });

  it('by stripping points to its row', () => {
    assert.deepEqual(told('K6'), ['wriggler', 'The stage of the last milestone whose time has come.', 'stripped in the log of K6: 2026-05-29T08:00 <log.csv: 2026-05-29T08:00>']);
  });

  it('is the same for its basis', () => {
    const room = roomOf(files, '2026-06-01T10:00');
    const basis = why(room, 'clutches.csv', 'K2', 'stage_basis');
    assert.deepEqual(basis, { ...why(room, 'clutches.csv', 'K2', 'stage'), value: 'expected' });
  });
});
