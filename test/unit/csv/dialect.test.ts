import assert from 'node:assert/strict';
import { readDialect } from '../../../src/csv/dialect';

describe('readDialect', () => {
  const delimiterOf = (text: string) => readDialect(text).delimiter;

  it('takes the delimiter that the header holds most often', () => {
    assert.deepEqual(['a,b', 'a;b', 'a\tb', 'a;b;c,d', 'a,b\tc\td'].map(delimiterOf), [',', ';', '\t', ';', '\t']);
  });
  it('takes a comma where there is none and before others where it is a tie', () => {
    assert.deepEqual(['', 'a', 'a;b,c', 'a\tb;c', '\n;;'].map(delimiterOf), [',', ',', ',', ';', ',']);
  });
  it('looks at the header alone', () => assert.equal(delimiterOf('a;b\n1,2,3,4,5'), ';'));
  it('does not count inside quotes', () => assert.equal(delimiterOf('"a,b,c";"d\n,,,";e""f,g'), ';'));
  it('counts behind a quotation mark that does not begin a cell', () => assert.equal(delimiterOf('a 5" b;c;d,"e;;;"'), ';'));
  it('closes a quoted cell behind blanks too, not at a doubled mark', () => {
    assert.equal(delimiterOf('"a"";;;;" ,b;c,d'), ',');
    assert.equal(delimiterOf('"a" \t"b"\t'), '\t');
    assert.equal(delimiterOf('"a"x,"b;c,d";e'), ';');
  });
  it('does not count the byte order mark as part of the first cell', () => {
    assert.deepEqual(readDialect('\uFEFF"a,b";c\n'), { delimiter: ';', hasBom: true, decidedBy: 9 });
  });
  it('says how much of the text decided it', () => {
    assert.equal(readDialect('a,b\r\n1,2').decidedBy, 4);
    assert.equal(readDialect('"a\n",b\n1,2').decidedBy, 7);
    assert.equal(readDialect('a,b').decidedBy, Infinity);
    assert.equal(readDialect('a,"b\n1,2\n').decidedBy, Infinity);
  });
});
