import assert from 'node:assert/strict';
import { cell, filledRoom, problemsOf, roomOf, why } from '../../support/room';
import type { RoomFiles } from '../../support/room';

const now = '2026-06-10T09:00';

/** Founders of two origins, a brood of theirs, and what the keeper put together. */
const files: RoomFiles = {
  'fish.csv': ['fish,species,sex,sire,dam,clutch,origin,accept', 'A,caver,m,,,,lake,', 'B,caver,f,,,,river,', 'C,caver,m,,,K1,,', 'D,caver,f,,,K1,,', 'E,caver,f,C,,K2,,', 'F,caver,f,,,,lake,', 'G,caver,m,,,K3,,'],
  'pairs.csv': ['pair,species,tank,male,female,retired,accept', 'P1,caver,T1,A,B,,', 'P2,caver,T2,C,D,,', 'P3,caver,T3,A,F,,', 'P4,caver,T4,C,F,,', 'P5,caver,T5,C,,,', 'P6,caver,T6,G,D,,'],
  'clutches.csv': ['clutch,species,pair,sire,dam,tank,spawned', 'K1,,P1,,,T1,2025-05-01', 'K2,,P1,,D,T1,2025-06-01', 'K3,,P2,,,T2,2025-09-01'],
  'species.csv': ['species,care', 'caver,cave'],
};

describe('kinship of a pair', () => {
  const plan = filledRoom(files, now);
  const kinship = (pair: string): string => cell(plan, 'pairs.csv', pair, 'kinship');

  it('is that of its two fish, whose parents their clutch or its pair may name', () => {
    assert.deepEqual(['P1', 'P2', 'P6'].map(kinship), ['0.0000', '0.2500', '0.3750']);
  });

  it('is empty without both fish, and where both go back to unknown parents of one origin', () => {
    assert.deepEqual(['P3', 'P4', 'P5'].map(kinship), ['', '', '']);
    assert.deepEqual(why(plan, 'pairs.csv', 'P4', 'kinship').notes, ['Both go back to unknown parents of one origin, which may have been related.']);
    assert.deepEqual(why(plan, 'pairs.csv', 'P5', 'kinship').notes, ['The pair does not name a male and a female.']);
  });

  it('tells where it is known who the parents are', () => {
    assert.deepEqual(why(plan, 'pairs.csv', 'P2', 'kinship').inputs, [
      'male of P2: C <pairs.csv: C>', 'female of P2: D <pairs.csv: D>',
      'sire of C: A <pairs.csv: A>', 'dam of C: B <pairs.csv: B>', 'sire of D: A <pairs.csv: A>', 'dam of D: B <pairs.csv: B>',
    ]);
  });

  it('of half sibs or closer is a warning, unless the keeper knows or the pair is retired', () => {
    assert.deepEqual(problemsOf(plan, 'close-kin').map(({ at, says, related }) => [at, says, related]), [
      ['pairs.csv: P2', 'C and D are as close as full sibs, or closer: kinship 0.2500, which is how inbred their young would be.', ['fish.csv: C: Fish C', 'fish.csv: D: Fish D']],
      ['pairs.csv: P6', 'G and D are as close as full sibs, or closer: kinship 0.3750, which is how inbred their young would be.', ['fish.csv: G: Fish G', 'fish.csv: D: Fish D']],
    ]);
    const quiet = roomOf({ ...files, 'pairs.csv': [...(files['pairs.csv'] as readonly string[]).slice(0, 2), 'P2,caver,T2,C,D,,close-kin', 'P6,caver,T6,C,D,2026-06-01,'] }, now);
    assert.deepEqual(problemsOf(quiet, 'close-kin'), []);
  });
});

describe('inbreeding of a fish', () => {
  const plan = filledRoom(files, now);

  it('is the kinship of its parents, its own before those of its clutch', () => {
    assert.deepEqual(['A', 'C', 'E', 'G'].map((fish) => cell(plan, 'fish.csv', fish, 'inbreeding_f')), ['0.0000', '0.0000', '0.2500', '0.2500']);
    assert.deepEqual(why(plan, 'fish.csv', 'E', 'inbreeding_f').inputs, ['sire of E: C <fish.csv: C>', 'dam of E: D <clutches.csv: D>']);
    assert.deepEqual(why(plan, 'fish.csv', 'A', 'inbreeding_f').notes, ['A parent is not known, so it counts as not inbred.']);
  });

  it('is empty in a loop, which is an error at each fish in it', () => {
    const loop = filledRoom({ 'fish.csv': ['fish,species,sire,accept', 'A,guppy,B,', 'B,guppy,C,', 'C,guppy,A,lineage-loop', 'D,guppy,A,'] }, now);
    assert.deepEqual(['A', 'B', 'C', 'D'].map((fish) => cell(loop, 'fish.csv', fish, 'inbreeding_f')), ['', '', '', '']);
    assert.deepEqual(problemsOf(loop, 'lineage-loop').map(({ at, says }) => `${at}: ${says}`), ['fish.csv: A: A would be its own ancestor. Correct a sire, a dam or a clutch in its line.', 'fish.csv: B: B would be its own ancestor. Correct a sire, a dam or a clutch in its line.']);
  });

  it('follows when a clutch gets another dam', () => {
    const edited = roomOf(files, now);
    const text = edited.records.file('clutches.csv')?.doc.text() ?? '';
    const at = text.indexOf('P1,,D,') + 4;
    edited.apply([{ path: 'clutches.csv', edits: [{ start: at, end: at + 1, text: 'F' }] }]);
    assert.equal(why(edited, 'fish.csv', 'E', 'inbreeding_f').value, '');
    edited.apply([{ path: 'clutches.csv', edits: [{ start: at, end: at + 1, text: 'B' }] }]);
    assert.equal(why(edited, 'fish.csv', 'E', 'inbreeding_f').value, '0.2500');
  });
});
