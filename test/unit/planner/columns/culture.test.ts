import assert from 'node:assert/strict';
import { cells, column, filledRoom, roomOf, why } from '../../../support/room';
import { filled } from '../../../support/plans';

const header = 'culture,food,started,temp_c,renew_every,ended';

describe('ready and renew_due of a culture', () => {
  it('are reckoned from its start', () => {
    const room = filledRoom({ 'cultures.csv': [header, 'BS,brine_shrimp,2026-06-08T19:40,28,,', 'MW,microworm,2026-06-01,,P18D,', 'WW,other,2026-06-01,,,'] }, '2026-06-10T09:00');
    assert.deepEqual(column(room, 'cultures.csv', 'ready'), ['2026-06-09T19:40', '2026-06-06', '']);
    assert.deepEqual(column(room, 'cultures.csv', 'renew_due'), ['', '2026-06-19', '']);
  });

  it('read degrees Fahrenheit too', () => {
    const room = filledRoom({ 'cultures.csv': ['culture,food,started,temp_f', 'BS,brine_shrimp,2026-06-08T19:40,82.4'] }, '2026-06-10T09:00');
    assert.deepEqual(column(room, 'cultures.csv', 'ready'), ['2026-06-09T19:40']);
  });

  it('say nothing that would only have come after its end', () => {
    const room = filledRoom({ 'cultures.csv': [header, 'A,microworm,2026-05-01,,P18D,2026-05-19', 'B,microworm,2026-05-01,,P18D,2026-05-18', 'C,microworm,2026-05-01,,P18D,2026-05-03'] }, '2026-06-10T09:00');
    assert.deepEqual(['A', 'B', 'C'].map((id) => cells(room, 'cultures.csv', id, 'ready', 'renew_due')), [['ready 2026-05-06', 'renew_due 2026-05-19'], ['ready 2026-05-06', 'renew_due'], ['ready', 'renew_due']]);
  });

  it('do not end before their end has come', () => {
    const room = roomOf({ 'cultures.csv': [`${header},renew_due`, 'A,microworm,2026-06-01,,P18D,2026-06-12,'] }, '2026-06-10T09:00');
    assert.match(filled(room)['cultures.csv'] ?? '', /,2026-06-19\n$/);
    assert.deepEqual([...room.setNow(room.now.instant + 3 * 86_400_000)], ['cultures.csv']);
    assert.match(filled(room)['cultures.csv'] ?? '', /2026-06-12,\n$/);
  });

  it('are emptied when the end is written down, and are no cells kept by hand', () => {
    const room = roomOf({ 'cultures.csv': [`${header},ready,renew_due`, 'A,microworm,2026-06-01,,P18D,2026-06-08,2026-06-06,2026-06-19'] }, '2026-06-10T09:00');
    assert.deepEqual(room.fills('cultures.csv').changes.map(({ header: at, before, after }) => [at, before, after]), [['renew_due', '2026-06-19', '']]);
  });

  it('of a row without a start, or of a second one with the name, are empty or nobody’s', () => {
    const room = roomOf({ 'cultures.csv': ['culture,food,started,ready', 'A,microworm,,x', 'B,microworm,2026-06-01,', 'B,microworm,2026-06-02,y'] }, '2026-06-10T09:00');
    assert.equal(filled(room)['cultures.csv'], 'culture,food,started,ready\nA,microworm,,\nB,microworm,2026-06-01,2026-06-06\nB,microworm,2026-06-02,y\n');
  });

  it('tell how they came about', () => {
    const room = roomOf({ 'cultures.csv': [header, 'BS,brine_shrimp,2026-06-08T19:40,27,,', 'HOT,brine_shrimp,2026-06-08T19:40,34,,', 'MW,microworm,2026-06-01,,,', 'VE,vinegar_eel,2026-06-01,,P90D,', 'WW,other,2026-06-01,,,2026-06-02'] }, '2026-06-10T09:00');
    assert.deepEqual(why(room, 'cultures.csv', 'BS', 'ready'), {
      value: '2026-06-10T07:40',
      formula: 'started + hours to hatch: 24 at 28 °C and above, 36 below and where temp_c is blank',
      notes: ['Nauplii are best within hours of hatching: they live on their yolk. They hatch best at 25 to 28 °C.'],
      inputs: ['started of BS: 2026-06-08T19:40 <cultures.csv: 2026-06-08T19:40>', 'temp_c of BS: 27 <cultures.csv: 27>'],
      constants: ['hatch: 36 h (common practice)'],
      window: undefined,
    });
    assert.deepEqual(why(room, 'cultures.csv', 'HOT', 'ready').notes, ['Above 33 °C cysts do not hatch, so nothing is expected. Look at the heater and at the thermometer.']);
    const told = (id: string, of: string): readonly string[] => {
      const { value, constants, notes } = why(room, 'cultures.csv', id, of);
      return [value, ...constants, ...notes];
    };
    assert.deepEqual(told('MW', 'ready'), ['2026-06-06', 'first harvest: 5 d (common practice)']);
    assert.deepEqual(told('MW', 'renew_due'), ['2026-06-15', 'renew_every: 14 d (common practice)']);
    assert.deepEqual(told('VE', 'renew_due'), ['2026-08-30']);
    assert.deepEqual(told('WW', 'ready'), ['', 'How long this food takes until it can be fed from is not known.']);
    assert.deepEqual(told('WW', 'renew_due'), ['', 'How often this food is renewed is not known. Give renew_every.']);
    assert.deepEqual(told('BS', 'renew_due'), ['', 'Brine shrimp are used up and not renewed. Give renew_every if you keep them going.']);
  });

  it('say why they are empty after the end', () => {
    const room = roomOf({ 'cultures.csv': [header, 'MW,microworm,2026-06-01,,,2026-06-04'] }, '2026-06-10T09:00');
    assert.deepEqual(['ready', 'renew_due'].map((of) => why(room, 'cultures.csv', 'MW', of).notes), [['It would only have come after the culture ended.'], ['It would only have come after the culture ended.']]);
  });
});
