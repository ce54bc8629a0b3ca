import { deepStrictEqual, equal, throws } from 'node:assert/strict';
import { chmodSync, chownSync, lstatSync, mkdirSync, readFileSync, readlinkSync, statSync, symlinkSync } from 'node:fs';
import { createFile, replaceFile } from '../../../src/cli/replaceFile';
import { Scratch } from '../../support/commandLine';

describe('replaceFile', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch({ 'tanks.csv': 'old' })));
  afterEach(() => scratch.remove());

  const replace = (path: string): boolean => replaceFile(scratch.at(path), { before: 'old', after: 'new' });

  it('puts a new file in the place of the old one and leaves nothing beside it', () => {
    const { ino } = statSync(scratch.at('tanks.csv'));
    equal(replace('tanks.csv'), true);
    equal(scratch.text('tanks.csv'), 'new');
    equal(statSync(scratch.at('tanks.csv')).ino === ino, false);
    deepStrictEqual(scratch.paths(), ['tanks.csv']);
  });

  for (const mode of [0o600, 0o640, 0o666, 0o755, 0o2664]) {
    it(`keeps the permissions ${mode.toString(8)} whatever the mask`, () => {
      chmodSync(scratch.at('tanks.csv'), mode);
      const mask = process.umask(0o077);
      try {
        replace('tanks.csv');
      } finally {
        process.umask(mask);
      }
      equal(statSync(scratch.at('tanks.csv')).mode & 0o7777, mode);
    });
  }

  it('keeps the owner', () => {
    // Only the superuser can give a file away; for all others it stays their own.
    if (process.getuid?.() === 0) chownSync(scratch.at('tanks.csv'), 4321, 8765);
    const { uid, gid } = statSync(scratch.at('tanks.csv'));
    replace('tanks.csv');
    deepStrictEqual([statSync(scratch.at('tanks.csv')).uid, statSync(scratch.at('tanks.csv')).gid], [uid, gid]);
  });

  it('writes through links and keeps them', () => {
    scratch.add({ 'shelf/real.csv': 'old' });
    symlinkSync('shelf/real.csv', scratch.at('link.csv'));
    symlinkSync('link.csv', scratch.at('chain.csv'));
    equal(replace('chain.csv'), true);
    equal(scratch.text('shelf/real.csv'), 'new');
    deepStrictEqual([readlinkSync(scratch.at('chain.csv')), readlinkSync(scratch.at('link.csv'))], ['link.csv', 'shelf/real.csv']);
    equal(lstatSync(scratch.at('shelf/real.csv')).isFile(), true);
    deepStrictEqual(scratch.paths(), ['chain.csv', 'link.csv', 'shelf/real.csv', 'tanks.csv']);
  });

  it('leaves a file alone that somebody changed meanwhile', () => {
    scratch.add({ 'tanks.csv': 'old, and more' });
    equal(replace('tanks.csv'), false);
    equal(scratch.text('tanks.csv'), 'old, and more');
    deepStrictEqual(scratch.paths(), ['tanks.csv']);
  });

  it('sees that bytes changed even where they read alike', () => {
    scratch.add({ 'tanks.csv': new Uint8Array([0x6f, 0xff]) });
    equal(replaceFile(scratch.at('tanks.csv'), { before: 'o\ufffd', after: 'new' }), false);
    deepStrictEqual([...readFileSync(scratch.at('tanks.csv'))], [0x6f, 0xff]);
  });

  it('throws for a file that is gone, and leaves nothing behind', () => {
    throws(() => replace('rooms.csv'), { code: 'ENOENT' });
    deepStrictEqual(scratch.paths(), ['tanks.csv']);
  });

  it('leaves nothing behind when it fails on the way', () => {
    mkdirSync(scratch.at('pairs.csv'));
    throws(() => replace('pairs.csv'), { code: 'EISDIR' });
    deepStrictEqual(scratch.paths(), ['tanks.csv']);
  });

  it('copes with the longest of names', () => {
    const name = `${'魚'.repeat(80)}.csv`;
    scratch.add({ [name]: 'old' });
    equal(replace(name), true);
    deepStrictEqual([scratch.text(name), scratch.paths().length], ['new', 2]);
  });
});

describe('createFile', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch({ 'there.ics': 'old' })));
  afterEach(() => scratch.remove());

  it('writes a file that is not there, and nothing beside it', () => {
    equal(createFile(scratch.at('new.ics'), 'ü'), true);
    deepStrictEqual([scratch.text('new.ics'), scratch.paths()], ['ü', ['new.ics', 'there.ics']]);
  });

  it('leaves alone what is there', () => {
    equal(createFile(scratch.at('there.ics'), 'new'), false);
    deepStrictEqual([scratch.text('there.ics'), scratch.paths()], ['old', ['there.ics']]);
  });

  it('says what the system says, and leaves nothing', () => {
    throws(() => createFile(scratch.at('no/new.ics'), 'x'), { code: 'ENOENT' });
    deepStrictEqual(scratch.paths(), ['there.ics']);
  });
});
