import assert from 'node:assert/strict';
import { cell, column, filledRoom, roomOf, why } from '../../../support/room';

/** A species without a built-in row, whose numbers are easy to reckon with. */
const species = ['species,care,hatch_h,free_swim_h,juvenile_d,sale_d,release_d', 'cave-fish,cave,72,240,40,100,', 'mouth-fish,mouthbrooder,,,30,90,20', 'live-fish,livebearer,,,30,60,', 'short-fish,cave,,,,,'];

describe('hatch_expected', () => {
  it('is the spawn plus the usual hours of the species', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00', 'K2,cave-fish,A,2026-03-01', 'K3,cave-fish,A,~2026-03-01T10:00'] }, '2026-03-02T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'hatch_expected'), ['2026-03-04T10:00', '2026-03-04T12:00', '2026-03-04T10:00']);
  });

  it('is in the fishroom’s zone', () => {
    const files = { 'fishroom.json': '{"timezone": "America/St_Johns"}', 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00Z'] };
    assert.deepEqual(cell(filledRoom(files, '2026-03-02T10:00'), 'clutches.csv', 'K1', 'hatch_expected'), '2026-03-04T06:30');
  });

  it('is the recorded moment once there is one, as it was written', () => {
    const room = filledRoom(
      {
        'species.csv': species,
        'clutches.csv': [
          'clutch,species,tank,spawned,hatched',
          'K1,cave-fish,A,2026-03-01T10:00,2026-03-04 08:15:40',
          'K2,cave-fish,A,2026-03-01T10:00,~2026-03-04T08:15',
          'K3,cave-fish,A,2026-03-01T10:00,2026-03-04',
          'K4,cave-fish,A,2026-03-01T10:00,2026-03-04T08:15Z',
          'K5,cave-fish,A,2026-03-01T10:00,2026-03-04T08:15',
        ],
        'clutches/K5.csv': ['time,event', '2026-03-04T20:00,hatched'],
      },
      '2026-03-05T10:00',
    );
    assert.deepEqual(column(room, 'clutches.csv', 'hatch_expected'), ['2026-03-04T08:16', '~2026-03-04T08:15', '2026-03-04', '2026-03-04T09:15', '2026-03-04T20:00']);
  });

  it('is empty where there is no hatch, or no usual time, or no species', () => {
    const room = filledRoom(
      { 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,mouth-fish,A,2026-03-01', 'K2,live-fish,A,2026-03-01', 'K3,short-fish,A,2026-03-01', 'K4,unheard-of,A,2026-03-01'] },
      '2026-03-02T10:00',
    );
    assert.deepEqual(column(room, 'clutches.csv', 'hatch_expected'), ['', '', '', '']);
  });

  it('is empty for a mouthbrooder’s clutch also where a hatch is recorded', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,hatched', 'K1,mouth-fish,A,2026-03-01,2026-03-05'] }, '2026-03-06T10:00');
    assert.deepEqual(cell(room, 'clutches.csv', 'K1', 'hatch_expected'), '');
  });

  it('is the recorded moment also where nothing is known of the species', () => {
    const room = filledRoom({ 'clutches.csv': ['clutch,species,tank,spawned,hatched', 'K1,unheard-of,A,2026-03-01,2026-03-05'] }, '2026-03-06T10:00');
    assert.deepEqual(cell(room, 'clutches.csv', 'K1', 'hatch_expected'), '2026-03-05');
  });

  it('is empty where it would only have come after the end', () => {
    const room = filledRoom(
      { 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,cave-fish,A,2026-03-01T10:00,2026-03-04T09:59', 'K2,cave-fish,A,2026-03-01T10:00,2026-03-04T10:00', 'K3,cave-fish,A,2026-03-01T10:00,2026-03-04'] },
      '2026-06-01T10:00',
    );
    assert.deepEqual(column(room, 'clutches.csv', 'hatch_expected'), ['', '2026-03-04T10:00', '2026-03-04T10:00']);
  });

  it('is the recorded moment also where that is after the end', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,hatched,ended', 'K1,cave-fish,A,2026-03-01T10:00,2026-03-05,2026-03-04'] }, '2026-06-01T10:00');
    assert.deepEqual(cell(room, 'clutches.csv', 'K1', 'hatch_expected'), '2026-03-05');
  });

  it('is no later than what shows that they hatched', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00'], 'log.csv': ['clutch,time,event', 'K1,2026-03-03T09:00,fed'] }, '2026-03-06T10:00');
    assert.deepEqual(cell(room, 'clutches.csv', 'K1', 'hatch_expected'), '2026-03-03T09:00');
  });

  it('goes by the temperature of the tank where the species has a developmental zero', () => {
    const room = filledRoom(
      {
        'species.csv': ['species,care,hatch_h,ref_temp_c,zero_temp_c', 'cave-fish,cave,72,26,16'],
        'tanks.csv': ['tank,room,temp_c', 'A,R,25', 'B,R,25', 'C,R,'],
        'tanks/B.csv': ['time,event,temp_c', '2026-03-01T12:00,tested,22'],
        'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00', 'K2,cave-fish,B,2026-03-01T10:00', 'K3,cave-fish,C,2026-03-01T10:00'],
      },
      '2026-03-02T10:00',
    );
    assert.deepEqual(column(room, 'clutches.csv', 'hatch_expected'), ['2026-03-04T18:00', '2026-03-06T10:00', '2026-03-04T10:00']);
  });

  it('learns from the pair’s other clutches, never from the clutch itself', () => {
    const room = filledRoom(
      {
        'species.csv': species,
        'clutches.csv': ['clutch,pair,species,tank,spawned,hatched', 'K1,P1,cave-fish,A,2026-01-01T10:00,2026-01-04T22:00', 'K2,P1,cave-fish,A,2026-03-01T10:00,', 'K3,P2,cave-fish,A,2026-03-01T10:00,'],
      },
      '2026-03-02T10:00',
    );
    // By hand: one observation of 84 h against 72 h with k0 = 4, so 72·(84/72)^(1/5) = 74.254 h.
    assert.deepEqual(column(room, 'clutches.csv', 'hatch_expected'), ['2026-01-04T22:00', '2026-03-04T12:15', '2026-03-04T10:00']);
  });

  it('is explained by spawn, temperature, the species’ numbers and what was learned', () => {
    const room = roomOf(
      {
        'species.csv': ['species,care,hatch_h,ref_temp_c,zero_temp_c,source', 'cave-fish,cave,72,26,16,my own notes'],
        'clutches.csv': ['clutch,pair,species,tank,spawned,hatched', 'K1,P1,cave-fish,A,2026-01-01T10:00,2026-01-04T22:00', 'K2,P1,cave-fish,A,2026-03-01T10:00,'],
        'readings.csv': ['time,tank,temp_c', '2026-03-01T12:00,A,25'],
      },
      '2026-03-02T10:00',
    );
    assert.deepEqual(why(room, 'clutches.csv', 'K2', 'hatch_expected'), {
      value: '2026-03-04T20:30',
      formula:
        'spawned + hatch_h × (ref_temp_c − zero_temp_c) / (temperature − zero_temp_c) × learned factor (thermal time: development is the faster the further the water is above the temperature at which it stands still)',
      notes: ['Learned from 1 other broods of the pair. With 80 % it falls within the window.'],
      inputs: ['spawned of K2: 2026-03-01T10:00 <clutches.csv: 2026-03-01T10:00>', 'temperature in A, mean of 1 readings: 25.0 °C <readings.csv: 25>'],
      constants: [
        'hatch_h: 72 h (your species.csv: my own notes) <species.csv: 72>',
        'ref_temp_c: 26 °C (your species.csv: my own notes) <species.csv: 26>',
        'zero_temp_c: 16 °C (your species.csv: my own notes) <species.csv: 16>',
        'learned factor: 1.0313 (learned from 1 records of the pair, drawn towards the usual value while they are few (Gelman et al., Bayesian Data Analysis, section 3.3))',
      ],
      // By hand, from 10 o'clock on 1 March: kn = 5, vn = 5, 90 % of t(5) 1.475884: 67.541, 82.505 and 100.784 h.
      window: '2026-03-04T05:32 to 2026-03-05T14:47, 2026-03-04T20:30 expected, from 1',
    });
  });

  it('is explained by the record once there is one', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,A,2026-03-01'], 'log.csv': ['clutch,time,event', 'K1,2026-03-04T09:00,hatched'] }, '2026-03-06T10:00');
    const { value, formula, inputs } = why(room, 'clutches.csv', 'K1', 'hatch_expected');
    assert.deepEqual([value, formula, ...inputs], ['2026-03-04T09:00', 'It is recorded.', 'hatched in the log of K1: 2026-03-04T09:00 <log.csv: 2026-03-04T09:00>']);
  });

  it('says why it is empty', () => {
    const room = roomOf(
      {
        'species.csv': species,
        'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,mouth-fish,A,2026-03-01,', 'K2,short-fish,A,2026-03-01,', 'K3,unheard-of,A,2026-03-01,', 'K4,cave-fish,A,2026-03-01,2026-03-02'],
      },
      '2026-03-06T10:00',
    );
    const told = ['K1', 'K2', 'K3', 'K4'].map((id) => why(room, 'clutches.csv', id, 'hatch_expected'));
    assert.deepEqual(told.map(({ formula, notes }) => notes[0] ?? formula), [
      'No hatch is expected: this species carries its eggs in its mouth or bears live young.',
      'The species has no usual time for this.',
      'Nothing is known of the species. Give the clutch or its pair a species that is in species.csv or built in.',
      'It would only have come after the clutch ended.',
    ]);
  });

  it('says where only evidence stands for it', () => {
    const room = roomOf({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,short-fish,A,2026-03-01'], 'log.csv': ['clutch,time,event', 'K1,2026-03-05T09:00,fed'] }, '2026-03-06T10:00');
    const { value, formula, notes, window } = why(room, 'clutches.csv', 'K1', 'hatch_expected');
    assert.deepEqual([value, formula, ...notes, window], [
      '2026-03-05T09:00',
      'The species has no usual time for this, so it is taken to be when the first sign of it was recorded.',
      'The records show that it was no later than 2026-03-05T09:00.',
      '2026-03-05T09:00 to 2026-03-05T09:00, 2026-03-05T09:00 expected, from 0',
    ]);
  });
});

describe('sale_expected', () => {
  it('is a day, from the hatch, the release or the drop', () => {
    const room = filledRoom(
      { 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,hatched', 'K1,cave-fish,A,2026-03-01T10:00,', 'K2,cave-fish,A,2026-03-01T10:00,2026-03-05T08:00', 'K3,mouth-fish,A,2026-03-01T10:00,', 'K4,live-fish,A,2026-03-01T10:00,'] },
      '2026-03-06T10:00',
    );
    // 100, 90 and 60 days of 24 h after 4 March ten, 5 March eight, 21 March ten and 1 March ten.
    assert.deepEqual(column(room, 'clutches.csv', 'sale_expected'), ['2026-06-12', '2026-06-13', '2026-06-19', '2026-04-30']);
  });

  it('is empty while the clutch is unanswered', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00'] }, '2026-04-01T10:00');
    assert.deepEqual([cell(room, 'clutches.csv', 'K1', 'stage_basis'), cell(room, 'clutches.csv', 'K1', 'sale_expected')], ['unanswered', '']);
  });

  it('is empty where it would only have come after the end', () => {
    const room = filledRoom({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned,ended', 'K1,live-fish,A,2026-03-01,2026-04-29', 'K2,live-fish,A,2026-03-01,2026-04-30'] }, '2026-06-01T10:00');
    assert.deepEqual(column(room, 'clutches.csv', 'sale_expected'), ['', '2026-04-30']);
  });

  it('is explained with the window of growth', () => {
    const room = roomOf({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,live-fish,A,2026-03-01'] }, '2026-03-06T10:00');
    assert.deepEqual(why(room, 'clutches.csv', 'K1', 'sale_expected'), {
      value: '2026-04-30',
      formula: 'spawned + sale_d × 24 hours',
      notes: ['Nothing learned yet from this pair. With 80 % it falls within the window.'],
      inputs: ['spawned of K1: 2026-03-01 <clutches.csv: 2026-03-01>'],
      constants: ['sale_d: 60 d (your species.csv) <species.csv: 60>'],
      // By hand: 90 % of t(4) 1.533206, scale 0.15·√1.25, so 60·e^∓0.2571 = 46.4 and 77.6 days.
      window: '2026-04-16 to 2026-05-18, 2026-04-30 expected, from 0',
    });
  });

  it('says that nobody knows', () => {
    const room = roomOf({ 'species.csv': species, 'clutches.csv': ['clutch,species,tank,spawned', 'K1,cave-fish,A,2026-03-01T10:00'] }, '2026-04-01T10:00');
    assert.deepEqual(why(room, 'clutches.csv', 'K1', 'sale_expected').notes[0], 'Nobody knows whether the brood lives, so nothing is expected of it.');
  });

  it('tells a built-in number by its source', () => {
    const room = roomOf({ 'clutches.csv': ['clutch,species,tank,spawned', 'K1,guppy,A,2026-03-01'] }, '2026-03-06T10:00');
    assert.match(why(room, 'clutches.csv', 'K1', 'sale_expected').constants[0] ?? '', /^sale_d: 75 d \(built-in species list: .*common practice\)$/);
  });
});
