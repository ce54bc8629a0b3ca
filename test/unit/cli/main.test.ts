import { deepStrictEqual, equal, match } from 'node:assert/strict';
import manifest from '../../../package.json';
import { runIn, Scratch } from '../../support/commandLine';

describe('broodsheet', () => {
  let scratch: Scratch;
  beforeEach(() => (scratch = new Scratch({ 'fishroom.json': '{"timezone":"UTC"}' })));
  afterEach(() => scratch.remove());

  it('tells its version', async () => {
    deepStrictEqual(await runIn(scratch.path, ['--version']), { code: 0, out: `${manifest.version}\n`, err: '' });
  });

  for (const argv of [['--help'], ['-h'], ['check', '--help'], ['fill', '-h'], ['explain', '--help'], ['due', '--help'], ['calendar', '--help']]) {
    it(`tells how it is used: ${argv.join(' ')}`, async () => {
      const { code, out, err } = await runIn(scratch.path, argv);
      deepStrictEqual({ code, err }, { code: 0, err: '' });
      match(out, argv.length > 1 ? new RegExp(`^broodsheet ${argv[0]} `) : /^Broodsheet .*\n\nUse:\n/);
      for (const line of out.split('\n')) equal(line.length <= 120, true, line);
    });
  }

  const wrong: readonly (readonly [argv: readonly string[], err: string])[] = [
    [[], 'Say what to do: due, ahead, calendar, check, fill, explain, kin or skill. broodsheet --help tells more.'],
    [['chek'], 'There is no command chek. Did you mean check?'],
    [['paint'], 'There is no command paint. Use due, ahead, calendar, check, fill, explain, kin or skill; broodsheet --help tells more.'],
    [['check', '--colour'], 'There is no option --colour.'],
    [['check', '--write'], 'check has no option --write.'],
    [['fill', '--severity', 'error'], 'fill has no option --severity.'],
    [['fill', '--in', '.'], 'fill has no option --in.'],
    [['explain', 'K1', 'stage', '--write'], 'explain has no option --write.'],
    [['check', '--now', 'yesterday'], '"yesterday" is no moment for --now. Write year-month-day, and the time if you like: 2026-03-04 or 2026-03-04T19:30.'],
    [['check', '--now', '~2026-03-04'], '"~2026-03-04" is no moment for --now. Write year-month-day, and the time if you like: 2026-03-04 or 2026-03-04T19:30.'],
    [['check', 'a\u001b[2J'], 'The folder a\\u001b[2J can not be read: it is not there.'],
  ];
  for (const [argv, err] of wrong) {
    it(`refuses ${JSON.stringify(argv)}`, async () => {
      deepStrictEqual(await runIn(scratch.path, argv), { code: 2, out: '', err: `broodsheet: ${err}\n` });
    });
  }
});
