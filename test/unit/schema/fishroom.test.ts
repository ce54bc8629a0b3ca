import assert from 'node:assert/strict';
import fishroom from '../../../schemas/fishroom.schema.json';
import { schemaNamed } from '../../../src/schema/catalog';

describe('the schema of fishroom.json', () => {
  it('describes every setting', () => {
    assert.deepEqual(Object.keys(fishroom.properties), ['$schema', 'name', 'timezone', 'currency', 'rounds', 'extra_columns', 'limits']);
    for (const [name, property] of Object.entries(fishroom.properties)) {
      assert.match(property.description, /\.$/, name);
    }
  });

  it('knows times of day', () => {
    const time = new RegExp(fishroom.properties.rounds.items.pattern);
    for (const right of ['00:00', '08:00', '19:30', '23:59']) assert.match(right, time);
    for (const wrong of ['8:00', '24:00', '12:60', '08:00:00', '0800', '']) assert.doesNotMatch(wrong, time);
  });

  it('knows currencies', () => {
    const currency = new RegExp(fishroom.properties.currency.pattern);
    assert.match('EUR', currency);
    for (const wrong of ['eur', 'EURO', '€']) assert.doesNotMatch(wrong, currency);
  });

  it('has a stocking limit for every use of a tank', () => {
    assert.deepEqual(
      Object.keys(fishroom.properties.limits.properties.stocking.properties),
      schemaNamed('tanks').fieldNamed.get('use')?.constraints.enum,
    );
  });
});
