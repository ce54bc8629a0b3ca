import assert from 'node:assert/strict';
import { oneDecimal, text } from '../../../../src/planner/columns/column';

describe('the text of a number', () => {
  it('is empty where it is not known, and 0 where it is 0', () => {
    assert.deepEqual([text(undefined), text(0), text(12)], ['', '0', '12']);
  });

  it('has one decimal, rounded, where one is wanted', () => {
    assert.deepEqual([undefined, 0, 12, 66.66, 6.25, 1234.5].map(oneDecimal), ['', '0.0', '12.0', '66.7', '6.3', '1234.5']);
  });
});
