import assert from 'node:assert/strict';
import { problemCodes, severityOf } from '../../../src/schema/problemCodes';

/** As promised to keepers, copied by hand. */
const promised = {
  error:
    'csv-quote csv-columns csv-encoding csv-conflict header-missing header-duplicate value-required value-type value-enum value-range value-pattern ' +
    'id-duplicate ref-unknown log-orphan time-future event-impossible count-impossible lineage-loop',
  warning: 'overdue milestone-differs water-ammonia water-range older-fry maintenance-clash overstocked order-short close-kin species-differs',
  information: 'csv-line-ends header-unknown milestone-missing spawn-late outside-model no-news count-doubtful',
  hint: 'computed-stale',
};

describe('problem codes', () => {
  for (const [severity, codes] of Object.entries(promised)) {
    it(`of severity ${severity}`, () => {
      assert.equal(problemCodes.filter((code) => severityOf(code) === severity).join(' '), codes);
    });
  }
});
