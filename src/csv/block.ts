import { standsAt } from '../base/ascii';
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
  /**
   * Where each cell begins, its opening quotation mark included; it ends (the closing one included) one character before
   * the next edge, where its delimiter or line end stands. So a record has an edge more than it has cells: one behind its
   * last, before the next record begins.
   */
  readonly edges: Uint32Array;
  /** The number of each record's first edge, which is also that of its first cell, and behind the last record the number of edges. */
  readonly rowEdges: Uint32Array;
  /** At most the first 100. */
  readonly issues: readonly CsvIssue[];
}

/** The cell's text without its quoting. Throws a RangeError for a cell the block doesn't have. */
export function cellValue(block: CsvBlock, cell: number): string {
  return unquoteCell(cellSource(block, cell));
}

/** The cell as it is written. Throws a RangeError for a cell the block doesn't have. */
export function cellSource(block: CsvBlock, cell: number): string {
  const { start, end } = cellSpan(block, cell);
  return block.text.slice(start, end);
}

/** Where a cell stands in its block, by the number of its first edge. Throws a RangeError where there is no cell. */
export function cellSpan({ edges }: CsvBlock, cell: number): Span {
  const [start, next] = [edges[cell], edges[cell + 1]];
  if (start === undefined || next === undefined) throw new RangeError(`cell ${cell} in a block of ${edges.length} edges`);
  return { start, end: next - 1 };
}

/** Whether a cell reads as a text, without taking it out of the block where that can be told from its place. */
export function cellIs(block: CsvBlock, cell: number, text: string): boolean {
  const { codes, edges } = block;
  const start = edges[cell] as number;
  const length = (edges[cell + 1] as number) - 1 - start;
  // Most computed cells of a long register are empty, and are to be.
  if (length === 0) return text === '';
  if (codes[start] === 34) return cellValue(block, cell) === text;
  return length === text.length && standsAt(block, start, text);
}

/** How many cells a record has. */
export function cellsIn({ rowEdges }: CsvBlock, record: number): number {
  return (rowEdges[record + 1] as number) - (rowEdges[record] as number) - 1;
}

/** Where a record stands in its block, without its line end. */
export function recordSpan({ edges, rowEdges }: CsvBlock, record: number): Span {
  const [first, next] = [rowEdges[record] as number, rowEdges[record + 1] as number];
  return { start: edges[first] as number, end: (edges[next - 1] as number) - 1 };
}

/** The block's first `count` records as a block of their own. */
export function firstRows(block: CsvBlock, count: number): CsvBlock {
  if (count === block.rowCount) return block;
  const edges = block.rowEdges[count] as number;
  const end = block.edges[edges] as number;
  return {
    text: block.text.slice(0, end),
    codes: block.codes.subarray(0, end),
    rowCount: count,
    edges: block.edges.slice(0, edges),
    rowEdges: block.rowEdges.slice(0, count + 1),
    issues: block.issues.filter(({ span }) => span.start < end),
  };
}
