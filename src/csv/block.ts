import type { CodedText } from '../base/ascii';
import type { Span } from '../base/span';
import { unquoteCell } from './quote';

/** A quotation mark that goes wrong; the span is the mark itself. */
export interface CsvIssue {
  readonly kind: 'unclosed-quote' | 'text-after-quote';
  readonly span: Span;
}

/**
 * An immutable run of whole records. Its text holds their line ends too, and all offsets count from its beginning. A
 * blank line is a record of one empty cell.
 */
export interface CsvBlock extends CodedText {
  readonly rowCount: number;
  /** The number of each record's first cell, and behind the last record the number of cells. */
  readonly rowCells: Uint32Array;
  /** Where each cell begins, its opening quotation mark included. */
  readonly starts: Uint32Array;
  /** Where each cell ends, its closing quotation mark included. */
  readonly ends: Uint32Array;
  /** At most the first 100. */
  readonly issues: readonly CsvIssue[];
}

/** The cell's text without its quoting. Throws a RangeError for a cell the block doesn't have. */
export function cellValue(block: CsvBlock, cell: number): string {
  return unquoteCell(cellSource(block, cell));
}

/** The cell as it is written. Throws a RangeError for a cell the block doesn't have. */
export function cellSource(block: CsvBlock, cell: number): string {
  const start = block.starts[cell];
  if (start === undefined) throw new RangeError(`cell ${cell} in a block of ${block.starts.length} cells`);
  return block.text.slice(start, block.ends[cell]);
}

/** The block's first `count` records as a block of their own. */
export function firstRows(block: CsvBlock, count: number): CsvBlock {
  if (count === block.rowCount) return block;
  const cells = block.rowCells[count] as number;
  const end = block.starts[cells] as number;
  return {
    text: block.text.slice(0, end),
    codes: block.codes.subarray(0, end),
    rowCount: count,
    rowCells: block.rowCells.slice(0, count + 1),
    starts: block.starts.slice(0, cells),
    ends: block.ends.slice(0, cells),
    issues: block.issues.filter(({ span }) => span.start < end),
  };
}
