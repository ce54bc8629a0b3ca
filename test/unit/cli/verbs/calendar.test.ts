import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { chmodSync, rmSync, statSync, symlinkSync } from 'node:fs';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';
import { readCalendar } from '../../../support/calendarReader';

const config = '{"name":"Cellar","timezone":"Europe/Berlin","rounds":["19:00","08:00"]}';
const files = {
  'fishroom.json': config,
  'species.csv': 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,feeds_per_day\nblue,cave,26,72,120,192,30,80,35,2\n',
  'tanks.csv': 'tank,room\nT1,front\nT2,back\n',
  'clutches.csv': 'clutch,species,tank,spawned,hatched\nK1,blue,T1,2026-03-09T20:00,\nK2,blue,T2,2026-02-01,2026-02-04\n',
};

describe('calendar', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch(files)));
  afterEach(() => scratch.remove());

  const calendar = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['calendar', ...(argv.includes('--now') ? [] : ['--now', '2026-03-10T09:00']), ...argv]);
  const summaries = (text: string): readonly string[] => readCalendar(text).events.map(({ summary }) => summary);

  it('prints a file that the reference reader reads', async () => {
    const { code, out, err } = await calendar();
    deepStrictEqual({ code, err }, { code: 0, err: '' });
    const { name, events } = readCalendar(out);
    equal(name, 'Cellar');
    equal(events.filter(({ summary }) => summary === 'K1 T1: Hatched, gone, or not known?').length, 1);
    equal(events.filter(({ categories }) => categories.includes('Feed')).length, 61, 'today and sixty days more');
    deepStrictEqual(scratch.paths(), Object.keys(files).sort(), 'nothing is written');
  });

  it('may be of fewer days, one room, some kinds', async () => {
    deepStrictEqual([...new Set(summaries((await calendar('--days', '3', '--kind', 'hatch, feeding')).out))].sort(), ['Feed: 2 rounds, 1 tank', 'K1 T1: Hatched, gone, or not known?']);
    equal(summaries((await calendar('--room', 'back')).out).some((summary) => summary.includes('K1')), false);
    equal(summaries((await calendar('--days', '0', '--room', 'front', '--kind', 'feeding')).out).length, 0);
  });

  it('writes a file, and leaves it alone when nothing has changed', async () => {
    const first = await calendar('--out', 'phone.ics', '--days', '5');
    match(first.out, /^phone\.ics written: (\d+) events, of them \1 new and 0 changed; 0 called off\.\n$/);
    deepStrictEqual(scratch.paths(), [...Object.keys(files), 'phone.ics'].sort(), 'and no other');
    const text = scratch.text('phone.ics');
    const { ino } = statSync(scratch.at('phone.ics'));
    const again = await calendar('--out', 'phone.ics', '--days', '5', '--now', '2026-03-10T09:20');
    deepStrictEqual([again.code, again.out], [0, `phone.ics is as it should be: ${readCalendar(text).events.length} events.\n`]);
    equal(scratch.text('phone.ics'), text);
    equal(statSync(scratch.at('phone.ics')).ino, ino, 'not even replaced');
  });

  it('tells what changed and what is called off to a phone that takes the file in again', async () => {
    await calendar('--out', 'phone.ics', '--days', '5', '--kind', 'hatch,first-feed');
    chmodSync(scratch.at('phone.ics'), 0o640);
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned,hatched\nK1,blue,T1,2026-03-09T12:00,\n' });
    const moved = await calendar('--out', 'phone.ics', '--days', '5', '--kind', 'hatch,first-feed', '--now', '2026-03-10T10:00');
    match(moved.out, /^phone\.ics written: \d events, of them 0 new and \d changed; 0 called off\.\n$/);
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned,hatched\n' });
    match((await calendar('--out', 'phone.ics', '--days', '5', '--kind', 'hatch,first-feed', '--now', '2026-03-10T11:00')).out, /^phone\.ics written: 0 events, of them 0 new and 0 changed; [12] called off\.\n$/);
    const [hatch] = readCalendar(scratch.text('phone.ics')).events;
    deepStrictEqual([hatch?.sequence, hatch?.status, hatch?.stamp], [2, 'CANCELLED', '2026-03-10T10:00:00Z']);
    equal(statSync(scratch.at('phone.ics')).mode & 0o777, 0o640);
  });

  it('leaves alone what it did not write, whatever it is', async () => {
    for (const foreign of ['my notes\n', 'BEGIN:VCALENDAR\r\nPRODID:-//Other//EN\r\nEND:VCALENDAR\r\n', new Uint8Array([0xff, 0xfe, 0])]) {
      scratch.add({ 'mine.ics': foreign });
      const { code, out, err } = await calendar('--out', 'mine.ics');
      deepStrictEqual([code, out, err], [2, '', 'broodsheet: mine.ics is there already and was not written by Broodsheet for this, so it was left alone. Choose another name, or move it away first.\n']);
      equal(scratch.text('mine.ics'), Buffer.from(foreign).toString('utf8'));
    }
  });

  it('says why it can not write', async () => {
    match((await calendar('--out', 'no/such/folder.ics')).err, /^broodsheet: no\/such\/folder\.ics can not be written: it is not there\.\n$/);
    match((await calendar('--out', '.')).err, /^broodsheet: \. can not be read: /);
  });

  it('writes nothing while a sheet can not be read: its things would be called off', async () => {
    await calendar('--out', 'phone.ics');
    const before = scratch.text('phone.ics');
    rmSync(scratch.at('clutches.csv'));
    symlinkSync('gone.csv', scratch.at('clutches.csv'));
    deepStrictEqual(await calendar('--out', 'phone.ics'), { code: 2, out: '', err: 'broodsheet: clutches.csv can not be read: it is not there.\nbroodsheet: phone.ics was left alone: what can not be read might be called off in it.\n' });
    equal(scratch.text('phone.ics'), before);
  });

  it('writes nothing while a sheet is not what it should be either', async () => {
    await calendar('--out', 'phone.ics');
    const before = scratch.text('phone.ics');
    scratch.add({ 'clutches.csv': `<<<<<<< mine\n${scratch.text('clutches.csv')}` });
    deepStrictEqual(await calendar('--out', 'phone.ics'), {
      code: 2,
      out: '',
      err: "broodsheet: clutches.csv can't be read, so nothing of it is in this. check tells why.\nbroodsheet: phone.ics was left alone: what can not be read might be called off in it.\n",
    });
    equal(scratch.text('phone.ics'), before);
  });

  it('puts several fishrooms into one file, each with names of its own', async () => {
    scratch.add(Object.fromEntries(Object.entries(files).map(([path, text]) => [`more/${path}`, text])));
    const { events, name } = readCalendar((await calendar('--kind', 'hatch')).out);
    equal(name, 'Cellar + Cellar 2');
    deepStrictEqual(events.map(({ uid }) => uid).sort(), ['clutches/K1/hatch/0@Cellar', 'clutches/K1/hatch/0@Cellar%202']);
  });

  it('refuses kinds, rooms and formats that there are not', async () => {
    match((await calendar('--kind', 'hatch,feast')).err, /^broodsheet: --kind can not be "feast"\. Use some of these, with commas between them: hatch, first-feed, [^\n]*order\.\n$/);
    equal((await calendar('--room', 'attic')).code, 2);
    equal((await calendar('--format', 'json')).err, 'broodsheet: --format can not be "json". Use one of these: text.\n');
    equal((await runIn(scratch.path, ['check', '--out', 'x'])).err, 'broodsheet: check has no option --out.\n');
  });
});
