import { deepStrictEqual, equal, match } from 'node:assert/strict';
import { symlinkSync } from 'node:fs';
import { runIn, Scratch } from '../../../support/commandLine';
import type { Ran } from '../../../support/commandLine';

const clean = 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-03-09\n';
const config = '{"timezone":"Europe/Berlin"}';

describe('check', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch({ 'fishroom.json': config })));
  afterEach(() => scratch.remove());

  const check = (...argv: readonly string[]): Promise<Ran> => runIn(scratch.path, ['check', ...argv]);

  it('says so when nothing is wrong', async () => {
    scratch.add({ 'clutches.csv': clean });
    deepStrictEqual(await check(), { code: 0, out: 'Nothing is wrong in 1 file.\n', err: '' });
    deepStrictEqual(await check('--format', 'json'), { code: 0, out: '{"now":"2026-03-10T13:00","fishrooms":[\n{"folder":".","problems":[\n]}\n]}\n', err: '' });
  });

  it('gives all of a problem as JSON', async () => {
    scratch.add({
      'rooms/a/fishroom.json': config,
      'rooms/a/tanks.csv': 'tank,room\nT1,front\nT1,front\n',
      'rooms/b/fishroom.json': config,
      'rooms/b/clutches.csv': '\ufeffclutch;species;tank;spawned;colr\r\nK1;kribensis;T1;03/04/2026;\r\n',
    });
    const { code, out, err } = await check('rooms', '--format', 'json', '--now', '2026-03-10 13:05:40');
    deepStrictEqual({ code, err }, { code: 1, err: '' });
    deepStrictEqual(JSON.parse(out), {
      now: '2026-03-10T13:06',
      fishrooms: [
        {
          folder: 'rooms/a',
          problems: [
            {
              file: 'tanks.csv', line: 3, column: 1, endLine: 3, endColumn: 3, severity: 'error', code: 'id-duplicate', message: 'T1 is already taken by a row above.',
              related: [{ file: 'tanks.csv', line: 2, message: 'The first row with this name' }],
              fixes: [],
            },
          ],
        },
        {
          folder: 'rooms/b',
          problems: [
            {
              file: 'clutches.csv', line: 1, column: 29, endLine: 1, endColumn: 33, severity: 'information', code: 'header-unknown',
              message: 'No column is called colr. It is kept as it is; list it under extra_columns in fishroom.json if it is your own.',
              related: [],
              fixes: [],
            },
            {
              file: 'clutches.csv', line: 2, column: 17, endLine: 2, endColumn: 27, severity: 'error', code: 'value-type',
              message: '"03/04/2026" leaves open which number is the day and which the month. Write year-month-day.',
              related: [],
              fixes: ['3 April: change to 2026-04-03', '4 March: change to 2026-03-04'],
            },
          ],
        },
      ],
    });
  });

  it('is text for people: by file, aligned, related places below, counted at the end', async () => {
    scratch.add({ 'tanks.csv': 'tank,room,glas\nT1,front,\nT1,front,\n', 'rooms.csv': 'room\nfront\n1 2\n' });
    const { code, out, err } = await check();
    deepStrictEqual({ code, err }, { code: 1, err: '' });
    deepStrictEqual(out.split('\n'), [
      'rooms.csv',
      '  3:1  error  value-pattern  "1 2" can not be a name here. Use letters, digits, points, _ and - without blanks; begin with a letter or a digit, and do not end with a point.',
      '',
      'tanks.csv',
      '  1:11  information  header-unknown  No column is called glas. It is kept as it is; list it under extra_columns in fishroom.json if it is your own.',
      '  3:1   error        id-duplicate    T1 is already taken by a row above.',
      '                                     The first row with this name  tanks.csv:2',
      '',
      '2 errors, 1 piece of information, in 2 files.',
      '',
    ]);
  });

  it('shows a severity and worse, and counts the others', async () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned,age_days,glas\nK1,kribensis,T1,2026-03-09,,\n' });
    const shown = async (...argv: readonly string[]): Promise<readonly string[]> => {
      const { out } = await check('--format', 'json', ...argv);
      return (JSON.parse(out) as { fishrooms: { problems: { code: string }[] }[] }).fishrooms.flatMap(({ problems }) => problems.map(({ code }) => code));
    };
    deepStrictEqual(await shown(), ['computed-stale', 'header-unknown']);
    deepStrictEqual(await shown('--severity', 'hint'), ['computed-stale', 'header-unknown']);
    deepStrictEqual(await shown('--severity', 'information'), ['header-unknown']);
    deepStrictEqual(await shown('--severity', 'warning'), []);
    match((await check()).out, /\n\n1 piece of information, in 1 file\. Not shown: 1 hint; --severity hint shows them too\.\n$/);
    equal((await check('--severity', 'error')).out, 'Nothing to show in 1 file. Not shown: 1 piece of information, 1 hint; --severity hint shows them too.\n');
  });

  it('exits with 1 for errors alone, whatever is shown', async () => {
    scratch.add({ 'clutches.csv': `${clean}K1,kribensis,T1,2026-03-09\n` });
    for (const severity of ['error', 'hint']) equal((await check('--severity', severity)).code, 1);
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned,glas\nK1,kribensis,T1,2026-03-09,\n' });
    for (const severity of ['error', 'hint']) equal((await check('--severity', severity)).code, 0);
  });

  it('exits with 2 when a file can not be read, and checks the rest', async () => {
    scratch.add({ 'clutches.csv': `${clean}K1,kribensis,T1,2026-03-09\n` });
    symlinkSync('gone.csv', scratch.at('tanks.csv'));
    const { code, out, err } = await check();
    deepStrictEqual({ code, err }, { code: 2, err: 'broodsheet: tanks.csv can not be read: it is not there.\n' });
    match(out, /id-duplicate/);
  });

  it("says whose clock it reads when the fishroom names none", async () => {
    scratch.add({ 'fishroom.json': '{}', 'clutches.csv': clean });
    const { out } = await runIn(scratch.path, ['check'], { zone: 'Asia/Tokyo' });
    equal(out, `Nothing is wrong in 1 file.\n\nTimes are read on this machine's clock (Asia/Tokyo). To fix that, set timezone in fishroom.json, for instance "timezone": "Asia/Tokyo".\n`);
  });

  it('places what is wrong with fishroom.json', async () => {
    const told = async (config: string): Promise<readonly string[]> => {
      scratch.add({ 'fishroom.json': config, 'clutches.csv': clean });
      const { out } = await check('--format', 'json');
      const [room] = (JSON.parse(out) as { fishrooms: { problems: { file: string; code: string; line: number; column: number; endColumn: number; message: string }[] }[] }).fishrooms;
      return (room?.problems ?? []).map(({ file, code, line, column, endColumn, message }) => `${file}:${line}:${column}-${endColumn} ${code} ${message}`);
    };
    const unused = 'so no setting of this file is used.';
    deepStrictEqual(await told('{"timezone":'), [`fishroom.json:1:12-13 value-type A name or a value in quotation marks is missing here, or there is a comma too many, ${unused}`]);
    deepStrictEqual(await told('{\n  "name": "Cellar"\n  "currency": "EUR"\n}\n'), [`fishroom.json:3:3-13 value-type A comma is missing before this, ${unused}`]);
    deepStrictEqual(await told('{\n  "name": "Cellar",\n}\n'), [`fishroom.json:3:1-2 value-type A name or a value in quotation marks is missing here, or there is a comma too many, ${unused}`]);
    deepStrictEqual(await told('{"name": "Cellar"'), [`fishroom.json:1:17-18 value-type The closing } is missing, ${unused}`]);
    deepStrictEqual(await told('{"rounds": ["08:00"'), [`fishroom.json:1:19-20 value-type The closing ] is missing, ${unused}`]);
    deepStrictEqual(await told('\ufeff{"name": "Cellar}'), [`fishroom.json:1:10-18 value-type This quotation mark is never closed, ${unused}`]);
    deepStrictEqual(await told('{"name" "Cellar"}'), [`fishroom.json:1:9-17 value-type A colon is missing between a name and its value, ${unused}`]);
    deepStrictEqual(await told('{ // mine\n"name": "Cellar"}'), [`fishroom.json:1:3-10 value-type JSON knows no comments, ${unused} Take this one out.`]);
    deepStrictEqual(await told('[]'), [`fishroom.json:1:1-3 value-type This should be settings in curly brackets, such as {"name": "Cellar"}, ${unused}`]);
    deepStrictEqual(await told('{"name": 7,\n "rounds": "08:00",\n "extra_columns": ["rack", 2]}'), [
      `fishroom.json:1:10-11 value-type name should be a text in quotation marks, ${unused}`,
      `fishroom.json:2:12-19 value-type rounds should be a list of texts in square brackets, such as ["one", "two"], ${unused}`,
      `fishroom.json:3:28-29 value-type Each entry of extra_columns should be a text in quotation marks, ${unused}`,
    ]);
    deepStrictEqual(await told('{"limits": {"nh3_mg_l": "0.03"}}'), [`fishroom.json:1:25-31 value-type nh3_mg_l should be a number without quotation marks, such as 40, ${unused}`]);
    deepStrictEqual(await told('{"limits": 40}'), [`fishroom.json:1:12-14 value-type limits should be settings in curly brackets, such as {"no3_mg_l": 40}, ${unused}`]);
    deepStrictEqual(await told('\ufeff{"rounds": ["8:00", "8 Uhr", "25:00", "23:59"], "timezone": "Europe/Berln"}'), [
      'fishroom.json:1:21-28 value-type "8 Uhr" is no time of day, so this round is left out. Write hours and minutes: 08:00.',
      'fishroom.json:1:30-37 value-type "25:00" is no time of day, so this round is left out. Write hours and minutes: 08:00.',
      'fishroom.json:1:61-75 value-type There is no time zone Europe/Berln. Write an IANA name such as Europe/Berlin.',
    ]);
    deepStrictEqual((await told(`{"extra_columns": ${'['.repeat(50_000)}`)).map((one) => one.split(' ')[0]), ['fishroom.json:1:1-1']);
    deepStrictEqual(await told('{"$schema": "x", "rounds": ["08:00"], "timezone": "Europe/Berlin", "note": {}}'), []);
  });

  it('is the same twice', async () => {
    scratch.add({ 'clutches.csv': `${clean}K1,x,T1,never\n`, 'tanks.csv': 'tank,room\nT1,\n' });
    deepStrictEqual(await check('--format', 'json'), await check('--format', 'json'));
    deepStrictEqual(await check(), await check());
  });

  it('lets nothing out of records and names of files steer the terminal', async () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,"\u001b]0;x\u0007\n2026"\n', 'clutches/\u001b[2J.csv': 'time,event\n' });
    const { out } = await runIn(scratch.path, ['check'], { isTerminal: true, env: { NO_COLOR: '1' } });
    match(out, /value-type.*2026"/);
    match(out, /\nclutches\/\\u001b\[2J\.csv\n/);
    equal(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/.test(out), false);
  });

  it('colours for a terminal', async () => {
    scratch.add({ 'clutches.csv': `${clean}K1,kribensis,T1,2026-03-09\n` });
    match((await runIn(scratch.path, ['check'], { isTerminal: true })).out, /\u001b\[31merror\u001b\[39m/);
    equal((await check()).out.includes('\u001b'), false);
  });
});
