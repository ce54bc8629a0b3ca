import assert from 'node:assert/strict';
import { findFishrooms } from '../../../src/records/discovery';
import type { FileStore, FolderEntry } from '../../../src/records/fileStore';
import { readAll } from '../../../src/records/load';

const clutches = 'clutch,species,tank,spawned\n';
const tanks = 'tank,room\n';

/** Files by path, in memory. */
function storeOf(files: Readonly<Record<string, string>>): FileStore {
  return {
    list(folder) {
      const prefix = folder === '' ? '' : `${folder}/`;
      const entries = new Map<string, FolderEntry>();
      for (const path of Object.keys(files)) {
        if (!path.startsWith(prefix)) continue;
        const [name = '', ...rest] = path.slice(prefix.length).split('/');
        entries.set(name, { name, kind: rest.length > 0 ? 'folder' : 'file' });
      }
      return Promise.resolve([...entries.values()]);
    },
    read: (path) => Promise.resolve(files[path] === undefined ? undefined : { text: files[path] }),
  };
}

/** `folder: its files`, for each fishroom that is found. */
async function found(files: Readonly<Record<string, string>>): Promise<readonly string[]> {
  return (await findFishrooms(storeOf(files))).map(({ folder, files: own }) => `${folder || '.'}: ${own.join(' ')}`);
}

describe('looking for fishrooms', () => {
  it('finds a folder with a fishroom.json, with its sheets and logs in folders', async () => {
    assert.deepEqual(await found({ 'fishroom.json': '', 'tanks.csv': '', 'notes.csv': '', 'clutches/2026/K1.csv': '', 'tanks/T1.csv': '', 'pictures/K1.csv': '', 'readme.md': '' }), [
      '.: clutches/2026/K1.csv fishroom.json tanks.csv tanks/T1.csv',
    ]);
  });

  it('finds a lone clutches.csv, and a lone tanks.csv', async () => {
    assert.deepEqual(await found({ 'clutches.csv': clutches }), ['.: clutches.csv']);
    assert.deepEqual(await found({ 'cellar/tanks.csv': 'position;room;tank\r\n' }), ['cellar: tanks.csv']);
    assert.deepEqual(await found({ 'clutches.csv': '\uFEFFspawned,tank,clutch' }), ['.: clutches.csv']);
  });

  it('finds one whose header stands below what makes it unreadable, so that somebody hears of that', async () => {
    for (const above of ['\n', '\r\n \r\n', ',,,\n""\n', '<<<<<<< mine\n', '\uFEFF\n']) assert.deepEqual(await found({ 'clutches.csv': `${above}${clutches}` }), ['.: clutches.csv'], JSON.stringify(above));
    assert.deepEqual(await found({ 'clutches.csv': '' }), []);
    assert.deepEqual(await found({ 'clutches.csv': '\n\n' }), []);
    assert.deepEqual(await found({ 'clutches.csv': `list of mine\n${clutches}` }), []);
  });

  it('leaves a foreign file of the same name alone', async () => {
    assert.deepEqual(await found({ 'tanks.csv': 'tank,crew,calibre\nT-34,4,85\n', 'game/clutches.csv': 'clutch\n', 'empty/tanks.csv': '', 'other/species.csv': 'species,care\n' }), []);
  });

  it('gives a sheet to the nearest fishroom above it', async () => {
    assert.deepEqual(
      await found({ 'fishroom.json': '', 'clutches/K1.csv': '', 'annex/fishroom.json': '', 'annex/clutches/K2.csv': '', 'annex/deep/tanks.csv': tanks, 'annex/deep/tanks/T1.csv': '' }),
      ['.: clutches/K1.csv fishroom.json', 'annex: clutches/K2.csv fishroom.json', 'annex/deep: tanks.csv tanks/T1.csv'],
    );
  });

  it('finds several that lie side by side', async () => {
    assert.deepEqual(await found({ 'a/fishroom.json': '', 'b/clutches.csv': clutches, 'c/readme.md': '' }), ['a: fishroom.json', 'b: clutches.csv']);
  });

  it('takes no log of a clutch named tanks for a fishroom’s register', async () => {
    assert.deepEqual(await found({ 'fishroom.json': '', 'clutches/tanks.csv': 'time,event\n' }), ['.: clutches/tanks.csv fishroom.json']);
  });

  it('passes over hidden folders and installed packages', async () => {
    assert.deepEqual(await found({ '.git/fishroom.json': '', 'node_modules/x/clutches.csv': clutches, 'a/.b/tanks.csv': tanks }), []);
  });

  it('reads all files of one, without what has vanished since', async () => {
    const files = { 'cellar/fishroom.json': '{}', 'cellar/tanks.csv': tanks };
    const [fishroom] = await findFishrooms(storeOf(files));
    assert.ok(fishroom !== undefined);
    assert.deepEqual(await readAll(storeOf({ 'cellar/tanks.csv': tanks }), fishroom), [{ path: 'tanks.csv', file: { text: tanks } }]);
  });
});
