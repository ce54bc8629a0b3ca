import assert from 'node:assert/strict';
import { nearest } from '../../../src/schema/nearest';

describe('the nearest name', () => {
  const cases: readonly (readonly [name: string, candidates: string, expected: string | undefined])[] = [
    ['t07', 'T70 T07', 'T07'],
    ['T7', 'T07 T17', 'T07'],
    ['T077', 'T07 T08', 'T07'],
    ['spwaned', 'spawned hatched', 'spawned'],
    ['spawnd', 'spawned', 'spawned'],
    ['Spawnd', 'spawned', 'spawned'],
    ['sp', 'spawned', undefined],
    ['x', 'm f u', undefined],
    ['F', 'm f u', 'f'],
    ['ab', 'ac bd', 'ac'],
    ['ab', 'cd', undefined],
    ['abc', 'ade', undefined],
    ['abcd', 'abxy', 'abxy'],
    ['abcd', 'xbyz', undefined],
    ['', 'a', undefined],
    ['a', '', undefined],
  ];
  for (const [name, candidates, expected] of cases) {
    it(`${name || '(none)'} among ${candidates || '(none)'} is ${expected ?? 'none'}`, () => {
      assert.equal(nearest(name, candidates.split(' ')), expected);
    });
  }

  it('is none for a name too long to be a slip', () => {
    assert.equal(nearest('a'.repeat(65), ['a'.repeat(65)]), undefined);
    assert.equal(nearest('a'.repeat(10_000_000), ['a'.repeat(9_999_999)]), undefined);
  });

  it('is the first of equally near ones, in whatever order they come', () => {
    assert.equal(nearest('T05', ['T04', 'T06', 'T15']), 'T04');
    assert.equal(nearest('T05', ['T15', 'T06', 'T04']), 'T04');
    assert.equal(nearest('t05', ['to5', 'T05', 'T0S']), 'T05');
  });
});
