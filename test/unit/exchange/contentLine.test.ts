import { deepStrictEqual, equal, ok } from 'node:assert/strict';
import fc from 'fast-check';
import ICAL from 'ical.js';
import { folded, oneLine, plainText, textValue, unfolded } from '../../../src/exchange/contentLine';

const anyText = fc.oneof(fc.string({ unit: 'binary', maxLength: 300 }), fc.string({ unit: 'grapheme', maxLength: 200 }), fc.array(fc.constantFrom('ü', '🐟', '\r\n', '\n', '\\', ';', ',', ':', '"', 'a', ' ', '\t', '\ud83d', '\u2028', '\u0000', 'BEGIN:VEVENT'), { maxLength: 120 }).map((parts) => parts.join('')));

describe('content lines', () => {
  // RFC 5545, 3.3.11: these four are written with a backslash, and a line break as \n.
  it('write what means something in a value with a backslash', () => {
    equal(textValue('a;b,c\\d\r\ne\nf\rg'), 'a\\;b\\,c\\\\d\\ne\\nf\\ng');
  });

  it('leave out signs that no file may hold', () => {
    equal(textValue('a\u0000\u0007\u007f\u009bb\tc'), 'ab\tc');
    equal(oneLine(' a\r\nBEGIN:VEVENT\tb '), 'a BEGIN:VEVENT b');
  });

  // RFC 5545, 3.1: "SHOULD NOT be longer than 75 octets, excluding the line break"; a fold is a line break and one blank.
  it('are folded at 75 octets, never inside a sign', () => {
    equal(folded('x'.repeat(75)), `${'x'.repeat(75)}\r\n`);
    equal(folded('x'.repeat(76)), `${'x'.repeat(75)}\r\n x\r\n`);
    equal(folded(`${'x'.repeat(74)}ü`), `${'x'.repeat(74)}\r\n ü\r\n`);
    equal(folded(`${'x'.repeat(72)}🐟`), `${'x'.repeat(72)}\r\n 🐟\r\n`);
  });

  it('of any text come back from the reference reader as they were', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const file = ['BEGIN:VCALENDAR', 'BEGIN:VEVENT', `SUMMARY:${textValue(text)}`, 'END:VEVENT', 'END:VCALENDAR'].map(folded).join('');
        const event = new ICAL.Component(ICAL.parse(file) as unknown[]).getFirstSubcomponent('vevent');
        equal(event?.getFirstPropertyValue('summary'), plainText(text));
        for (const line of file.slice(0, -2).split('\r\n')) {
          ok(Buffer.byteLength(line) <= 75, line);
          // Would be another text if a sign were cut in two.
          equal(Buffer.from(line, 'utf8').toString('utf8'), line);
          ok(!/[\r\n]/.test(line), 'a lone line break');
        }
      }),
    );
  });

  it('are unfolded to what they were', () => {
    fc.assert(fc.property(fc.array(anyText.map((text) => `X:${textValue(text)}`), { maxLength: 5 }), (lines) => deepStrictEqual(unfolded(lines.map(folded).join('')), lines)));
    deepStrictEqual(unfolded('A:1\n 2\nB:3\n'), ['A:12', 'B:3'], 'with other line ends too');
  });
});
