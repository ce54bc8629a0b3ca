import assert from 'node:assert/strict';
import { recordSpawn, spawners, spawnFields } from '../../../src/acts/recordSpawn';
import type { Spawner } from '../../../src/acts/recordSpawn';
import { linesAdded, refusalOf, textsAfter } from '../../support/acts';
import type { RoomFiles } from '../../support/room';
import { roomOf } from '../../support/room';

const pairs = 'pair,species,tank,retired\nKR1,kribensis,T1,\nKR2,kribensis,T2,2026-02-01\nBE1,betta,T4,\n';
const clutches = 'clutch,pair,species,tank,spawned,eggs,note,stage\nKR1-8,KR1,,T1,2026-03-01 19:30,80,,ended\nBE1-3,BE1,,T4,2026-04-29,,,\n';
const now = '2026-05-12T08:15:50';

function spawner(files: RoomFiles, place = 0): Spawner {
  return spawners(roomOf(files, now))[place] as Spawner;
}

describe('recordSpawn', () => {
  const files = { 'pairs.csv': pairs, 'clutches.csv': clutches };

  it('offers pairs that breed, the one that should spawn about now first', () => {
    assert.deepEqual(spawners(roomOf(files, now)).map(({ pair }) => pair), ['BE1', 'KR1']);
    assert.deepEqual(spawnFields(spawner(files), roomOf(files, now)).map(({ name, likely }) => `${name} ${likely}`), ['spawned 2026-05-12T08:15', 'clutch BE1-4', 'eggs ']);
  });

  it('writes the row as it would be typed: the name as they go on, the species left to the pair, the time as the sheet writes it', () => {
    assert.deepEqual(linesAdded(files, now, { act: recordSpawn(spawner(files), { eggs: '~60' }), path: 'clutches.csv' }), ['BE1-4,BE1,,T4,2026-05-12T08:15,~60,,'.replace('T08', ' 08')]);
    const other = { ...files, 'clutches.csv': '\uFEFFspawned;tank;clutch;pair\r\n2026-04-29;T4;BE1_09;BE1' };
    assert.equal(textsAfter(other, now, recordSpawn(spawner(other), { spawned: '~2026-05-11' }))['clutches.csv'], '\uFEFFspawned;tank;clutch;pair\r\n2026-04-29;T4;BE1_09;BE1\r\n~2026-05-11;T4;BE1_10;BE1');
  });

  it('goes on with species and tank where a room keeps no pairs', () => {
    const small = { 'clutches.csv': 'clutch,species,tank,spawned\nK-1,kribensis,T1,2026-03-01\nB-7,betta,T2,2026-04-01\nK-2,kribensis,T1,2026-04-04\n' };
    assert.deepEqual(spawners(roomOf(small, now)).map(({ species, tank }) => `${species} ${tank}`), ['kribensis T1', 'betta T2']);
    assert.deepEqual(linesAdded(small, now, { act: recordSpawn(spawner(small, 1), {}), path: 'clutches.csv' }), ['B-8,betta,T2,2026-05-12T08:15']);
  });

  it('adds the column of the pairs to a register without one', () => {
    const bare = { ...files, 'clutches.csv': 'clutch,species,tank,spawned\nBE1-3,betta,T4,2026-04-29\n' };
    assert.equal(textsAfter(bare, now, recordSpawn(spawner(files), { clutch: 'X1' }))['clutches.csv'], 'clutch,pair,species,tank,spawned\nBE1-3,,betta,T4,2026-04-29\nX1,BE1,,T4,2026-05-12T08:15\n');
  });

  it('refuses what can not be written, and says why', () => {
    const act = (answers: Record<string, string>): string => refusalOf(files, now, recordSpawn(spawner(files), answers));
    assert.equal(act({ clutch: 'be1-3' }), 'There is a be1-3 already. Choose another name.');
    assert.equal(act({ clutch: '' }), 'No name follows from those that are there. Give it one.');
    assert.equal(act({ spawned: '2026-05-13' }), '2026-05-13 is later than now, so nothing was written.');
    assert.match(act({ spawned: '12/5/2026' }), /12\/5\/2026/);
    assert.match(act({ eggs: 'some' }), /some/);
    const bare = { ...files, 'clutches.csv': 'clutch,species,tank\nBE1-3,betta,T4\n' };
    assert.equal(refusalOf(bare, now, recordSpawn(spawner(files), { clutch: 'X1' })), 'clutches.csv has no column spawned, so nothing was written. The quick fix in its first line adds it.');
    assert.equal(refusalOf({ 'pairs.csv': pairs }, now, recordSpawn(spawner(files), {})), 'There is no clutches.csv to write into.');
    assert.equal(refusalOf({ ...files, 'clutches.csv': `${clutches}"open` }, now, recordSpawn(spawner(files), {})), "clutches.csv can't be read as it stands, so nothing was written. Mend what the Problems view shows of it first.");
    assert.equal(refusalOf({ ...files, 'pairs.csv': 'pair,species,tank,retired\nBE1,betta,T4,2026-05-01\n' }, now, recordSpawn(spawner(files), {})), 'BE1 is no pair that still breeds.');
  });
});
