import { deepStrictEqual, rejects } from 'node:assert/strict';
import { symlinkSync } from 'node:fs';
import { readRooms } from '../../../src/cli/rooms';
import type { Rooms } from '../../../src/cli/rooms';
import { textOf } from '../../../src/base/messages';
import { Scratch, testNow } from '../../support/commandLine';

describe('readRooms', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch()));
  afterEach(() => scratch.remove());

  const read = (folders: readonly string[], now?: string, zone = 'UTC'): Promise<Rooms> => {
    const nobody = { isTerminal: false, write: () => undefined };
    return readRooms(folders, { now, io: { out: nobody, err: nobody, cwd: scratch.path, env: {}, zone, now: () => testNow } });
  };
  const zoned = (timezone: string): string => JSON.stringify({ timezone });

  it('names fishrooms as they were given, or from there', async () => {
    scratch.add({ 'fishroom.json': '', 'sites/north/fishroom.json': '', 'sites/south/rack/fishroom.json': '' });
    deepStrictEqual((await read(['.'])).rooms.map(({ folder }) => folder), ['.', 'sites/north', 'sites/south/rack']);
    deepStrictEqual((await read(['./sites/', 'sites/../.'])).rooms.map(({ folder }) => folder), ['sites/north', 'sites/south/rack', '.']);
    deepStrictEqual((await read([scratch.at('sites/north')])).rooms.map(({ folder }) => folder), [scratch.at('sites/north')]);
  });

  it('reads each once, by whatever name it is given', async () => {
    scratch.add({ 'a/fishroom.json': '' });
    symlinkSync('a', scratch.at('b'));
    deepStrictEqual((await read(['a', 'b', '.', 'a'])).rooms.map(({ folder }) => folder), ['a']);
  });

  it("takes now on each fishroom's own clock", async () => {
    // In January Auckland is 13 h ahead of UTC and New York 5 h behind (tz database, from memory).
    scratch.add({ 'a/fishroom.json': zoned('Pacific/Auckland'), 'b/fishroom.json': zoned('America/New_York'), 'c/fishroom.json': '{}' });
    const { rooms, now } = await read(['.'], '2026-01-10T09:00');
    deepStrictEqual(rooms.map(({ plan }) => new Date(plan.now.instant).toISOString()), ['2026-01-09T20:00:00.000Z', '2026-01-10T14:00:00.000Z', '2026-01-10T09:00:00.000Z']);
    deepStrictEqual(now, '2026-01-10T09:00');
  });

  it('takes a moment with an offset as that instant, and a day as its noon', async () => {
    scratch.add({ 'fishroom.json': zoned('Pacific/Auckland') });
    deepStrictEqual((await read(['.'], '2026-01-10T09:00Z')).now, '2026-01-10T22:00');
    deepStrictEqual((await read(['.'], '2026-01-10')).now, '2026-01-10T12:00');
  });

  it("takes the machine's clock and, where the fishroom names none, its zone", async () => {
    scratch.add({ 'a/fishroom.json': '', 'b/fishroom.json': zoned('Asia/Tokyo') });
    // Tokyo is 9 h ahead of UTC and Kolkata 5 h 30 min (tz database, from memory).
    deepStrictEqual((await read(['a'], undefined, 'Asia/Kolkata')).now, '2026-03-10T17:30');
    deepStrictEqual((await read(['b'], undefined, 'Asia/Kolkata')).now, '2026-03-10T21:00');
    deepStrictEqual((await read(['a'], undefined, 'Nowhere/Land')).now, '2026-03-10T12:00');
  });

  it('finds a fishroom by its registers alone', async () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\n' });
    deepStrictEqual((await read(['.'])).rooms.map(({ plan }) => plan.paths()), [['clutches.csv']]);
  });

  it('tells files that can not be read, and reads the rest', async () => {
    scratch.add({ 'room/fishroom.json': '', 'room/rooms.csv': 'room\nA\n' });
    symlinkSync('gone.csv', scratch.at('room/tanks.csv'));
    const { rooms, unread } = await read(['.']);
    deepStrictEqual(rooms.map(({ plan }) => plan.paths()), [['rooms.csv']]);
    deepStrictEqual(unread.map(textOf), ['room/tanks.csv can not be read: it is not there.']);
  });

  it('refuses a folder without a fishroom, and tells where one is above it', async () => {
    scratch.add({ 'room/fishroom.json': '', 'room/clutches/2025/K1.csv': '', 'else/tanks.csv': 'name\n', 'else/notes.txt': '' });
    await rejects(read(['room', 'else']), { message: 'There is no fishroom in else. A fishroom is a folder with a fishroom.json, or with a clutches.csv or tanks.csv that has the columns it needs.' });
    await rejects(read(['room/clutches/2025']), { message: 'There is no fishroom in room/clutches/2025, but it lies inside of one. Give that folder: room.' });
  });

  it('refuses what is no folder', async () => {
    scratch.add({ 'tanks.csv': 'tank,room\n' });
    await rejects(read(['tanks.csv']), { message: 'The folder tanks.csv can not be read: it is no folder.' });
    await rejects(read(['nowhere']), { message: 'The folder nowhere can not be read: it is not there.' });
  });
});
