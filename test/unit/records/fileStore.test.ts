import assert from 'node:assert/strict';
import fc from 'fast-check';
import { asciiOf } from '../../../src/base/ascii';
import { decode } from '../../../src/records/fileStore';

describe('a file as it is read', () => {
  it('takes its bytes for its characters where they are just that', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.string({ unit: 'binary' })), (text) => {
        // A lone surrogate becomes a replacement character.
        const bytes = new TextEncoder().encode(text);
        const whole = bytes.slice();
        const file = decode(whole);
        const isAscii = [...bytes].every((byte) => byte < 0x80);
        assert.deepEqual(file.codes, isAscii ? asciiOf(file.text) : undefined);
      }),
    );
  });
  it('keeps no larger piece of memory in which its bytes lie', () => {
    const large = new TextEncoder().encode('a,b\n1,2\n'.repeat(1000));
    assert.deepEqual(decode(large.subarray(0, 8)), { text: 'a,b\n1,2\n', codes: undefined });
    assert.equal(decode(large).codes?.buffer, large.buffer);
  });
  it('takes none of what is no UTF-8', () => assert.deepEqual(decode(Uint8Array.of(97, 0xff)), { text: 'a\uFFFD', badAt: 1 }));
});
