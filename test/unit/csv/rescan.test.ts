import assert from 'node:assert/strict';
import fc from 'fast-check';
import { applyEdits, type TextEdit } from '../../../src/base/textEdit';
import { CsvDocument } from '../../../src/csv/document';
import { contentsOf } from './sheets';

const long = 'id,note\n' + Array.from({ length: 1000 }, (_, row) => `c${row},note ${row}\n`).join('');

describe('CsvDocument.edit', () => {
  it('equals a scan of the new text, whatever the edits', () => {
    const line = fc
      .array(fc.constantFrom('a', 'b', ',', ',', ';', '"', '""', '\n', '\r', '\r\n', '\t', ' ', '\uFEFF'), { minLength: 1, maxLength: 8 })
      .chain((parts) => fc.constantFrom('\n', '\r\n', '\r', '\n').map((end) => parts.join('') + end));
    const text = fc
      .record({ bom: fc.constantFrom('', '', '\uFEFF'), header: fc.constantFrom('a,b\n', 'a;b\r\n', 'a\r', 'a,"b\n', ''), lines: fc.array(line, { maxLength: 12 }), times: fc.integer({ min: 0, max: 25 }) })
      .map(({ bom, header, lines, times }) => bom + header + lines.join('').repeat(times));
    const inserted = fc.array(fc.constantFrom('x', ',', ';', '"', '\n', '\r', '\r\n', '\uFEFF', 'y,z\n', '"q,\n"\n'.repeat(70)), { maxLength: 3 }).map((parts) => parts.join(''));
    const wish = fc.record({ at: fc.double({ min: 0, max: 1, noNaN: true }), removed: fc.oneof(fc.integer({ min: 0, max: 3 }), fc.constant(800)), text: inserted });
    fc.assert(
      fc.property(text, fc.array(fc.array(wish, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 3 }), (before, rounds) => {
        let document = CsvDocument.parse(before);
        for (const wishes of rounds) {
          const edits = editsIn(document.text(), wishes);
          const wanted = applyEdits(document.text(), edits);
          document = document.edit(edits);
          assert.equal(document.text(), wanted);
          assert.equal(contentsOf(document), contentsOf(CsvDocument.parse(wanted)));
        }
      }),
      { numRuns: 2500 },
    );
  });

  it('equals a scan of the new text for edits where blocks meet', () => {
    const before = 'a,b\r' + 'c\r'.repeat(64) + '\r\n"d"\n'.repeat(96) + '\n'.repeat(200) + 'e,"f"';
    const { blockStarts } = CsvDocument.parse(before);
    const near = fc.constantFrom(...blockStarts).chain((start) => fc.integer({ min: Math.max(0, start - 2), max: start + 2 }));
    fc.assert(
      fc.property(near, fc.integer({ min: 0, max: 3 }), fc.constantFrom('', '\n', '\r', '\r\n', '"', ',', 'x', '"\n'), (start, removed, text) => {
        const edits = [{ start, end: Math.min(before.length, start + removed), text }];
        assert.equal(contentsOf(CsvDocument.parse(before).edit(edits)), contentsOf(CsvDocument.parse(applyEdits(before, edits))));
      }),
      { numRuns: 1000 },
    );
  });

  it('shares every block but the one that is typed in', () => {
    const before = CsvDocument.parse(long);
    const { end } = before.span(500, 1);
    const after = before.edit([{ start: end, end, text: 'x' }]);
    assert.deepEqual(changedBlocks(before, after), [after.blocks[8]]);
    assert.equal(after.value(500, 1), 'note 499x');
  });
  it('leaves the header alone when the record behind it is typed in', () => {
    const before = CsvDocument.parse(long);
    const { start } = before.rowSpan(1);
    const after = before.edit([{ start, end: start, text: 'x' }]);
    assert.deepEqual(changedBlocks(before, after), [after.blocks[1]]);
  });
  it('shares what stands between several edits', () => {
    const before = CsvDocument.parse(long);
    const edits = [1, 300, 301, 900].map((row) => ({ ...before.span(row, 0), text: 'id' }));
    assert.equal(changedBlocks(before, before.edit(edits)).length, 3);
  });
  it('shares the blocks behind a header that keeps its delimiter', () => {
    const before = CsvDocument.parse(long);
    const after = before.edit([{ start: 0, end: 2, text: 'clutch' }]);
    assert.deepEqual(changedBlocks(before, after), [after.blocks[0]]);
  });
  it('scans anew when the delimiter changes', () => {
    const after = CsvDocument.parse(long).edit([{ start: 2, end: 3, text: ';' }]);
    assert.deepEqual([after.delimiter, after.cellCount(0), after.cellCount(1)], [';', 2, 1]);
  });
  it('shares what stands behind the place where an opened quote is closed', () => {
    const before = CsvDocument.parse(long.replace('note 600\n', '"note"\n'));
    const { start } = before.span(200, 1);
    const after = before.edit([{ start, end: start, text: '"' }]);
    assert.equal(contentsOf(after), contentsOf(CsvDocument.parse(after.text())));
    assert.deepEqual(changedBlocks(before, after), [after.blocks[4]]);
    assert.ok(after.blocks.length < before.blocks.length);
  });
  it('splits a block that grows over twice its size', () => {
    const before = CsvDocument.parse(long);
    const { start } = before.rowSpan(10);
    const counts = (records: number) => before.edit([{ start, end: start, text: 'c,d\n'.repeat(records) }]).blocks.map((block) => block.rowCount);
    assert.deepEqual(counts(64).slice(0, 3), [1, 128, 64]);
    assert.deepEqual(counts(65).slice(0, 5), [1, 64, 64, 1, 64]);
  });
  it('drops a block of which nothing is left', () => {
    const before = CsvDocument.parse(long);
    const [, first = 0, second = 0] = before.blockStarts;
    assert.equal(before.edit([{ start: first, end: second, text: '' }]).blocks.length, before.blocks.length - 1);
  });
  it('is the same document without edits', () => {
    const before = CsvDocument.parse(long);
    assert.equal(before.edit([]), before);
  });
  it('throws for edits out of order or outside the text', () => {
    const before = CsvDocument.parse('a,b\nc,d\n');
    const insert = (start: number, end = start): TextEdit => ({ start, end, text: '' });
    for (const edits of [[insert(0, 9)], [insert(3), insert(2)], [insert(3, 2)], [insert(-1, 0)], [insert(0, 5), insert(4)]]) {
      assert.throws(() => before.edit(edits), /out of order or outside a text of length 8/);
    }
  });
});

function changedBlocks(before: CsvDocument, after: CsvDocument): unknown[] {
  const old = new Set<unknown>(before.blocks);
  return after.blocks.filter((block) => !old.has(block));
}

/** Edits in order, each at its share of the text. */
function editsIn(text: string, wishes: readonly { at: number; removed: number; text: string }[]): TextEdit[] {
  const edits: TextEdit[] = [];
  let from = 0;
  for (const wish of [...wishes].sort((a, b) => a.at - b.at)) {
    const start = Math.max(from, Math.round(wish.at * text.length));
    const end = Math.min(text.length, start + wish.removed);
    edits.push({ start, end, text: wish.text });
    from = end;
  }
  return edits;
}
