import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

describe('a species without a care', () => {
  it('is told where neither its row, nor a built-in one, nor the one it is like has one', () => {
    const room = roomOf({ 'species.csv': ['species,care,like,hatch_h', 'cave-fish,,,72', 'guppy,,,', 'own-fish,,betta,30', 'lost-fish,,cave-fish,30', 'pet-fish,mop,,'] }, '2026-06-01T10:00');
    assert.deepEqual(problemsOf(room, 'value-required'), [
      { at: 'species.csv: ', says: 'care is empty. This row needs it.', related: [] },
      { at: 'species.csv: ', says: 'care is empty. This row needs it.', related: [] },
    ]);
  });

  it('is told in its own cell', () => {
    const text = 'species,care,hatch_h\ncave-fish,,72\n';
    const spans = roomOf({ 'species.csv': text }, '2026-06-01T10:00').problems('species.csv').map(({ code, span }) => [code, span.start, span.end]);
    assert.deepEqual(spans, [['value-required', text.indexOf(',72'), text.indexOf(',72')]]);
  });

  it('is not told besides a care that can’t be read', () => {
    const room = roomOf({ 'species.csv': ['species,care', 'cave-fish,caves'] }, '2026-06-01T10:00');
    assert.deepEqual([problemsOf(room, 'value-required').length, problemsOf(room, 'value-enum').length], [0, 1]);
  });

  it('is not told row by row where the column is missing', () => {
    const room = roomOf({ 'species.csv': ['species,hatch_h', 'cave-fish,72'] }, '2026-06-01T10:00');
    assert.deepEqual([problemsOf(room, 'value-required').length, problemsOf(room, 'header-missing').length], [0, 1]);
  });
});
