import { deepStrictEqual, strictEqual } from 'node:assert/strict';
import { WatchedFolders } from '../../../src/vscode/watchedFolders';

const walked = (...folders: readonly string[]) => new Map([['file:///w', { folders: ['file:///w', ...folders], linked: [] }]]);

describe('watched folders', () => {
  it('are all that a watcher finds as it begins', () => {
    const watched = new WatchedFolders();
    watched.beginWalk()(walked('file:///w/room', 'file:///w/room/clutches'));
    deepStrictEqual(watched.unwatched(), []);
    strictEqual(watched.isKnown('file:///w/room/clutches'), true);
  });

  it('are those that were told of, not those inside them that nobody told of', () => {
    const watched = new WatchedFolders();
    watched.beginWalk()(walked());
    watched.tellCreated('file:///w/room');
    watched.beginWalk()(walked('file:///w/room', 'file:///w/room/clutches'));
    deepStrictEqual(watched.unwatched(), ['file:///w/room/clutches']);
    watched.beginWalk()(walked('file:///w/room', 'file:///w/room/clutches'));
    deepStrictEqual(watched.unwatched(), ['file:///w/room/clutches']);
    watched.beginWalk()(walked('file:///w/room'));
    deepStrictEqual(watched.unwatched(), []);
  });

  it('are told of during a walk, or after it, too', () => {
    const watched = new WatchedFolders();
    watched.beginWalk()(walked());
    const endWalk = watched.beginWalk();
    watched.tellCreated('file:///w/a');
    endWalk(walked('file:///w/a', 'file:///w/b'));
    deepStrictEqual(watched.unwatched(), ['file:///w/b']);
    watched.tellCreated('file:///w/b');
    deepStrictEqual(watched.unwatched(), []);
  });

  it('are those in which a file was told to have changed', () => {
    const watched = new WatchedFolders();
    watched.beginWalk()(walked());
    watched.beginWalk()(walked('file:///w/a', 'file:///w/a/b'));
    watched.tellChanged('file:///w/a/b/K1.csv');
    deepStrictEqual(watched.unwatched(), ['file:///w/a']);
  });

  it('are no longer those that were deleted and made anew, even if during a walk', () => {
    const folders = ['file:///w/a', 'file:///w/a/b', 'file:///w/ab'];
    const before = new WatchedFolders();
    before.beginWalk()(walked(...folders));
    before.forget('file:///w/a');
    before.tellCreated('file:///w/a');
    before.beginWalk()(walked(...folders));
    deepStrictEqual(before.unwatched(), ['file:///w/a/b']);

    const during = new WatchedFolders();
    during.beginWalk()(walked(...folders));
    const endWalk = during.beginWalk();
    during.forget('file:///w/a');
    during.tellCreated('file:///w/a');
    endWalk(walked(...folders));
    deepStrictEqual(during.known(), ['file:///w', 'file:///w/ab']);
    during.beginWalk()(walked(...folders));
    deepStrictEqual(during.unwatched(), ['file:///w/a/b']);
  });

  it('are never those behind a link, whatever was told', () => {
    const watched = new WatchedFolders();
    const linked = new Map([['file:///w', { folders: ['file:///w', 'file:///w/link'], linked: ['file:///w/link'] }]]);
    watched.tellCreated('file:///w/link');
    watched.beginWalk()(linked);
    watched.tellCreated('file:///w/link');
    watched.tellChanged('file:///w/link/K1.csv');
    deepStrictEqual(watched.unwatched(), ['file:///w/link']);
    watched.beginWalk()(walked());
    deepStrictEqual(watched.unwatched(), []);
  });
});
