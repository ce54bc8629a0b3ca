import assert from 'node:assert/strict';
import { say } from '../../../src/base/messages';
import { escaped, markdownOf } from '../../../src/vscode/markdown';
import type { Targets } from '../../../src/vscode/markdown';

const targets: Targets = {
  hrefOf: ({ file, span }) => `file:///room/${file}#${span.start}`,
  photoOf: (_, target) => (target === 'nowhere' ? undefined : { href: `file:///room/${target}`, isShown: target.endsWith('.png') }),
};

describe('escaped', () => {
  it('leaves no mark that Markdown could read', () => {
    for (const evil of ['<img src=x onerror=alert(1)>', '[x](command:y)', '![x](https://example.org/x.png)', 'https://example.org', 'www.example.org', 'a@example.org', '`x`', '**x**', '# x', '&lt;', '$(alert)', 'a|b', '\\[x](y)', '- x', '1. x', '~~x~~']) {
      const text = escaped(evil);
      // Behind a backslash every mark stands for itself (CommonMark 0.31, 2.4).
      assert.equal(text.replace(/\\([!-/:-@[-`{-~])/g, ''), evil.replace(/[!-/:-@[-`{-~]/g, ''), evil);
      assert.equal(text.replace(/\\([!-/:-@[-`{-~])/g, '$1'), evil);
    }
  });

  it('stays on one line and in one direction', () => {
    assert.equal(escaped('a\r\n\n# b\u202ec\u0000d'), 'a \\# b c d');
  });
});

describe('markdownOf', () => {
  const place = { file: 'tanks.csv', span: { start: 7, end: 9 } };

  it('sets sentences below each other and all else apart', () => {
    const parts = [
      { kind: 'text', text: 'One.' },
      { kind: 'text', text: say('hover.unit', 'mm') },
      { kind: 'facts', facts: [{ name: 'Tank', pieces: [{ text: 'T 1', to: place }, { text: ' (x)' }] }, { name: 'Age', pieces: [{ text: say('hover.days', '3') }], behind: [{ text: 'or 4' }] }] },
      { kind: 'list', title: say('hover.inputs'), lines: [[{ text: 'a' }, { text: ': b' }], [{ text: 'c' }]] },
      { kind: 'links', links: [{ text: 'tanks.csv', to: place }] },
    ] as const;
    assert.deepEqual(markdownOf({ title: 'Clutch *1*', beside: 'clutch', parts }, targets).split('\n'), [
      '**Clutch \\*1\\***\u2002`clutch`',
      '',
      'One\\.  ',
      'Unit\\: mm\\.',
      '',
      'Tank\u00a0**[T\u00a01](file:///room/tanks.csv#7)\u00a0\\(x\\)** \u2002 Age\u00a0**3\u00a0days**,\u00a0or\u00a04',
      '',
      'From\\:',
      '- a\\: b',
      '- c',
      '',
      '[tanks\\.csv](file:///room/tanks.csv#7)',
    ]);
  });

  it('shows pictures only where it is told to, and nothing of those that lead nowhere', () => {
    const photo = (target: string): string => markdownOf({ title: 'T', parts: [{ kind: 'photo', file: 'log.csv', target }] }, targets);
    assert.equal(photo('a.png'), '**T**\n\n![a\\.png](file:///room/a.png|height=160)');
    assert.equal(photo('a.pdf'), '**T**\n\n[a\\.pdf](file:///room/a.pdf)');
    assert.equal(photo('nowhere'), '**T**');
  });
});
