import assert from 'node:assert/strict';
import { cellSource, cellValue, firstRows } from '../../../src/csv/block';
import { BlockScanner } from '../../../src/csv/scanner';

function blockOf(text: string) {
  const scanner = new BlockScanner(',');
  scanner.open(text, 0);
  return scanner.next(100);
}

describe('CsvBlock', () => {
  const block = blockOf('a,"b"" c"\r\n\n"d"e",f');

  it('numbers the cells of all its records', () => {
    assert.deepEqual([block.rowCount, ...block.rowCells], [3, 0, 2, 3, 5]);
    assert.deepEqual([...block.starts.keys()].map((cell) => cellValue(block, cell)), ['a', 'b" c', '', 'd"e', 'f']);
    assert.equal(cellSource(block, 1), '"b"" c"');
  });
  it('throws for a cell it does not have', () => assert.throws(() => cellValue(block, 5), new RangeError('cell 5 in a block of 5 cells')));
  it('gives its first records as the scan of their text', () => {
    assert.deepEqual(firstRows(block, 2), blockOf('a,"b"" c"\r\n\n'));
    assert.deepEqual(firstRows(block, 3), block);
  });
});
