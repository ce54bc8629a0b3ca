import { deepStrictEqual, equal } from 'node:assert/strict';
import { aligned, countOf, paintsFor, visible } from '../../../src/cli/text';
import type { Io } from '../../../src/cli/io';

const io = (isTerminal: boolean, env: Io['env']): Io => ({
  out: { isTerminal, write: () => undefined },
  err: { isTerminal, write: () => undefined },
  cwd: '/',
  env,
  zone: 'UTC',
  now: () => 0,
});

describe('aligned', () => {
  it('puts cells below each other, the last as long as it likes', () => {
    const rows = [['1:5', 'error', 'a long text'], ['112:15', 'hint', 'b'], ['', '', 'c']];
    deepStrictEqual(aligned(rows.map((row) => row.map((text) => ({ text }))), '  '), ['  1:5     error  a long text', '  112:15  hint   b', '                 c']);
  });

  it('counts characters, not what paints them', () => {
    deepStrictEqual(aligned([[{ text: 'é🐟', paint: (text) => `<${text}>` }, { text: 'x' }], [{ text: 'abc' }, { text: 'y' }]], ''), ['<é🐟>   x', 'abc  y']);
  });
});

describe('paintsFor', () => {
  it('colours a terminal alone', () => {
    equal(paintsFor(io(true, {})).severity.error('x'), '\u001b[31mx\u001b[39m');
    equal(paintsFor(io(false, {})).severity.error('x'), 'x');
    equal(paintsFor(io(false, { FORCE_COLOR: '1' })).severity.error('x'), 'x');
  });

  // https://no-color.org: "when present and not an empty string (regardless of its value)" (from memory).
  it('honours NO_COLOR', () => {
    equal(paintsFor(io(true, { NO_COLOR: '0' })).heading('x'), 'x');
    equal(paintsFor(io(true, { NO_COLOR: '' })).heading('x'), '\u001b[1mx\u001b[22m');
    equal(paintsFor(io(true, { TERM: 'dumb' })).heading('x'), 'x');
  });
});

describe('visible', () => {
  it('shows what would steer a terminal or break the line', () => {
    equal(visible('a\u001b[2Jb\nc\u202ed\u009be\u0000f\ud800g'), 'a\\u001b[2Jb\\nc\\u202ed\\u009be\\u0000f\\ud800g');
  });

  it('leaves words of all languages alone', () => {
    equal(visible('Žaneta 金魚 🐟 ±2 °C'), 'Žaneta 金魚 🐟 ±2 °C');
  });

  it('cuts what is long', () => {
    equal(visible('abcdef', 3), 'abc…');
  });
});

describe('countOf', () => {
  it('knows one from many', () => {
    deepStrictEqual([0, 1, 2].map((count) => countOf('files', count)), ['0 files', '1 file', '2 files']);
  });
});
