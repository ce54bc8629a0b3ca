import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { symlinkSync } from 'node:fs';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';

const room = {
  'fishroom.json': '{"timezone":"UTC"}',
  'tanks.csv': 'tank,room\nT1,front\nK2,front\n',
  'pairs.csv': 'pair,species,tank\nP1,kribensis,T1\n',
  'clutches.csv': 'clutch,pair,species,tank,spawned,note,age_days,stage\r\nK1,P1,,T1,2026-03-01,"two\r\nlines",,\r\n\r\nK2,P1,,T1,2026-03-08T18:00,,,\r\n',
  'clutches/K1.csv': 'time,event\n2026-03-03T09:00,hatched\n',
};

describe('explain', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch(room)));
  afterEach(() => scratch.remove());

  const explain = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['explain', ...argv]);
  const json = async (...argv: readonly string[]): Promise<Record<string, unknown>> => JSON.parse((await explain(...argv, '--format', 'json')).out) as Record<string, unknown>;
  const told = async (...argv: readonly string[]): Promise<string> => {
    const { code, out, err } = await explain(...argv);
    deepStrictEqual({ code, out }, { code: 2, out: '' });
    return err.replace(/^broodsheet: (.*)\n$/s, '$1');
  };

  it('gives all of an explanation as JSON', async () => {
    const { code, err, out } = await explain('K1', 'age_days', '--format', 'json', '--now', '2026-03-10T12:00');
    deepStrictEqual({ code, err }, { code: 0, err: '' });
    deepStrictEqual(JSON.parse(out), {
      now: '2026-03-10T12:00',
      folder: '.',
      file: 'clutches.csv',
      line: 2,
      header: 'age_days',
      value: '9',
      formula: 'Calendar days from the day of the spawn to today.',
      inputs: [{ name: 'spawned of K1', value: '2026-03-01', file: 'clutches.csv', line: 2, column: 11 }],
      constants: [],
      window: null,
      notes: [],
    });
  });

  it('gives windows and constants with their source', async () => {
    const { window, constants } = await json('P1', 'next_spawn_expected') as { window: object; constants: { name: string; unit: string; source: string }[] };
    deepStrictEqual(Object.keys(window), ['from', 'expected', 'to', 'observations']);
    const interval = constants.find(({ name }) => name === 'interval_d');
    equal(interval?.unit, 'd');
    match(interval.source, /^built-in species list/);
    equal('file' in interval, false);
  });

  it("gives the place of a constant out of the keeper's own species", async () => {
    scratch.add({ 'species.csv': 'species,like,care,interval_d\nkribensis,,cave,33\n' });
    const { constants } = await json('P1', 'next_spawn_expected') as { constants: { name: string; value: string; file?: string; line?: number }[] };
    const interval = constants.find(({ name }) => name === 'interval_d');
    deepStrictEqual([interval?.value, interval?.file, interval?.line], ['33', 'species.csv', 2]);
  });

  it('is text for people: what, where, how, from what', async () => {
    deepStrictEqual((await explain('K1', 'age_days')).out.split('\n'), [
      'age_days  9',
      'clutches.csv:2',
      '',
      'How     Calendar days from the day of the spawn to today.',
      'From    spawned of K1  2026-03-01  clutches.csv:2',
      '',
    ]);
    match((await explain('P1', 'next_spawn_expected')).out, /\nWindow  2026-\d\d-\d\d to 2026-\d\d-\d\d, most likely 2026-\d\d-\d\d\n/);
    match((await explain('K1', 'spawn_interval_days')).out, /^spawn_interval_days  empty: it can not be known\n/);
  });

  it('knows a row by any line that it spans', async () => {
    for (const line of [2, 3]) equal((await json(`clutches.csv:${line}`, 'age_days'))['line'], 2);
    equal((await json('clutches.csv:5', 'age_days'))['value'], '2');
  });

  it('knows a file from here and from its fishroom', async () => {
    const other = new Scratch({ 'sites/a/log.txt': '' });
    try {
      symlinkSync(scratch.path, other.at('sites/b'));
      const at = async (file: string, ...argv: readonly string[]): Promise<unknown> => {
        const { out } = await runIn(other.path, ['explain', `${file}:2`, 'stage', '--format', 'json', ...argv]);
        const { folder, file: found } = JSON.parse(out) as { folder: string; file: string };
        return [folder, found];
      };
      deepStrictEqual(await at('sites/b/clutches/K1.csv'), ['sites/b', 'clutches/K1.csv']);
      deepStrictEqual(await at('./sites/../sites/b/clutches.csv'), ['sites/b', 'clutches.csv']);
      deepStrictEqual(await at('clutches.csv'), ['sites/b', 'clutches.csv']);
      deepStrictEqual(await at('clutches.csv', '--in', 'sites/b'), ['sites/b', 'clutches.csv']);
      deepStrictEqual(await at(other.at('sites/b/clutches.csv')), ['sites/b', 'clutches.csv']);
    } finally {
      other.remove();
    }
  });

  it('tells columns apart that several things of one name have', async () => {
    equal((await json('K2', 'fish'))['file'], 'tanks.csv');
    equal((await json('K2', 'stage'))['file'], 'clutches.csv');
  });

  it('explains a column that the sheet does not have', async () => {
    equal((await json('T1', 'fish'))['file'], 'tanks.csv');
  });

  it('asks which row is meant where there are several', async () => {
    scratch.add({ 'annex/fishroom.json': '{}', 'annex/clutches.csv': room['clutches.csv'] });
    equal(await told('K2', 'stage'), 'Several rows could be meant. Say which: clutches.csv:5, annex/clutches.csv:5.');
    equal((await json('annex/clutches.csv:5', 'stage'))['folder'], 'annex');
    equal((await json('clutches.csv:5', 'stage'))['folder'], '.');
    equal((await json('K2', 'stage', '--in', 'annex'))['folder'], 'annex');
  });

  const refused: readonly (readonly [argv: readonly string[], told: string])[] = [
    [['K1'], 'Say which row and which column: explain K07-3 hatch_expected, or explain clutches.csv:12 hatch_expected.'],
    [['K1', 'stage', 'age_days'], 'Say which row and which column: explain K07-3 hatch_expected, or explain clutches.csv:12 hatch_expected.'],
    [['K11', 'stage'], 'Nothing here is called K11. Did you mean K1?'],
    [['elsewhere', 'stage'], 'Nothing here is called elsewhere.'],
    [['__proto__', 'stage'], 'Nothing here is called __proto__.'],
    [['K1', 'stag'], 'No computed column is called stag in clutches.csv. Did you mean stage?'],
    [['K1', 'colour'], 'No computed column is called colour in clutches.csv.'],
    [['P1', 'stage'], 'No computed column is called stage in pairs.csv.'],
    [['cluches.csv:2', 'stage'], 'There is no sheet cluches.csv here. Did you mean clutches.csv?'],
    [['fishroom.json:1', 'stage'], 'There is no sheet fishroom.json here.'],
    [['clutches.csv:1', 'stage'], 'Line 1 of clutches.csv is the header. Give the line of a row.'],
    [['clutches.csv:4', 'stage'], 'Line 4 of clutches.csv is empty. Give the line of a row.'],
    [['clutches.csv:6', 'stage'], 'clutches.csv has no line 6; it has 5 lines.'],
    [['clutches.csv:0', 'stage'], 'clutches.csv has no line 0; it has 5 lines.'],
  ];
  for (const [argv, err] of refused) it(`refuses ${argv.join(' ')}`, async () => equal(await told(...argv), err));

  it("tells a keeper's own column from a computed one", async () => {
    match(await told('K1', 'spawned'), /^spawned in clutches\.csv is written by you, so there is nothing to explain\. Computed columns are: age_days, stage, /);
  });

  it('refuses a row of which too little can be read, and a file of which nothing can', async () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,never\n', 'log.csv': 'time,clutch,event\n"2026' });
    equal(await told('clutches.csv:2', 'stage'), 'Too little can be read in line 2 of clutches.csv to say anything about stage. check tells why.');
    equal(await told('log.csv:2', 'stage'), 'Nothing in log.csv can be read. check tells why.');
  });
});
