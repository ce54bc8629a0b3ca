import assert from 'node:assert/strict';
import { CsvDocument } from '../../../src/csv/document';
import { contentsOf } from './sheets';

/** A text of any UTF-16 units, the same at every run. */
function noise(length: number, units: number): string {
  let state = 12345;
  const codes = new Uint16Array(length).map(() => (state = (Math.imul(state, 1103515245) + 12345) >>> 0) >>> 8).map((code) => code % units);
  return Array.from(codes, (code) => String.fromCharCode(code)).join('');
}

const million = 1_000_000;
const inputs: Record<string, { text: string; rows?: number; cells?: number }> = {
  'any bytes': { text: noise(200_000, 256) },
  'any UTF-16 units, lone surrogates too': { text: noise(200_000, 65_536) },
  'control characters': { text: noise(200_000, 32) },
  'NULs': { text: '\0'.repeat(million), rows: 1, cells: 1 },
  'a line of 10,000,000 characters': { text: 'x'.repeat(10 * million), rows: 1, cells: 1 },
  'a quoted cell of 10,000,000 characters': { text: `a,"${'x\n'.repeat(5 * million)}"\n`, rows: 1, cells: 2 },
  'a line of 1,000,000 commas': { text: ','.repeat(million), rows: 1, cells: million + 1 },
  '1,000,000 commas behind a header': { text: 'a,b\n' + ','.repeat(million), rows: 2, cells: million + 3 },
  '1,000,000 blank lines': { text: '\n'.repeat(million), rows: million, cells: million },
  'an even run of quotation marks': { text: '"'.repeat(million), rows: 1, cells: 1 },
  'an odd run of quotation marks': { text: '"'.repeat(million + 1), rows: 1, cells: 1 },
  'marks between blanks': { text: 'a,b\n' + '" '.repeat(million), rows: 2, cells: 3 },
  'marks that close nothing': { text: 'a,b\n' + '"x'.repeat(million), rows: 2, cells: 3 },
  'marks that close nothing, then blanks': { text: 'a,b\n' + '"x'.repeat(million / 10) + ' '.repeat(million), rows: 2, cells: 3 },
  'marks in the header that close nothing': { text: '"' + 'x"'.repeat(million) + 'x', rows: 1, cells: 1 },
  'byte order marks': { text: '\uFEFF'.repeat(1000), rows: 1, cells: 1 },
};

describe('CsvDocument with hostile text', () => {
  for (const [name, { text, rows, cells }] of Object.entries(inputs)) {
    it(`reads and edits ${name}`, () => {
      const document = CsvDocument.parse(text);
      assert.equal(document.text(), text);
      if (rows !== undefined) assert.equal(document.rowCount, rows);
      if (cells !== undefined) assert.equal(document.blocks.reduce((sum, block) => sum + block.edges.length - block.rowCount, 0), cells);
      for (let row = 0; row < document.rowCount; row += 997) document.value(row, document.cellCount(row) - 1);
      const middle = text.length >> 1;
      for (const inserted of ['x', '"', '\n']) {
        const after = document.edit([{ start: middle, end: middle, text: inserted }]);
        assert.equal(after.text(), text.slice(0, middle) + inserted + text.slice(middle));
      }
    });
  }

  it('equals a scan of the new text after edits in noise', () => {
    let document = CsvDocument.parse(noise(20_000, 64));
    for (let start = 0; start < 20_000; start += 701) {
      document = document.edit([{ start, end: start + (start % 3), text: '",\n'.slice(start % 4) }]);
      assert.equal(contentsOf(document), contentsOf(CsvDocument.parse(document.text())));
    }
  });
});
