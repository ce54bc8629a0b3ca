import assert from 'node:assert/strict';
import fc from 'fast-check';
import { plainNumber } from '../../../src/schema/number';

describe('a plain number', () => {
  it('is what JavaScript reads, for every text of the shape', () => {
    const digits = fc.stringMatching(/^[0-9]{1,12}$/);
    const text = fc.tuple(fc.constantFrom('', '+', '-'), digits, fc.option(digits, { nil: undefined }));
    fc.assert(
      fc.property(text, ([sign, whole, decimals]) => {
        const written = decimals === undefined ? sign + whole : `${sign}${whole}.${decimals}`;
        assert.equal(plainNumber(written), Number(written) + 0);
      }),
      { numRuns: 20_000 },
    );
  });

  it('is nothing else', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        assert.equal(Number.isNaN(plainNumber(text)), !/^[+-]?[0-9]+(\.[0-9]+)?$/.test(text));
      }),
      { numRuns: 5_000 },
    );
  });
});
