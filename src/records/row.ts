import { recordSpan } from '../csv/block';
import type { CsvBlock } from '../csv/block';
import type { Message } from '../base/messages';
import type { Moment, Writable } from '../base/moment';
import type { SheetSchema } from '../schema/descriptor';
import type { ProblemCode } from '../schema/problemCodes';
import type { Value } from '../schema/value';
import type { Cells } from './cells';
import type { Header } from './header';

/** Something wrong with one cell (`column` from 0), or with the row as a whole (`column` undefined). */
export interface CellFault {
  readonly code: ProblemCode;
  readonly column: number | undefined;
  readonly message: Message;
  /** What the cell may have been meant to say. */
  readonly suggestions: readonly string[];
}

/** A run of rows and where it lies in its file now. */
export interface RowBlock {
  readonly csv: CsvBlock;
  readonly cells: Cells;
  readonly file: RowOwner;
  /** Place among the file's blocks; block 0 is the header. */
  ordinal: number;
  readonly rows: readonly Row[];
  readonly faulty: readonly Row[];
}

export interface RowOwner {
  readonly path: string;
  readonly schema: SheetSchema;
  readonly header: Header;
}

const NO_FAULTS: readonly CellFault[] = [];

/**
 * One record of a sheet: its cells as values. It outlives edits elsewhere in its file: only where it stands changes.
 */
export class Row {
  /** Where it stands: moved along when the text around it changes. */
  block: RowBlock;
  index: number;
  readonly faults: readonly CellFault[];
  /** What the row is as a thing, made when first asked for. Of a clutch, which is its own: what whoever works things out keeps of it from change to change. */
  kept: unknown;

  constructor(block: RowBlock, index: number, faults: readonly CellFault[] = NO_FAULTS) {
    this.block = block;
    this.index = index;
    this.faults = faults;
  }

  /** False where the number of cells isn't the header's: such a row is never filled. */
  get wellFormed(): boolean {
    return this.faults[0]?.code !== 'csv-columns';
  }

  /** The value of a field by its place in the schema; undefined where the cell is empty, can't be read, or has no column. */
  value(slot: number): Value {
    return this.block.cells.at(this.index, slot);
  }

  /** Fills a moment with what a field of moments says; false where `value` gives undefined. */
  fill(moment: Writable<Moment>, slot: number): boolean {
    return this.block.cells.fill(moment, this.index, slot);
  }

  get path(): string {
    return this.block.file.path;
  }
}

/** The record's text without its line end. */
export function rawText(csv: CsvBlock, index: number): string {
  const { start, end } = recordSpan(csv, index);
  return csv.text.slice(start, end);
}

/** The id in a row's first field, '' where there is none. */
export function keyText(row: Row): string {
  const key = row.value(0);
  return typeof key === 'string' ? key : '';
}

/** Compares two rows of one file by where they stand. */
export function asWritten(a: Row, b: Row): number {
  return a.block.ordinal - b.block.ordinal || a.index - b.index;
}

/** Rows of one file from the top down. */
export function inWrittenOrder(rows: Iterable<Row> | undefined): readonly Row[] {
  if (rows === undefined) return NO_ROWS;
  const list = [...rows];
  for (let i = 1; i < list.length; i++) if (asWritten(list[i - 1] as Row, list[i] as Row) > 0) return list.sort(asWritten);
  return list;
}

const NO_ROWS: readonly Row[] = [];
