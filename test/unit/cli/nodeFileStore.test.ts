import { deepStrictEqual, equal, ok } from 'node:assert/strict';
import { mkdirSync, symlinkSync } from 'node:fs';
import { createServer } from 'node:net';
import { findFishrooms } from '../../../src/records/discovery';
import { NodeFileStore } from '../../../src/cli/nodeFileStore';
import { textOf } from '../../../src/base/messages';
import { Scratch } from '../../support/commandLine';

describe('NodeFileStore', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch()));
  afterEach(() => scratch.remove());

  const namesIn = async (folder: string): Promise<readonly string[]> => (await new NodeFileStore(scratch.path).list(folder)).map(({ name, kind }) => `${kind} ${name}`).sort();

  it('lists files and folders, links as what they lead to', async () => {
    scratch.add({ 'room/tanks.csv': 'tank\n', 'elsewhere/2025/K1.csv': 'time\n', 'elsewhere/log.csv': '' });
    symlinkSync('../elsewhere/2025', scratch.at('room/clutches'));
    symlinkSync('../elsewhere/log.csv', scratch.at('room/log.csv'));
    deepStrictEqual(await namesIn('room'), ['file log.csv', 'file tanks.csv', 'folder clutches']);
    deepStrictEqual(await namesIn('room/clutches'), ['file K1.csv']);
  });

  it('leaves out links that lead back to where they lie', async () => {
    scratch.add({ 'a/b/x.csv': '', 'c/y.csv': '' });
    symlinkSync('.', scratch.at('a/itself'));
    symlinkSync('..', scratch.at('a/b/up'));
    symlinkSync('/', scratch.at('a/b/root'));
    symlinkSync('../../c', scratch.at('a/b/c'));
    symlinkSync('../a', scratch.at('c/back'));
    deepStrictEqual(await namesIn('a'), ['folder b']);
    deepStrictEqual(await namesIn('a/b'), ['file x.csv', 'folder c']);
    // On its own c leads to a, but a/b/c does not lead to a again.
    deepStrictEqual(await namesIn('a/b/c'), ['file y.csv']);
    deepStrictEqual(await namesIn('c'), ['file y.csv', 'folder back']);
  });

  it('finds each fishroom once where links go in circles', async () => {
    scratch.add({ 'fishroom.json': '{}', 'clutches/K1.csv': 'time,event\n', 'annex/fishroom.json': '{}' });
    symlinkSync('..', scratch.at('annex/main'));
    symlinkSync('..', scratch.at('clutches/2025'));
    deepStrictEqual(await findFishrooms(new NodeFileStore(scratch.path)), [
      { folder: '', files: ['clutches/K1.csv', 'fishroom.json'] },
      { folder: 'annex', files: ['fishroom.json'] },
    ]);
  });

  it('passes over what is neither file nor folder', async () => {
    const server = createServer();
    await new Promise<void>((resolve) => server.listen(scratch.at('tanks.csv'), resolve));
    try {
      deepStrictEqual(await namesIn(''), []);
    } finally {
      server.close();
    }
  });

  it('keeps what it could not read and why', async () => {
    mkdirSync(scratch.at('room'));
    symlinkSync('nowhere.csv', scratch.at('room/tanks.csv'));
    const store = new NodeFileStore(scratch.path);
    deepStrictEqual(await store.list('room'), [{ name: 'tanks.csv', kind: 'file' }]);
    equal(await store.read('room/tanks.csv'), undefined);
    deepStrictEqual(await store.list('cellar'), []);
    deepStrictEqual([...store.failures].map(([path, reason]) => [path, textOf(reason)]), [
      ['room/tanks.csv', 'it is not there'],
      ['cellar', 'it is not there'],
    ]);
  });

  it('reads text with its byte order mark, and says where it is no UTF-8', async () => {
    scratch.add({ 'a.csv': '\ufefftank\r\n', 'b.csv': new Uint8Array([0x61, 0xff, 0x62]) });
    const store = new NodeFileStore(scratch.path);
    equal((await store.read('a.csv'))?.text, '\ufefftank\r\n');
    deepStrictEqual(await store.read('b.csv'), { text: 'a\ufffdb', badAt: 1 });
    ok(store.failures.size === 0);
  });
});
