import { deepStrictEqual, equal, throws } from 'node:assert/strict';
import fc from 'fast-check';
import { plainText } from '../../../src/exchange/contentLine';
import { element, text } from '../../../src/exchange/html';
import { readPage, tagsIn } from '../../support/pages';

const page = (html: string): string => `<!DOCTYPE html>\n${html}`;

describe('pieces of a page', () => {
  it('hold any text as a text, in attributes too', () => {
    const anyText = fc.oneof(fc.string({ unit: 'binary' }), fc.constantFrom('<img src=x onerror=alert(1)>', '</script><script>', '"onclick="x', "' x='", '&lt;', '<!--', ']]>'));
    fc.assert(
      fc.property(anyText, anyText, (one, two) => {
        const read = readPage(page(element('p', { title: two }, one, element('b', {}, two), undefined).html));
        deepStrictEqual([read.name, read.text, read.attributes], ['p', plainText(one) + plainText(two), { title: plainText(two) }]);
        deepStrictEqual(tagsIn(read, 'b').map((tag) => tag.text), [plainText(two)]);
      }),
    );
    equal(text('a<b>&"\'').html, 'a&lt;b&gt;&amp;&quot;&#39;');
  });

  it('are told to be broken by the check of these tests', () => {
    for (const broken of ['<p>', '<p></b>', '<p title=x></p>', '<p>a & b</p>', '<p><img src=x></p>', 'text']) throws(() => readPage(page(broken)), broken);
  });
});
