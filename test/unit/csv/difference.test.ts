import assert from 'node:assert/strict';
import fc from 'fast-check';
import { applyEdits } from '../../../src/base/textEdit';
import { difference } from '../../../src/csv/difference';
import { cellText } from './sheets';

describe('difference', () => {
  it('replaces what differs', () => {
    assert.deepEqual(difference(10, '2026-03-04', '2026-04-04'), { start: 16, end: 17, text: '4' });
    assert.deepEqual(difference(10, '', 'a'), { start: 10, end: 10, text: 'a' });
    assert.deepEqual(difference(10, 'aa', 'a'), { start: 11, end: 12, text: '' });
    assert.deepEqual(difference(0, 'aba', 'abaaba'), { start: 3, end: 3, text: 'aba' });
  });
  it('cuts no surrogate pair', () => {
    assert.deepEqual(difference(0, 'a🐟b', 'a🐠b'), { start: 1, end: 3, text: '🐠' });
    assert.deepEqual(difference(0, '🐟', '\u{1F81F}'), { start: 0, end: 2, text: '\u{1F81F}' });
  });
  it('cuts no \\r\\n', () => {
    assert.deepEqual(difference(0, 'a\r\nb', 'a\rb'), { start: 1, end: 3, text: '\r' });
    assert.deepEqual(difference(0, 'a\r\nb', 'a\nb'), { start: 1, end: 3, text: '\n' });
  });
  it('makes the one text of the other', () => {
    fc.assert(
      fc.property(cellText, cellText, (before, after) => {
        assert.equal(applyEdits(before, [difference(0, before, after)]), after);
      }),
      { numRuns: 1000 },
    );
  });
});
