import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

// The window of the next spawn ends 53 days after the last: by hand in the tests of predictSpawn.
const species = ['species,care,interval_d', 'cave-fish,cave,30'];

function late(now: string, pairs: readonly string[] = ['P1,,cave-fish,A,']): ReturnType<typeof problemsOf> {
  const files = { 'species.csv': species, 'pairs.csv': ['pair,kind,species,tank,retired', ...pairs], 'clutches.csv': ['clutch,pair,tank,spawned', 'K1,P1,A,2026-04-01'] };
  return problemsOf(roomOf(files, now), 'spawn-late');
}

describe('spawn-late', () => {
  it('is told from the day after the window', () => {
    assert.deepEqual([late('2026-05-24T23:59'), late('2026-05-25T00:00')], [
      [],
      [{ at: 'pairs.csv: P1', says: 'The last spawn was on 2026-04-01; the next was expected by 2026-05-24, 1 days ago.', related: [] }],
    ]);
  });

  it('is not told of a retired pair or of another kind', () => {
    assert.deepEqual([late('2026-07-01', ['P1,,cave-fish,A,2026-06-01']), late('2026-07-01', ['P1,harem,cave-fish,A,'])], [[], []]);
  });
});
