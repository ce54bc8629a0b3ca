import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { chmodSync, cpSync, lstatSync, mkdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';

const config = '{"timezone":"UTC"}';
// The machine's clock stands at 2026-03-10, so these are 9 and 10 days old.
const unfilled = 'clutch,species,tank,spawned,age_days\nK1,kribensis,T1,2026-03-01,\nK2,kribensis,T1,2026-02-28,9\n';
const filled = 'clutch,species,tank,spawned,age_days\nK1,kribensis,T1,2026-03-01,9\nK2,kribensis,T1,2026-02-28,10\n';

describe('fill', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch({ 'fishroom.json': config })));
  afterEach(() => scratch.remove());

  const fill = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['fill', ...argv]);
  const changesOf = ({ out }: Ran): unknown => (JSON.parse(out) as { changes: unknown }).changes;

  it('tells what would change, exits with 1 and touches nothing', async () => {
    scratch.add({ 'clutches.csv': unfilled });
    const before = statSync(scratch.at('clutches.csv'));
    const { code, out, err } = await fill('--format', 'json');
    deepStrictEqual({ code, err }, { code: 1, err: '' });
    deepStrictEqual(JSON.parse(out), {
      now: '2026-03-10T12:00',
      changes: [
        { file: 'clutches.csv', line: 2, column: 28, header: 'age_days', before: '', after: '9' },
        { file: 'clutches.csv', line: 3, column: 28, header: 'age_days', before: '9', after: '10' },
      ],
    });
    const after = statSync(scratch.at('clutches.csv'));
    deepStrictEqual([scratch.text('clutches.csv'), after.mtimeMs, after.ino], [unfilled, before.mtimeMs, before.ino]);
  });

  it('writes it, and has nothing to do afterwards', async () => {
    scratch.add({ 'clutches.csv': unfilled });
    const first = await fill('--write', '--format', 'json');
    deepStrictEqual([first.code, first.err, (changesOf(first) as unknown[]).length], [0, '', 2]);
    equal(scratch.text('clutches.csv'), filled);
    const { ino } = statSync(scratch.at('clutches.csv'));
    deepStrictEqual(await fill('--format', 'json'), { code: 0, out: '{"now":"2026-03-10T12:00","changes":[\n]}\n', err: '' });
    deepStrictEqual(await fill('--write'), { code: 0, out: 'Every computed cell is as it should be in 1 file.\n', err: '' });
    deepStrictEqual([scratch.text('clutches.csv'), statSync(scratch.at('clutches.csv')).ino], [filled, ino]);
    deepStrictEqual(scratch.paths(), ['clutches.csv', 'fishroom.json']);
  });

  it('is text for people: by file, aligned, counted at the end', async () => {
    scratch.add({ 'clutches.csv': unfilled });
    deepStrictEqual((await fill()).out.split('\n'), [
      'clutches.csv',
      '  2:28  K1  age_days  (empty) → 9',
      '  3:28  K2  age_days  9 → 10',
      '',
      '2 cells would change, in 1 file. Nothing was written; fill --write does it.',
      '',
    ]);
    match((await fill('--write')).out, /\n\n2 cells filled, in 1 file\.\n$/);
  });

  it('tells many changes column by column', async () => {
    const rows = Array.from({ length: 200 }, (_, i) => `K${i},kribensis,T1,2026-03-01,\n`).join('');
    scratch.add({ 'clutches.csv': `clutch,species,tank,spawned,age_days\n${rows}` });
    match((await fill()).out, /^clutches\.csv\n  age_days {4}200 cells  line 2: \(empty\) → 9\n\n200 cells would change/);
  });

  it('says when no sheet has a computed column', async () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-03-01\n' });
    const { code, out } = await fill();
    equal(code, 0);
    match(out, /^No sheet has a computed column yet\./);
  });

  it('changes no byte outside the cells: byte order mark, semicolons, quotes, any line ends, no last one', async () => {
    const text = (first: string, second: string, third: string): string =>
      `\ufeffclutch;note;age_days;species;"tank";spawned\r\n"K1";"a ""b""; c";${first};kribensis;T1;2026-03-01\n\r\nK2; x ;${second};kribensis;T1;2026-02-28\rK3;é🐟;${third};kribensis;T1;2026-03-10`;
    scratch.add({ 'clutches.csv': text('', '"3"', '') });
    equal((await fill('--write')).code, 0);
    deepStrictEqual(readFileSync(scratch.at('clutches.csv')), Buffer.from(text('9', '"10"', '0'), 'utf8'));
  });

  it('leaves files alone in which nothing can be read, and what hangs on them, says so, and fills the rest', async () => {
    const bad = Buffer.concat([Buffer.from('time,event,age_days\n2026-03-02,checked,\n'), Buffer.from([0xff, 0x0a])]);
    scratch.add({ 'clutches.csv': `${unfilled}K3,kribensis,T1,2026-03-09,\n`, 'clutches/K1.csv': bad, 'clutches/K2.csv': 'time,event,age_days\n"2026-03-02,checked,\n' });
    const { code, err } = await fill('--write');
    equal(code, 0);
    match(err, /clutches\/K1\.csv can't be read, so computed cells that come from it were left alone/);
    deepStrictEqual([readFileSync(scratch.at('clutches/K1.csv')), scratch.text('clutches.csv')], [bad, `${unfilled}K3,kribensis,T1,2026-03-09,1\n`]);
  });

  it('leaves alone what comes from a register that can not be read, and says so instead of calling it right', async () => {
    const rooms = 'room,open_clutches\nR1,2\n';
    scratch.add({ 'clutches.csv': `\n${filled}`, 'rooms.csv': rooms });
    const { code, out, err } = await fill('--write', '--overwrite');
    deepStrictEqual([code, scratch.text('rooms.csv'), scratch.text('clutches.csv')], [0, rooms, `\n${filled}`]);
    match(err, /clutches\.csv can't be read, so computed cells that come from it were left alone in the other sheets\. check tells why\./);
    match(out, /^No other computed cell would change\.$/m);
  });

  it('exits with 0 although the records have problems', async () => {
    scratch.add({ 'clutches.csv': `${unfilled}K2,kribensis,T1,never,\n` });
    equal((await fill('--write')).code, 0);
  });

  it('adds missing columns in the same step', async () => {
    scratch.add({ 'rooms.csv': 'room\r\nfront\r\n', 'tanks.csv': 'tank,room\r\nT1,front\r\nT2,front\r\n' });
    const told = await fill('--add', '--format', 'json');
    deepStrictEqual([told.code, scratch.text('rooms.csv')], [1, 'room\r\nfront\r\n']);
    const changes = changesOf(told) as { file: string }[];
    const ofRooms = changes.filter(({ file }) => file === 'rooms.csv');
    deepStrictEqual(ofRooms.slice(0, 2), [
      { file: 'rooms.csv', line: 1, column: 6, header: 'tanks', before: '', after: 'tanks' },
      { file: 'rooms.csv', line: 1, column: 12, header: 'open_clutches', before: '', after: 'open_clutches' },
    ]);
    deepStrictEqual(ofRooms.find((change) => 'line' in change && change.line === 2), { file: 'rooms.csv', line: 2, column: 7, header: 'tanks', before: '', after: '2' });
    equal((await fill('--add', '--write')).code, 0);
    match(scratch.text('rooms.csv'), /^room,tanks,open_clutches[a-z_,]*\r\nfront,2,0[^\n]*\r\n$/);
    deepStrictEqual(await fill('--add'), { code: 0, out: 'Every computed cell is as it should be in 2 files.\n', err: '' });
  });

  it('does not add columns unasked', async () => {
    scratch.add({ 'clutches.csv': unfilled });
    await fill('--write');
    equal(scratch.text('clutches.csv').split('\n')[0], 'clutch,species,tank,spawned,age_days');
  });

  it('leaves a column alone that was kept by hand until it may overwrite it', async () => {
    const byHand = 'clutch,species,tank,spawned,stage\nK1,kribensis,T1,2026-03-01,tiny\nK2,kribensis,T1,2026-02-28,tiny too\n';
    scratch.add({ 'clutches.csv': byHand });
    const { code, err } = await fill('--write');
    equal(code, 0);
    equal(err, "broodsheet: clutches.csv, column stage: holds values that weren't written by Broodsheet; 2 rows would change and were left alone. Use --overwrite to replace them.\n");
    equal(scratch.text('clutches.csv'), byHand);
    const overwritten = await fill('--write', '--overwrite');
    deepStrictEqual([overwritten.code, overwritten.err], [0, '']);
    equal(scratch.text('clutches.csv').includes('tiny'), false);
  });

  it('names files by their fishroom where there are several', async () => {
    scratch.add({ 'sites/a/fishroom.json': config, 'sites/a/clutches.csv': unfilled, 'sites/b/fishroom.json': config, 'sites/b/clutches.csv': filled });
    const files = async (...argv: readonly string[]): Promise<unknown> => [...new Set((changesOf(await fill('--format', 'json', ...argv)) as { file: string }[]).map(({ file }) => file))];
    deepStrictEqual(await files('sites'), ['sites/a/clutches.csv']);
    deepStrictEqual(await files('sites/a'), ['clutches.csv']);
    equal((await fill('sites', '--write')).code, 0);
    equal(scratch.text('sites/a/clutches.csv'), filled);
  });

  it('keeps links and permissions', async () => {
    scratch.add({ 'shelf/real.csv': unfilled });
    mkdirSync(scratch.at('room'));
    writeFileSync(scratch.at('room/fishroom.json'), config);
    symlinkSync('../shelf/real.csv', scratch.at('room/clutches.csv'));
    chmodSync(scratch.at('shelf/real.csv'), 0o640);
    equal((await fill('room', '--write')).code, 0);
    equal(lstatSync(scratch.at('room/clutches.csv')).isSymbolicLink(), true);
    deepStrictEqual([scratch.text('shelf/real.csv'), statSync(scratch.at('shelf/real.csv')).mode & 0o777], [filled, 0o640]);
  });

  it('writes no file that changed since it was read, but all others, and exits with 2', async () => {
    // Two fishrooms share a sheet: it was read for both before it's written for the first.
    scratch.add({ 'a/fishroom.json': config, 'a/clutches.csv': unfilled, 'b/fishroom.json': config, 'c/fishroom.json': config, 'c/clutches.csv': unfilled });
    symlinkSync('../a/clutches.csv', scratch.at('b/clutches.csv'));
    const { code, out, err } = await fill('a', 'b', 'c', '--write', '--format', 'json');
    deepStrictEqual({ code, err }, { code: 2, err: 'broodsheet: b/clutches.csv was changed by somebody else in the meantime, so it was left alone. Run fill again.\n' });
    deepStrictEqual([...new Set((JSON.parse(out) as { changes: { file: string }[] }).changes.map(({ file }) => file))], ['a/clutches.csv', 'c/clutches.csv']);
    deepStrictEqual([scratch.text('a/clutches.csv'), scratch.text('c/clutches.csv')], [filled, filled]);
  });

  it('writes nothing in a fishroom with a file that can not be read, since the rest may hang on it, and exits with 2', async () => {
    scratch.add({ 'a/fishroom.json': config, 'a/clutches.csv': unfilled, 'ab/fishroom.json': config, 'ab/clutches.csv': unfilled });
    symlinkSync('gone.csv', scratch.at('a/tanks.csv'));
    const { code, out, err } = await fill('.', '--write', '--format', 'json');
    deepStrictEqual({ code, err: err.split('\n') }, {
      code: 2,
      err: ['broodsheet: a/tanks.csv can not be read: it is not there.', 'broodsheet: Nothing was written in a: what stands in the file that can not be read may matter to the others.', ''],
    });
    deepStrictEqual([...new Set((JSON.parse(out) as { changes: { file: string }[] }).changes.map(({ file }) => file))], ['ab/clutches.csv']);
    deepStrictEqual([scratch.text('a/clutches.csv'), scratch.text('ab/clutches.csv')], [unfilled, filled]);
  });

  it('is not confused by what a killed process left', async () => {
    const left = '.clutches.csv.0b9a7f52-0000-4000-8000-000000000000.tmp';
    scratch.add({ 'clutches.csv': unfilled, [left]: unfilled.slice(0, 40) });
    equal((await fill('--write')).code, 0);
    deepStrictEqual([scratch.text('clutches.csv'), scratch.text(left)], [filled, unfilled.slice(0, 40)]);
  });

  it('fills the sample once and for all, and says the same each time', async () => {
    cpSync('samples/three-rooms', scratch.at('sample'), { recursive: true });
    const run = (...argv: readonly string[]): Promise<Ran> => fill('sample', '--now', '2026-06-12T09:00', ...argv);
    deepStrictEqual(await run('--add', '--format', 'json'), await run('--add', '--format', 'json'));
    const { code, out } = await run('--add', '--write');
    equal(code, 0);
    match(out, /cells.* filled, in \d+ files?\.\n$/);
    deepStrictEqual(await run('--add', '--format', 'json'), { code: 0, out: '{"now":"2026-06-12T09:00","changes":[\n]}\n', err: '' });
  });

  it('finds the sample as it was filled, at its own moment', async () => {
    cpSync('samples/three-rooms', scratch.at('sample'), { recursive: true });
    deepStrictEqual(await fill('sample', '--now', '2026-06-10T09:00', '--format', 'json'), { code: 0, out: '{"now":"2026-06-10T09:00","changes":[\n]}\n', err: '' });
  });
});
