import assert from 'node:assert/strict';
import fc from 'fast-check';
import { asciiOf, standsAt } from '../../../src/base/ascii';

const anyText = fc.string({ unit: fc.constantFrom('a', 'b', '"', ',', '\n', 'ä', '\u0080', '\u0100', '\uFEFF', '魚', '\uD83D', '\uDC1F') });

describe('asciiOf', () => {
  it('gives each character of ASCII as it is, and tells all others from them', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const codes = Array.from({ length: text.length }, (_, at) => text.charCodeAt(at));
        assert.deepEqual([...asciiOf(text)], codes.map((code) => Math.min(code, 0x80)));
      }),
    );
  });
});

describe('standsAt', () => {
  it('finds a part where the text has it', () => {
    fc.assert(
      fc.property(anyText, anyText, fc.nat(20), (text, other, from) => {
        const coded = { text, codes: asciiOf(text) };
        const start = Math.min(from, text.length);
        const there = text.slice(start, start + other.length);
        assert.ok(standsAt(coded, start, there));
        if (there.length === other.length) assert.equal(standsAt(coded, start, other), there === other);
      }),
    );
  });

  it('tells characters beyond ASCII from each other', () => {
    const others = ['ä', '\u0080', '\u0100', '魚'];
    for (const text of others) for (const part of others) assert.equal(standsAt({ text, codes: asciiOf(text) }, 0, part), text === part);
  });
});
