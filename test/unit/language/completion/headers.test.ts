import assert from 'node:assert/strict';
import { offeredTexts, offeredValues, taken } from '../../../support/completions';

describe('headersMissing', () => {
  it('offers columns that are not there: those that are needed, other ones, other units, and those that are filled', () => {
    assert.deepEqual(offeredTexts({ 'tanks.csv': 'tank,position,«»,note\n' }), [
      'room (needed)',
      'system (System)',
      'volume_l (Volume)',
      'use (Use)',
      'temp_c (Temperature)',
      'retired (Retired)',
      'accept (Accepted)',
      'volume_gal (in place of volume_l)',
      'temp_f (in place of temp_c)',
      'fish (filled by Broodsheet)',
      'last_reading (filled by Broodsheet)',
      'nh3_mg_l (filled by Broodsheet)',
      'next_action (filled by Broodsheet)',
      'next_due (filled by Broodsheet)',
    ]);
  });

  it('offers no second unit of a column, and none that nobody fills yet', () => {
    const values = offeredValues({ 'tanks.csv': 'tank,room,temp_f,volume_l,«»\n' });
    assert.deepEqual(['temp_c', 'temp_f', 'volume_gal'].filter((name) => values.includes(name)), []);
    assert.ok(!offeredValues({ 'orders.csv': 'order,«»\n' }).includes('chance_pct'));
  });

  it('begins an empty sheet with what it needs, and replaces a header that stands there', () => {
    assert.deepEqual(offeredValues({ 'clutches.csv': '«»' }).slice(0, 4), ['clutch', 'species', 'tank', 'spawned']);
    assert.equal(taken({ 'tanks.csv': 'tank,«rom»\nT1,R\n' }, 'room'), 'tank,room\nT1,R\n');
  });
});
