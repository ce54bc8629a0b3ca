import assert from 'node:assert/strict';
import { cellSource, cellsIn, cellValue, firstRows, recordSpan } from '../../../src/csv/block';
import { BlockScanner } from '../../../src/csv/scanner';

function blockOf(text: string) {
  const scanner = new BlockScanner(',');
  scanner.open(text, 0);
  return scanner.next(100);
}

describe('CsvBlock', () => {
  const block = blockOf('a,"b"" c"\r\n\n"d"e",f');

  it('numbers the cells of all its records by their edges', () => {
    assert.deepEqual([block.rowCount, ...block.rowEdges], [3, 0, 3, 5, 8]);
    assert.deepEqual([0, 1, 2].map((record) => cellsIn(block, record)), [2, 1, 2]);
    assert.deepEqual([0, 1, 3, 5, 6].map((cell) => cellValue(block, cell)), ['a', 'b" c', '', 'd"e', 'f']);
    assert.equal(cellSource(block, 1), '"b"" c"');
    assert.deepEqual([0, 1, 2].map((record) => recordSpan(block, record)).map(({ start, end }) => block.text.slice(start, end)), ['a,"b"" c"', '', '"d"e",f']);
  });
  it('throws for a cell it does not have', () => assert.throws(() => cellValue(block, 7), new RangeError('cell 7 in a block of 8 edges')));
  it('gives its first records as the scan of their text', () => {
    assert.deepEqual(firstRows(block, 2), blockOf('a,"b"" c"\r\n\n'));
    assert.deepEqual(firstRows(block, 3), block);
  });
});
