import { deepStrictEqual, throws } from 'node:assert/strict';
import { readCommandLine } from '../../../src/cli/args';
import { WrongUse } from '../../../src/cli/wrongUse';

describe('readCommandLine', () => {
  it('takes the first word as what to do, wherever options stand', () => {
    const { verb, operands, options, given } = readCommandLine(['--now', '2026-03-04', 'fill', 'a', '--write', 'b', '--format=json']);
    deepStrictEqual({ verb, operands, given }, { verb: 'fill', operands: ['a', 'b'], given: ['now', 'write', 'format'] });
    deepStrictEqual(options, {
      now: '2026-03-04', format: 'json', severity: undefined, in: undefined, days: undefined, room: undefined, kinds: undefined, out: undefined, top: undefined, write: true, add: false, overwrite: false, help: false, version: false,
    });
  });

  it('takes what stands behind -- as it is', () => {
    deepStrictEqual(readCommandLine(['check', '--', '--write']).operands, ['--write']);
  });

  it('takes a value with a hyphen behind an equals sign', () => {
    deepStrictEqual(readCommandLine(['explain', '--in=-rooms']).options.in, '-rooms');
  });

  it('takes several kinds apart', () => {
    deepStrictEqual(readCommandLine(['calendar', '--kind', 'hatch,count']).options.kinds, ['hatch', 'count']);
  });

  const wrong: readonly (readonly [argv: readonly string[], told: string])[] = [
    [['check', '--sevrity', 'error'], 'There is no option --sevrity. Did you mean --severity?'],
    [['check', '--colour'], 'There is no option --colour.'],
    [['check', '-x'], 'There is no option -x.'],
    [['check', '--__proto__'], 'There is no option --__proto__.'],
    [['check', '--constructor=x'], 'There is no option --constructor.'],
    [['check', '--now'], '--now needs a value behind it.'],
    [['check', '--now', '--format', 'json'], '--now needs a value behind it.'],
    [['check', '--now='], '--now needs a value behind it.'],
    [['fill', '--write=yes'], '--write takes no value.'],
    [['check', '--format', 'xml'], '--format can not be "xml". Use one of these: text, json, html.'],
    [['check', '--severity', 'bad'], '--severity can not be "bad". Use one of these: error, warning, information, hint.'],
  ];
  for (const [argv, told] of wrong) {
    it(`refuses ${argv.join(' ')}`, () => {
      throws(() => readCommandLine(argv), (error) => error instanceof WrongUse && error.message === told);
    });
  }
});
