import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';
import { readPage, tagsIn } from '../../../support/pages';

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

  it('tells of fish to feed whose tank is not known by the name of their brood', async () => {
    const homeless = new Scratch({ ...files, 'clutches.csv': 'clutch,species,tank,spawned,hatched,free_swimming\nK5,caver,,2026-02-01,2026-02-04,2026-02-14\nK2,caver,T1,2026-02-01,2026-02-04,2026-02-14\n' });
    const { out } = await runIn(homeless.path, ['due', '--days', '0', '--now', '2026-03-10T09:00']);
    homeless.remove();
    deepStrictEqual(out.split('\n').filter((line) => line.includes('Feed')).map((line) => line.trim().replaceAll(/ {2,}/g, ' ')), ['08:00 Feed: 1 tank, T1', '19:00 Feed: 1 tank, T1', '08:00 Feed: 1 tank, K5', '19:00 Feed: 1 tank, K5']);
  });

  it('tells what must be ready for the earliest without a window, as if there were time to spare', async () => {
    const eager = new Scratch({ ...files, 'clutches.csv': 'clutch,species,tank,spawned,hatched\nK5,caver,T1,2026-03-04T10:00,2026-03-07T10:00\n' });
    const { out } = await runIn(eager.path, ['due', '--days', '14', '--now', '2026-03-08T09:00']);
    eager.remove();
    const lines = out.split('\n').filter((line) => line.includes('K5'));
    equal(lines.filter((line) => line.includes('Start brine shrimp')).length, 1);
    deepStrictEqual(lines.filter((line) => line.includes('between')).map((line) => /K5 {2}(\w+ \w+)/.exec(line)?.[1]), ['First feed', 'Swimming free']);
  });

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

  describe('of brine shrimp', () => {
    const line = '  Brine shrimp: start 0.1 g in 0.5 litres (13 g salt) by Tuesday 20:00 for Thursday: K4; not counted, so left out: K2';
    const caution = /\n\nBrine shrimp hatch best at 25 to 28 °C [^\n]* the label, local law and your veterinarian come first\. Salt water conducts: [^\n]*residual-current device\.\n$/;
    const foodOf = async (...argv: readonly string[]): Promise<{ readonly food: readonly Record<string, unknown>[]; readonly caution?: string }> => JSON.parse((await due('--format', 'json', ...argv)).out) as { food: Record<string, unknown>[]; caution?: string };
    beforeEach(() => scratch.add({ 'log.csv': 'clutch,time,event,count\nK4,2026-02-28,counted,90\n' }));

    it('gives one line a day with what to start, and once how to be careful', async () => {
      const { out } = await due('--days', '1');
      deepStrictEqual(out.split('\n').filter((each) => each.includes('salt)')), [line, line.replace('Tuesday', 'Wednesday').replace('Thursday', 'Friday')]);
      match(out, /\nToday, Tuesday, 2026-03-10\n {2}Brine shrimp: /);
      match(out, caution);
    });

    it('gives it as JSON beside what is due', async () => {
      const told = await foodOf('--days', '0');
      deepStrictEqual(told.food, [{ folder: '.', day: '2026-03-12', start: '2026-03-10T20:00', ready: '2026-03-12T08:00', grams: 0.045, vessel_l: 0.5, salt_g: 12.5, fry: 90, clutches: ['K4'], uncounted: ['K2'], covered_by: [] }]);
      match(told.caution ?? '', /veterinarian/);
      deepStrictEqual(await foodOf('--days', '0', '--room', 'upper').then(({ food }) => food), [], 'the plan is for all rooms together');
    });

    it('is silent for a day for which a hatch is running, and says which in JSON', async () => {
      scratch.add({ 'cultures.csv': 'culture,food,started,grams\nBS-1,brine_shrimp,2026-03-10T08:00,0.2\n' });
      const { out } = await due('--days', '1');
      deepStrictEqual(out.split('\n').filter((each) => each.includes('salt)')), [line.replace('Tuesday', 'Wednesday').replace('Thursday', 'Friday')]);
      deepStrictEqual((await foodOf('--days', '1')).food.map(({ day, covered_by }) => [day, covered_by]), [['2026-03-12', ['BS-1']], ['2026-03-13', []]]);
    });

    it('says nothing of amounts that nobody can know, nor of care for what it does not say', async () => {
      scratch.add({ 'log.csv': 'clutch,time,event\n' });
      equal(/salt|shrimp/.test((await due('--days', '1')).out), false);
      deepStrictEqual((await foodOf('--days', '0')).food.map(({ grams, vessel_l, salt_g, fry, uncounted }) => [grams, vessel_l, salt_g, fry, uncounted]), [[null, null, null, null, ['K2', 'K4']]]);
    });

    it('counts more than three broods instead of naming them', async () => {
      const rows = ['A1', 'A2', 'A3'].map((id) => `${id},guppy,T1,2026-03-01,,\n`).join('');
      scratch.add({ 'clutches.csv': `${files['clutches.csv']}${rows}`, 'log.csv': 'clutch,time,event,count\nK4,2026-02-28,counted,90\nA1,2026-03-02,counted,9\nA2,2026-03-02,counted,9\nA3,2026-03-02,counted,9\n' });
      match((await due('--days', '0')).out, / for Thursday: 4 broods; not counted, so left out: K2\n/);
    });

    it('leaves out the reminder to start them for a first feed whose day is planned or has its hatch, and keeps the others', async () => {
      // Hatched on 6 March, the yolk is gone on the 12th; its window begins on the 11th.
      const reminded = async (now: string, cultures = ''): Promise<boolean> => {
        scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned,hatched\nK5,caver,T1,2026-03-03,2026-03-06T10:00\n', 'log.csv': 'clutch,time,event,count\nK5,2026-03-07,counted,100\n', 'cultures.csv': `culture,food,started,grams\n${cultures}` });
        return (await due('--days', '1', '--now', now)).out.includes('Start brine shrimp for the first feed');
      };
      equal(await reminded('2026-03-09T12:00'), true, 'on the first day of its window the plan does not count it yet');
      equal(await reminded('2026-03-09T12:00', 'BS,brine_shrimp,2026-03-09T10:00,1\n'), false);
      deepStrictEqual((await entries('--days', '1', '--now', '2026-03-09T12:00')).map(({ routine }) => routine).includes('shrimp'), true, 'programs are told all');
      // Fed half a day after the hatch: the window is within one day, and the line of that day counts the brood.
      scratch.add({ 'species.csv': 'species,care,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d\nhasty,mop,72,12,12,40,100\n', 'log.csv': 'clutch,time,event,count\n', 'clutches.csv': 'clutch,species,tank,spawned,eggs\nK6,hasty,T1,2026-03-09T20:00,100\n' });
      const both = (await due('--days', '0', '--now', '2026-03-11T09:00')).out.split('\n').filter((each) => each.includes('rine shrimp:') || each.includes('for the first feed'));
      deepStrictEqual(both, ['  Brine shrimp: start 0.1 g in 0.5 litres (13 g salt) by Wednesday 20:00 for Friday: K6']);
      scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\nK6,hasty,T1,2026-03-09T20:00\n' });
      equal((await due('--days', '0', '--now', '2026-03-11T09:00')).out.includes('Start brine shrimp for the first feed'), true, 'not counted, so there is no line');
    });
  });

  it('lists cultures to feed from and to set up anew', async () => {
    scratch.add({ 'cultures.csv': 'culture,food,started,renew_every\nMW-1,microworm,2026-02-20,P18D\n' });
    match((await due('--days', '0')).out, /\n {2}Cultures\n {6,} +MW-1 +Set the culture up anew/);
    const entry = (await entries('--days', '0')).find(({ routine }) => routine === 'renew-culture');
    deepStrictEqual(entry, { room: '', tank: '', pair: '', clutch: '', routine: 'renew-culture', action: 'Set the culture up anew', level: 'remind', due: '2026-03-10', from: '2026-03-10', to: '2026-03-10', state: 'due', file: 'cultures.csv', line: 2 });
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

  describe('as a page to print', () => {
    const pagesOf = (page: string): readonly string[] => tagsIn(readPage(page), 'section').map((section) => tagsIn(section, 'h1')[0]?.text ?? '');

    it('is of today unless told otherwise, a page for each room', async () => {
      const { code, out, err } = await due('--format', 'html');
      deepStrictEqual({ code, err }, { code: 0, err: '' });
      deepStrictEqual(pagesOf(out), ['upper', 'lower']);
      deepStrictEqual(pagesOf((await due('--format', 'html', '--days', '3', '--room', 'lower')).out), ['For whoever minds the room', 'lower']);
    });

    it('is written where the command line says, over one written before and nothing else', async () => {
      deepStrictEqual(await due('--format', 'html', '--out', 'today.html'), { code: 0, out: 'today.html written.\n', err: '' });
      deepStrictEqual(scratch.text('today.html'), (await due('--format', 'html')).out);
      deepStrictEqual(await due('--format', 'html', '--out', 'today.html'), { code: 0, out: 'today.html is as it should be.\n', err: '' });
      equal((await due('--format', 'html', '--out', 'today.html', '--room', 'lower')).code, 0);
      deepStrictEqual(pagesOf(scratch.text('today.html')), ['lower']);
      scratch.add({ 'mine.html': '<p>mine</p>' });
      deepStrictEqual(await due('--format', 'html', '--out', 'mine.html'), { code: 2, out: '', err: 'broodsheet: mine.html is there already and was not written by Broodsheet for this, so it was left alone. Choose another name, or move it away first.\n' });
      equal(scratch.text('mine.html'), '<p>mine</p>');
    });

    it('is refused for other verbs, and --out for other formats', async () => {
      equal((await due('--out', 'x.txt')).err, 'broodsheet: --out is for --format html.\n');
      equal((await runIn(scratch.path, ['ahead', '--format', 'html'])).err, 'broodsheet: --format can not be "html". Use one of these: text, json.\n');
      equal((await due('--format', 'html', '--room', 'attic')).code, 2);
    });
  });
});
