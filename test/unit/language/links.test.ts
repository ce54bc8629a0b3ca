import assert from 'node:assert/strict';
import { linksIn, linkTarget } from '../../../src/language/links';
import { roomOf } from '../../support/room';

const now = '2026-06-10T09:00';

describe('linkTarget', () => {
  it('is an address of the net or of mail', () => {
    for (const address of ['https://example.org/a.jpg', 'HTTP://example.org', 'mailto:ann@example.org']) assert.deepEqual(linkTarget(address), { kind: 'address', address });
  });

  it('is a path seen from the sheet, also as Windows writes it', () => {
    for (const path of ['k1.jpg', '../photos/k1 (2).jpg', './a/b.PNG', 'räume/ä.webp']) assert.deepEqual(linkTarget(path), { kind: 'path', path });
    assert.deepEqual(linkTarget('photos\\k1.jpg'), { kind: 'path', path: 'photos/k1.jpg' });
  });

  it('is nothing for other schemes, places outside, and prose', () => {
    for (const text of ['command:workbench.action.quit', 'file:///etc/passwd.txt', 'javascript:alert(1)', 'data:text/html,x.png', 'vscode://x/y.png', 'C:\\photos\\a.jpg', '/etc/a.jpg', '\\\\server\\a.jpg', 'own notes', 'Seen often.', 'https://', 'https:///x', 'https://a b', 'mailto:', '', 'a\nb.jpg', '..', 'a/..']) assert.equal(linkTarget(text), undefined, text);
  });
});

describe('linksIn', () => {
  const told = (texts: Readonly<Record<string, string>>, path: string): readonly string[] => {
    const plan = roomOf(texts, now);
    return linksIn(plan, path).map(({ span, text }) => `${texts[path]?.slice(span.start, span.end) ?? ''} ${text}`);
  };

  it('are the cells of photos, without their quotation marks', () => {
    assert.deepEqual(told({ 'log.csv': 'time,clutch,event,photo,note\n2026-06-01,K1,checked,a.png,b.png\n2026-06-02,K1,checked,"c,d.png",\n2026-06-03,K1,checked,command:x,\n' }, 'log.csv'), ['a.png a.png', 'c,d.png c,d.png']);
  });

  it('are the addresses in what is told about sources', () => {
    const source = '"see ""A"" (https://example.org/a?b=1), http://b.example. and command:x, own notes.csv"';
    assert.deepEqual(told({ 'species.csv': `species,care,source\nred,cave,${source}\nblue,cave,common practice\n` }, 'species.csv'), ['https://example.org/a?b=1 https://example.org/a?b=1', 'http://b.example http://b.example']);
  });

  it('are none in other sheets, and in files that can not be read', () => {
    assert.deepEqual(told({ 'tanks.csv': 'tank,room,note\nT1,R1,https://example.org\n' }, 'tanks.csv'), []);
    assert.deepEqual(told({ 'log.csv': 'time,clutch,event,photo\n2026-06-01,K1,checked,a.png\n2026-06-01,K1,checked,"\n' }, 'log.csv'), []);
  });
});
