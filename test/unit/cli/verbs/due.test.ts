import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';

const config = '{"timezone":"Europe/Berlin","rounds":["19:00","08:00"]}';
const files = {
  'fishroom.json': config,
  'species.csv': 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,interval_d,feeds_per_day\ncaver,cave,26,72,144,240,40,100,35,2\nseldom,cave,26,72,144,240,40,100,35,1\n',
  'rooms.csv': 'room\nupper\nlower\n',
  'tanks.csv': 'tank,room,position\nT1,lower,1\nT2,upper,2\nT10,upper,1\n',
  // The first is long gone, the second swims, the third was laid last night, the fourth is fed once a day.
  'clutches.csv': '\ufeffclutch,species,tank,spawned,hatched,free_swimming\nK1,caver,T2,2026-03-01T10:00,,\nK2,caver,T1,2026-02-01,2026-02-04,2026-02-14\nK3,caver,T10,2026-03-09T20:00,,\nK4,seldom,T10,2026-02-01,2026-02-04,2026-02-14\n',
};

describe('due', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch(files)));
  afterEach(() => scratch.remove());

  const due = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['due', ...(argv.includes('--now') ? [] : ['--now', '2026-03-10T09:00']), ...argv]);
  const entries = async (...argv: readonly string[]): Promise<readonly Record<string, unknown>[]> => (JSON.parse((await due('--format', 'json', ...argv)).out) as { due: Record<string, unknown>[] }).due;

  it('tells what is overdue, then day by day and room by room, the feeding as rounds', async () => {
    const { code, out, err } = await due('--days', '2');
    deepStrictEqual({ code, err }, { code: 0, err: '' });
    deepStrictEqual(out.split('\n'), [
      'Overdue: 1',
      '  upper',
      '      T2  K1  Hatched, gone, or not known?  since 2026-03-04 10:00',
      '',
      'Today, Tuesday, 2026-03-10',
      '  upper',
      '    08:00           Feed: 1 tank, T10',
      "    20:00  T10  K3  Look at the eggs: fungus, missing ones; don't disturb",
      '           T10  K4  Count the fry                                          since 2026-02-28',
      '  lower',
      '    08:00           Feed: 1 tank, T1',
      '    19:00           Feed: 1 tank, T1',
      '           T1   K2  Count the fry                                          since 2026-02-28',
      '',
      'Tomorrow, Wednesday, 2026-03-11',
      '  upper',
      '    08:00           Feed: 1 tank, T10',
      "    20:00  T10  K3  Look at the eggs: fungus, missing ones; don't disturb",
      '  lower',
      '    08:00           Feed: 1 tank, T1',
      '    19:00           Feed: 1 tank, T1',
      '',
      'Thursday, 2026-03-12',
      '  upper',
      '    08:00           Feed: 1 tank, T10',
      '    20:00  T10  K3  Hatched, gone, or not known?  between 2026-03-12 06:37 and 2026-03-13 12:27',
      '  lower',
      '    08:00           Feed: 1 tank, T1',
      '    19:00           Feed: 1 tank, T1',
      '',
    ]);
  });

  it('leaves out the rounds of today that are over', async () => {
    const feeding = async (now: string): Promise<readonly string[]> => (await due('--days', '0', '--now', now)).out.split('\n').flatMap((line) => /^ +(\d\d:\d\d) +Feed: (.*)$/.exec(line)?.slice(1).join(' ') ?? []);
    deepStrictEqual(await feeding('2026-03-10T07:00'), ['08:00 1 tank, T10', '08:00 1 tank, T1', '19:00 1 tank, T1']);
    deepStrictEqual(await feeding('2026-03-10T18:59'), ['08:00 1 tank, T10', '08:00 1 tank, T1', '19:00 1 tank, T1']);
    deepStrictEqual(await feeding('2026-03-10T19:00'), ['19:00 1 tank, T1']);
  });

  it('feeds by the day where the fishroom names no rounds', async () => {
    scratch.add({ 'fishroom.json': '{"timezone":"Europe/Berlin"}' });
    match((await due('--days', '0')).out, /\n {2}lower\n {20}Feed: 1 tank, T1\n/);
  });

  it('gives all of each entry as JSON, what is overdue first', async () => {
    const all = await entries('--days', '0', '--room', 'upper');
    deepStrictEqual(all[0], {
      room: 'upper', tank: 'T2', pair: '', clutch: 'K1', routine: 'hatch', action: 'Hatched, gone, or not known?', level: 'warn',
      due: '2026-03-04T10:00', from: '2026-03-03T20:37', to: '2026-03-05T02:27', state: 'overdue', file: 'clutches.csv', line: 2,
    });
    deepStrictEqual(all.map(({ clutch, routine, state, line }) => [clutch, routine, state, line]), [
      ['K1', 'hatch', 'overdue', 2],
      ['K4', 'count', 'due', 5],
      ['K4', 'feed', 'due', 5],
      ['K4', 'feed', 'upcoming', 5],
      ['K3', 'look-at-eggs', 'upcoming', 4],
    ]);
  });

  it('looks seven days ahead unless told otherwise', async () => {
    const last = async (...argv: readonly string[]): Promise<unknown> => (await entries(...argv)).at(-1)?.['due'];
    deepStrictEqual([await last(), await last('--days', '3')], ['2026-03-17T12:00', '2026-03-13T12:00']);
  });

  it('names files by their fishroom where there are several', async () => {
    scratch.add({ 'more/fishroom.json': config, 'more/clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-03-01T10:00\n' });
    const all = await entries('--days', '0');
    deepStrictEqual([...new Set(all.map(({ file }) => file))].sort(), ['clutches.csv', 'more/clutches.csv']);
    match((await due('--days', '0')).out, /^\.\n\nOverdue: 1\n[^]*\nmore\n\nOverdue: 1\n {6}T1 {2}K1/);
  });

  it('says so when nothing is due', async () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\n' });
    deepStrictEqual(await due(), { code: 0, out: 'Nothing is due until 2026-03-17.\n', err: '' });
  });

  it('refuses a room that is not there, and no number of days', async () => {
    deepStrictEqual(await due('--room', 'attic'), { code: 2, out: '', err: 'broodsheet: There is no room attic here. The rooms are: upper, lower.\n' });
    equal((await due('--days', 'many')).err, 'broodsheet: --days can not be "many". Write a whole number from 0 to 3660.\n');
    equal((await due('--days', '-1')).code, 2);
  });
});
