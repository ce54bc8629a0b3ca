import assert from 'node:assert/strict';
import { afterChanges, changesNeeded, shareNeeded, steadyState } from '../../src/domain/water';

// Arithmetic on C·(1−f)^n, common practice, no source.
describe('water changes', () => {
  it('leave what is not changed, each time', () => {
    assert.deepEqual([afterChanges(1, 0.5, 4), Number(afterChanges(1, 0.25, 4).toPrecision(4)), Number(afterChanges(1, 0.25, 8).toPrecision(4))], [0.0625, 0.3164, 0.1001]);
    assert.deepEqual([Number(afterChanges(1, 0.1, 7).toPrecision(4)), Number(afterChanges(1, 0.7, 1).toPrecision(4))], [0.4783, 0.3]);
  });

  it('of a quarter bring it down to a tenth with the ninth, since eight leave 10.01 %', () => {
    assert.deepEqual([changesNeeded(1, 0.1, 0.25), changesNeeded(1, 0.5, 0.5), changesNeeded(1, 0.0625, 0.5), changesNeeded(1, 2, 0.1), changesNeeded(1, 0, 0.5)], [9, 1, 4, 0, Number.POSITIVE_INFINITY]);
    assert.deepEqual([shareNeeded(80, 20), shareNeeded(10, 20)], [0.75, 0]);
  });

  it('of a quarter against five a day settle at twenty before and fifteen after', () => {
    assert.deepEqual(steadyState(5, 0.25), { before: 20, after: 15 });
  });
});
