import assert from 'node:assert/strict';
import { problemsOf, roomOf } from '../../../support/room';

// Ten days after the hatch they swim, 40 days after it they are juvenile; the next spawn is expected 30 days after the last.
const species = ['species,care,hatch_h,free_swim_h,juvenile_d,sale_d,interval_d', 'cave-fish,cave,72,240,40,100,30'];
const header = 'clutch,pair,tank,spawned,hatched,ended';

function olderFry(clutches: readonly string[], { now = '2026-06-01T10:00', log = [], pairs = ['P1,cave-fish,A'] }: { readonly now?: string; readonly log?: readonly string[]; readonly pairs?: readonly string[] } = {}): ReturnType<typeof problemsOf> {
  const files = { 'species.csv': species, 'pairs.csv': ['pair,species,tank', ...pairs], 'clutches.csv': [header, ...clutches], 'log.csv': ['clutch,time,event,to_tank', ...log] };
  return problemsOf(roomOf(files, now), 'older-fry');
}

describe('older-fry', () => {
  it('is told of fry in the tank in which their pair has new eggs', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-05-01,2026-05-04,', 'K2,P1,A,2026-05-31,,']), [
      {
        at: 'clutches.csv: K1',
        says: 'The fry of K1 are still in A, where P1 spawned again on 2026-05-31. Move them, or the parents may treat them as a threat.',
        related: ['clutches.csv: 2026-05-31: Clutch K2'],
      },
    ]);
  });

  it('is told of fry in a tank in which a pair will spawn within 7 days', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-05-09,2026-05-12,']), [
      {
        at: 'clutches.csv: K1',
        says: 'The fry of K1 are still in A, where P1 is expected to spawn around 2026-06-08 (2026-05-26 to 2026-07-01). Move them in time.',
        related: ['pairs.csv: P1: Pair P1'],
      },
    ]);
  });

  it('is not told where the spawn is expected a day later than that', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-05-10,2026-05-13,']), []);
  });

  it('is told until the window is over, not after', () => {
    const told = ['2026-07-01T10:00', '2026-07-02T10:00'].map((now) => olderFry(['K1,P1,A,2026-05-09,2026-05-12,'], { now }).length);
    assert.deepEqual(told, [1, 0]);
  });

  it('is told of juveniles, and of several broods', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-04-01,2026-04-04,', 'K2,P1,A,2026-05-01,2026-05-04,', 'K3,P1,A,2026-05-31,,']).map(({ at }) => at), ['clutches.csv: K1', 'clutches.csv: K2']);
  });

  it('is not told of fry that were moved, of wrigglers, of fish of sale size, and of broods that nobody knows of', () => {
    const clutches = ['K1,P1,A,2026-05-01,2026-05-04,', 'K2,P1,A,2026-05-24,2026-05-27,', 'K3,P1,A,2026-01-01,2026-01-04,', 'K4,P1,A,2026-05-01,,', 'K5,P1,A,2026-05-31,,'];
    assert.deepEqual(olderFry(clutches, { log: ['K1,2026-05-20,moved,B'] }), []);
  });

  it('is told of fry of another pair in the tank', () => {
    const told = olderFry(['K1,P2,A,2026-05-01,2026-05-04,', 'K2,P1,A,2026-05-31,,'], { pairs: ['P1,cave-fish,A', 'P2,cave-fish,B'] });
    assert.deepEqual(told.map(({ at }) => at), ['clutches.csv: K1']);
  });

  it('is not told of fry that are younger than the eggs', () => {
    const told = olderFry(['K1,P1,A,2026-05-30,,', 'K2,P2,A,2026-05-31,2026-05-31,'], { now: '2026-06-02T10:00', pairs: ['P1,cave-fish,A', 'P2,cave-fish,B'], log: ['K2,2026-06-01,free_swimming,'] });
    assert.deepEqual(told, []);
  });

  it('is not told where nobody knows whether the new eggs live', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-05-01,2026-05-04,', 'K2,P1,A,2026-05-20,,']), []);
  });

  it('is not told where the new eggs stand elsewhere', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-05-01,2026-05-04,', 'K2,P1,B,2026-05-31,,']), []);
  });

  it('is not told once the new eggs are gone', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-05-01,2026-05-04,', 'K2,P1,A,2026-05-30,,2026-05-31']), []);
  });

  it('is not told of fry in a tank without a pair', () => {
    assert.deepEqual(olderFry(['K1,P1,A,2026-05-09,2026-05-12,'], { pairs: ['P1,cave-fish,B'] }), []);
  });
});
