import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';

const files = {
  'fishroom.json': '{"timezone":"Europe/Berlin"}',
  'species.csv': 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,release_d,juvenile_d,sale_d,interval_d\ncaver,cave,26,72,144,240,,40,100,35\nholder,mouthbrooder,26,,,,21,30,90,\n',
  'rooms.csv': 'room\nupper\nlower\n',
  'tanks.csv': 'tank,room\nT1,lower\nT2,upper\nT3,upper\n',
  'pairs.csv': 'pair,species,tank\nP1,caver,T2\n',
  // The first is long gone and nobody said so; the second was laid last night; the third is held in the mouth; the fourth hatched and may have been fed.
  'clutches.csv': 'clutch,pair,species,tank,spawned,hatched\nK1,,caver,T2,2026-03-01T10:00,\nK2,P1,,T2,2026-03-09T20:00,\nK3,,holder,T3,2026-03-01,\nK4,,caver,T1,2026-03-01T10:00,2026-03-04T09:00\n',
};

describe('ahead', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch(files)));
  afterEach(() => scratch.remove());

  const ahead = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['ahead', ...(argv.includes('--now') ? [] : ['--now', '2026-03-10T07:00']), ...argv]);
  const entries = async (...argv: readonly string[]): Promise<readonly Record<string, unknown>[]> => (JSON.parse((await ahead('--format', 'json', ...argv)).out) as { ahead: Record<string, unknown>[] }).ahead;

  it('tells hatches, releases, first feeds and next spawns with their windows, and nothing of a brood that nobody answered for', async () => {
    const { code, out, err } = await ahead();
    deepStrictEqual({ code, err }, { code: 0, err: '' });
    deepStrictEqual(out.split('\n'), [
      'Hatches',
      '  Thursday, 2026-03-12 20:00  T2  K2  caver  8 in 10 between 2026-03-12 06:37 and 2026-03-13 12:27',
      '',
      'Releases',
      '  Sunday, 2026-03-22 12:00  T3  K3  holder  8 in 10 between 2026-03-19 04:36 and 2026-03-26 10:14',
      '',
      'First feeds',
      '  Wednesday, 2026-03-11 02:31  T1  K4  caver   8 in 10 between 2026-03-10 10:25 and 2026-03-12 21:03',
      '  Wednesday, 2026-03-18 20:00  T2  K2  caver   8 in 10 between 2026-03-17 11:21 and 2026-03-20 14:13',
      '  Sunday, 2026-03-22 12:00     T3  K3  holder  8 in 10 between 2026-03-19 04:36 and 2026-03-26 10:14',
      '',
      'Next spawns',
      '  Monday, 2026-04-13  T2  P1  caver  8 in 10 between 2026-03-29 and 2026-05-09',
      '',
    ]);
  });

  it('says which sheets nothing is told of, since they can not be read', async () => {
    scratch.add({ 'clutches.csv': files['clutches.csv'].replace('K1,', 'K1,"'), 'clutches/K9.csv': '>>>>>>> theirs\n' });
    for (const verb of [['ahead'], ['due'], ['due', '--format', 'html'], ['skill', '--format', 'json'], ['calendar']]) {
      const { code, err } = await runIn(scratch.path, [...verb, '--now', '2026-03-10T07:00']);
      deepStrictEqual([verb, code, err], [verb, 0, ['clutches.csv', 'clutches/K9.csv'].map((path) => `broodsheet: ${path} can't be read, so nothing of it is in this. check tells why.\n`).join('')]);
    }
  });

  it('gives all of each entry as JSON', async () => {
    const [first] = await entries('--days', '1', '--room', 'upper');
    equal(first, undefined);
    const [hatch] = await entries('--days', '2', '--room', 'upper');
    deepStrictEqual(hatch, {
      kind: 'hatch', room: 'upper', tank: 'T2', pair: 'P1', clutch: 'K2', species: 'caver',
      expected: '2026-03-12T20:00', from: '2026-03-12T06:37', to: '2026-03-13T12:27', observations: 0, file: 'clutches.csv', line: 3,
    });
  });

  it('says nothing of a first feed once the fry were fed, counted or swim, or its window is over', async () => {
    const fed = async (): Promise<readonly unknown[]> => (await entries('--room', 'lower')).map(({ kind }) => kind);
    deepStrictEqual(await fed(), ['first-feed']);
    for (const event of ['first_feed', 'fed', 'counted']) {
      scratch.add({ 'clutches/K4.csv': `time,event,count\n2026-03-10T05:00,${event},${event === 'counted' ? 50 : ''}\n` });
      deepStrictEqual(await fed(), [], event);
    }
    scratch.add({ 'clutches/K4.csv': 'time,event\n2026-03-07,checked\n' });
    deepStrictEqual(await fed(), ['first-feed']);
    deepStrictEqual(await entries('--room', 'lower', '--now', '2026-03-13T07:00'), []);
  });

  it('tells brine shrimp week by week, and day by day with how much salt and the caution as JSON', async () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned,hatched,free_swimming,eggs\nK4,caver,T1,2026-03-01T10:00,2026-03-04T09:00,2026-03-09,400\n' });
    const { out } = await ahead('--days', '9');
    match(out, /Brine shrimp\n {2}2026-03-10 to 2026-03-16 {2}\d\.\d g of cysts {2}at most 0\.2 g a day\n {2}2026-03-17 to 2026-03-23 {2}/);
    const { food, caution } = JSON.parse((await ahead('--format', 'json', '--days', '9')).out) as { food: { day: string; grams: number; salt_g: number; clutches: string[] }[]; caution: string };
    // 400 fry that swim, a hundred nauplii each, 200,000 from a gram.
    deepStrictEqual(food.filter(({ day }) => day === '2026-03-14').map(({ grams, clutches }) => [grams, clutches]), [[0.2, ['K4']]]);
    match(caution, /veterinarian come first/);
    deepStrictEqual((JSON.parse((await ahead('--format', 'json', '--room', 'lower')).out) as { food: unknown[] }).food, []);
  });

  it('says so when nothing is to be expected, and what it does not know', async () => {
    match((await ahead('--room', 'lower', '--days', '3', '--now', '2026-04-10T07:00')).out, /^Nothing is to be expected until 2026-04-13\.\n/);
    deepStrictEqual(await ahead('--room', 'attic'), { code: 2, out: '', err: 'broodsheet: There is no room attic here. The rooms are: upper, lower.\n' });
  });
});
