import assert from 'node:assert/strict';
import { applyEdits, type TextEdit } from '../../../src/base/textEdit';

describe('applyEdits', () => {
  it('leaves the text alone without edits', () => {
    assert.equal(applyEdits('abc', []), 'abc');
  });

  it('takes offsets in the old text', () => {
    const edits: TextEdit[] = [
      { start: 0, end: 1, text: 'long' },
      { start: 2, end: 2, text: '-' },
      { start: 3, end: 5, text: '' },
      { start: 6, end: 6, text: '!' },
    ];
    assert.equal(applyEdits('abcdef', edits), 'longb-cf!');
  });

  it('takes two insertions at one place in their order', () => {
    const edits: TextEdit[] = [
      { start: 1, end: 1, text: 'x' },
      { start: 1, end: 1, text: 'y' },
    ];
    assert.equal(applyEdits('ab', edits), 'axyb');
  });

  for (const [title, edits] of [
    ['that overlap', [{ start: 0, end: 2, text: '' }, { start: 1, end: 3, text: '' }]],
    ['out of order', [{ start: 2, end: 2, text: 'x' }, { start: 0, end: 0, text: 'y' }]],
    ['that end before they start', [{ start: 2, end: 1, text: '' }]],
    ['before the text', [{ start: -1, end: 1, text: '' }]],
    ['behind the text', [{ start: 3, end: 5, text: '' }]],
  ] as const) {
    it(`throws at edits ${title}`, () => {
      assert.throws(() => applyEdits('abcd', edits), /outside a text of length 4/);
    });
  }
});
