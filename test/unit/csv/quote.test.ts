import assert from 'node:assert/strict';
import fc from 'fast-check';
import { quoteCell, unquoteCell } from '../../../src/csv/quote';
import { cellText } from './sheets';

describe('quoteCell', () => {
  it('quotes what holds the delimiter, a quotation mark or a line end', () => {
    // RFC 4180, section 2, rules 6 and 7.
    assert.deepEqual(
      ['a,b', 'a"b', 'a\nb', 'a\rb', 'a;b', ' a ', '', '007'].map((value) => quoteCell(value, ',')),
      ['"a,b"', '"a""b"', '"a\nb"', '"a\rb"', 'a;b', ' a ', '', '007'],
    );
    assert.equal(quoteCell('a;b', ';'), '"a;b"');
  });

  it('is undone by unquoteCell', () => {
    fc.assert(
      fc.property(cellText, fc.constantFrom(',', ';', '\t'), (value, delimiter) => {
        assert.equal(unquoteCell(quoteCell(value, delimiter)), value);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('unquoteCell', () => {
  it('leaves blanks behind the closing mark out', () => assert.equal(unquoteCell('" a "  '), ' a '));
  it('keeps the rest of a cell that is never closed as it stands', () => assert.equal(unquoteCell('"a""b'), 'a""b'));
  it('does not take a doubled mark for the closing one', () => assert.equal(unquoteCell('"a""'), 'a""'));
  it('takes the last of an odd run of marks for the closing one', () => assert.equal(unquoteCell('"a"""'), 'a"'));
  it('keeps marks that close nothing', () => assert.equal(unquoteCell('"a"b""c"'), 'a"b"c'));
  it('reads a lone mark as empty', () => assert.equal(unquoteCell('"'), ''));
});
