import { say } from '../base/messages';
import { momentReading } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Span } from '../base/span';
import type { TextEdit } from '../base/textEdit';
import type { Zone } from '../base/zone';
import { cellsIn, cellValue, recordSpan } from '../csv/block';
import type { CsvBlock } from '../csv/block';
import { CsvDocument } from '../csv/document';
import type { SheetSchema } from '../schema/descriptor';
import { siValue } from '../schema/units';
import { CastFailure } from '../schema/value';
import { Cells } from './cells';
import type { FileText } from './fileStore';
import { firstRecord, NO_HEADER, readHeader } from './header';
import type { Header } from './header';
import { inWrittenOrder, rawText, Row } from './row';
import type { CellFault, RowBlock } from './row';
import { registerRow } from './things';

/** How cells are read: the fishroom's zone, and columns of the keeper's own that nobody need report. */
export interface Reading {
  readonly zone: Zone;
  readonly extraColumns: ReadonlySet<string>;
}

/** Why nothing in a file is read: its text isn't what was meant. `header-missing`: what should be the header is empty, and rows follow. */
export type Blocked = 'csv-quote' | 'csv-encoding' | 'csv-conflict' | 'header-missing';

type RowsCame = (rows: readonly Row[]) => void;

export interface RowChanges {
  readonly removed: readonly Row[];
  readonly added: readonly Row[];
}

/**
 * A sheet as a file: its text, header and rows, kept from edit to edit. While the text can't be read (`blocked`), the
 * rows of the last readable version stand for it.
 */
export class SheetFile {
  readonly path: string;
  readonly schema: SheetSchema;
  /** The clutch or tank whose own log it is. */
  readonly thing: string | undefined;
  doc: CsvDocument = EMPTY;
  header: Header = NO_HEADER;
  blocks: readonly RowBlock[] = [];
  blocked: Blocked | undefined;
  /** Marks of an unfinished merge, each at the start of a line. */
  conflicts: readonly Span[] = [];
  badAt: number | undefined;
  mixedLineEnds = false;
  /** Per computed column of the header: how many rows hold something else than they should. */
  staleCounts: number[] = [];

  constructor(path: string, schema: SheetSchema, thing: string | undefined) {
    this.path = path;
    this.schema = schema;
    this.thing = thing;
  }

  /** Takes a new text as a whole. Where there was none, `came` hears of all rows while they are read, a few at a time: those of a long sheet are soon out of reach. */
  replace(file: FileText, reading: Reading, came?: RowsCame): RowChanges {
    this.badAt = file.badAt;
    this.mixedLineEnds = file.mixedLineEnds === true;
    return this.#take(CsvDocument.parse(file.text, file.codes), reading, came);
  }

  /** Reads all rows again, under another zone or other columns; of an unreadable file those of its last readable text. */
  reread(reading: Reading): RowChanges {
    const now = this.doc;
    const before = [...this.rows()];
    if (this.#readable === undefined) return { removed: [], added: [] };
    const bad = this.badAt;
    this.badAt = undefined;
    this.#take(this.#readable, reading);
    this.badAt = bad;
    if (now !== this.#readable || bad !== undefined) this.#take(now, reading);
    return { removed: before, added: [...this.rows()] };
  }

  edit(edits: readonly TextEdit[], reading: Reading): RowChanges {
    return this.#take(this.doc.edit(edits), reading);
  }

  /** The latest instant in a column that may not be later than now; a bare day stands for its noon. */
  get latest(): number {
    let latest = Number.NEGATIVE_INFINITY;
    for (const block of this.blocks) latest = Math.max(latest, latestIn(block, this.header));
    return latest;
  }

  /** Whether it can't be read and never could. */
  get isUnread(): boolean {
    return this.blocked !== undefined && this.#readable === undefined;
  }

  get rowCount(): number {
    let count = 0;
    for (const { rows } of this.blocks) count += rows.length;
    return count;
  }

  /** All rows, in written order. */
  rows(): Iterable<Row> {
    const [first, second] = this.blocks;
    // Most logs: a list is walked several times as fast as what comes row by row.
    return this.blocks.length === 2 && first?.rows.length === 0 ? (second as RowBlock).rows : this.#allRows();
  }

  *#allRows(): IterableIterator<Row> {
    for (const block of this.blocks) yield* block.rows;
  }

  rowAt(record: number): Row | undefined {
    const starts = this.doc.blockRows;
    let low = 0;
    let high = this.blocks.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >>> 1;
      if ((starts[middle] as number) <= record) low = middle;
      else high = middle - 1;
    }
    const index = record - (starts[low] ?? 0);
    return this.blocks[low]?.rows.find((row) => row.index === index);
  }

  /** Number of the record (the header is 0). */
  recordOf(row: Row): number {
    return (this.doc.blockRows[row.block.ordinal] as number) + row.index;
  }

  /** Keeps which of a row's computed cells aren't what they should be, a bit for each computed column; tells whether others were before. */
  markStale(row: Row, stale: number): boolean {
    const changed = stale ^ this.staleOf(row);
    if (changed === 0) return false;
    for (let i = 0; i < this.staleCounts.length; i++) {
      if ((changed >>> i) & 1) this.staleCounts[i] = (this.staleCounts[i] as number) + ((stale >>> i) & 1 ? 1 : -1);
    }
    if (stale === 0) this.#stale.delete(row);
    else this.#stale.set(row, stale);
    this.#staleInOrder = undefined;
    return true;
  }

  /** Rows with a computed cell that isn't what it should be, from the top down: few of a long file, most of the time. */
  get staleRows(): readonly Row[] {
    return (this.#staleInOrder ??= inWrittenOrder(this.#stale.keys()));
  }

  /** Which of a row's computed cells aren't what they should be, a bit for each computed column. */
  staleOf(row: Row): number {
    return this.#stale.get(row) ?? 0;
  }

  /** How many rows have something in a computed column, by its place among the header's. */
  filledCount(place: number): number {
    let count = 0;
    for (const block of this.blocks) count += filledIn(block, this.header)[place] as number;
    return count;
  }

  /** The cell's text as it stands, or undefined where the row is too short. */
  cellText(row: Row, column: number): string | undefined {
    const csv = row.block.csv;
    return column < cellsIn(csv, row.index) ? cellValue(csv, (csv.rowEdges[row.index] as number) + column) : undefined;
  }

  #take(doc: CsvDocument, reading: Reading, came?: RowsCame): RowChanges {
    const before = this.blocked === undefined ? this.doc : undefined;
    this.doc = doc;
    this.conflicts = conflictMarks(doc);
    this.blocked = this.badAt !== undefined ? 'csv-encoding' : doc.issues.length > 0 ? 'csv-quote' : this.conflicts.length > 0 ? 'csv-conflict' : firstRecord(doc) > 0 ? 'header-missing' : undefined;
    if (this.blocked !== undefined) return { removed: [], added: [] };
    const first = before?.blocks[0];
    const sameHeader = first !== undefined && first === doc.blocks[0] && this.#reading === reading;
    const header = sameHeader ? this.header : readHeader(doc, this.schema, reading.extraColumns);
    const sameColumns = header.text === this.header.text && this.#reading?.zone === reading.zone;
    this.#reading = reading;
    this.header = header;
    const changes = this.blocks.length === 0 ? this.#readBlocks(doc, { reading, came }) : this.#replaceBlocks(doc, { reading, reuse: sameColumns });
    if (!sameColumns) this.staleCounts = header.computed.map(() => 0);
    this.#readable = doc;
    return changes;
  }
  /** Few rows of a long file, most of the time. */
  readonly #stale = new Map<Row, number>();
  #staleInOrder: readonly Row[] | undefined;
  #readable: CsvDocument | undefined;
  #reading: Reading | undefined;

  /** Reads a text where there was none. Who hears of the rows while they are read gets no list of them. */
  #readBlocks(doc: CsvDocument, { reading, came }: { readonly reading: Reading; readonly came: RowsCame | undefined }): RowChanges {
    const blocks: RowBlock[] = [];
    for (const csv of doc.blocks) {
      const block = this.#readBlock(csv, { ordinal: blocks.length, reading });
      blocks.push(block);
      came?.(block.rows);
    }
    this.blocks = blocks;
    return { removed: [], added: came === undefined ? [...this.rows()] : [] };
  }

  #replaceBlocks(doc: CsvDocument, { reading, reuse }: { readonly reading: Reading; readonly reuse: boolean }): RowChanges {
    const old = this.blocks;
    let head = 0;
    let tail = 0;
    if (reuse) {
      const most = Math.min(old.length, doc.blocks.length);
      while (head < most && old[head]?.csv === doc.blocks[head]) head++;
      while (tail < most - head && old[old.length - 1 - tail]?.csv === doc.blocks[doc.blocks.length - 1 - tail]) tail++;
    }
    const gone = old.slice(head, old.length - tail).flatMap(({ rows }) => rows);
    const blocks: RowBlock[] = old.slice(0, head);
    const fresh = doc.blocks.slice(head, doc.blocks.length - tail);
    const stay = reuse ? rowsThatStay(gone, fresh, head === 0) : [];
    const kept = new Set(stay);
    let place = 0;
    fresh.forEach((csv, i) => {
      blocks.push(this.#readBlock(csv, { ordinal: head + i, reading, next: () => stay[place++] }));
    });
    for (const block of old.slice(old.length - tail)) {
      block.ordinal = blocks.length;
      blocks.push(block);
    }
    this.blocks = blocks;
    const removed = stay.length === 0 ? gone : gone.filter((row) => !kept.has(row));
    const added: Row[] = [];
    for (const { rows } of blocks.slice(head, blocks.length - tail)) for (const row of rows) if (!kept.has(row)) added.push(row);
    for (const row of removed) this.markStale(row, 0);
    return { removed, added };
  }

  #readBlock(csv: CsvBlock, { ordinal, reading, next }: { readonly ordinal: number; readonly reading: Reading; readonly next?: () => Row | undefined }): RowBlock {
    const rows: Row[] = [];
    const faulty: Row[] = [];
    // Each small file has a block of nothing but its header.
    const cells = ordinal === 0 && csv.rowCount === 1 ? NO_CELLS : new Cells(csv, this.header);
    const block: RowBlock = { csv, cells, file: this, ordinal, rows, faulty };
    for (let index = ordinal === 0 ? 1 : 0; index < csv.rowCount; index++) {
      if (isBlank(csv, index)) continue;
      const kept = next?.();
      if (kept !== undefined) {
        cells.take(index, kept.block.cells, kept.index);
        kept.block = block;
        kept.index = index;
      }
      const row = kept ?? this.#readRow(block, index, reading);
      rows.push(row);
      if (row.faults.length > 0) faulty.push(row);
    }
    return block;
  }

  #readRow(block: RowBlock, index: number, { zone }: Reading): Row {
    const { columns, read } = this.header;
    const { csv, cells } = block;
    const { text, codes, edges } = csv;
    const moments = momentReading(zone);
    const first = csv.rowEdges[index] as number;
    const count = cellsIn(csv, index);
    const wellFormed = count === columns.length;
    let faults: CellFault[] | undefined;
    if (!wellFormed) faults = [{ code: 'csv-columns', column: undefined, message: say('csv-columns', count, columns.length), suggestions: [] }];
    for (const { column, cast, isMoment, recurring, slot, unit } of read) {
      if (column >= count) break;
      const cell = first + column;
      const start = edges[cell] as number;
      const end = (edges[cell + 1] as number) - 1;
      if (start === end) continue;
      const isQuoted = codes[start] === 34;
      if (isMoment && !isQuoted && moments.read(codes, start, end)) {
        cells.set(index, slot, moments);
        continue;
      }
      const value =
        recurring !== undefined && !isQuoted
          ? recurring.read(csv, cell, zone)
          : cast(isQuoted ? cellValue(csv, cell) : text.slice(start, end), zone);
      if (value === undefined) continue;
      if (value instanceof CastFailure) {
        if (wellFormed) (faults ??= []).push({ code: value.code, column, message: value.message, suggestions: value.suggestions });
      } else if (unit === undefined) {
        cells.set(index, slot, value);
      } else if (cells.at(index, slot) === undefined) {
        cells.set(index, slot, siValue(value as number, unit));
      }
    }
    if (wellFormed) faults = this.#withMissing(csv, first, faults);
    return this.schema.name === 'clutches' ? registerRow(block, index, faults) : new Row(block, index, faults);
  }

  #withMissing(csv: CsvBlock, first: number, faults: CellFault[] | undefined): CellFault[] | undefined {
    const { required, oneOf } = this.header;
    let all = faults;
    for (const column of required) if (isEmptyCell(csv, first + column)) (all ??= []).push(this.#missing(column));
    for (const group of oneOf) if (areEmpty(csv, first, group)) (all ??= []).push(this.#missing(...group));
    return all;
  }

  /** One of these columns has to be filled. */
  #missing(...group: readonly number[]): CellFault {
    const names = group.map((column) => this.header.columns[column]?.header ?? '');
    const [name = '', other] = names;
    const message = other === undefined ? say('value-required', name) : say('value-required.either', name, other);
    return { code: 'value-required', column: group[0], message, suggestions: [] };
  }
}

const EMPTY = CsvDocument.parse('');
const NO_CELLS = new Cells({ text: '', codes: new Uint8Array(), rowCount: 0, edges: new Uint32Array(), rowEdges: new Uint32Array(1), issues: [] }, NO_HEADER);

const latestOf = new WeakMap<RowBlock, number>();

/** Asked once for each block of rows, so that only what changed is looked at again. */
export function latestIn(block: RowBlock, header: Header): number {
  let latest = latestOf.get(block);
  if (latest === undefined) {
    latest = Number.NEGATIVE_INFINITY;
    for (const { slot } of header.notFuture) {
      for (const row of block.rows) {
        const time = row.value(slot) as Moment | undefined;
        if (time !== undefined) latest = Math.max(latest, time.instant);
      }
    }
    latestOf.set(block, latest);
  }
  return latest;
}

const filledOf = new WeakMap<RowBlock, readonly number[]>();

/** How many cells of each computed column aren't empty; asked once for each block of rows, so that only what changed is looked at again. */
function filledIn(block: RowBlock, { computed }: Header): readonly number[] {
  let filled = filledOf.get(block);
  if (filled === undefined) {
    const { csv, rows } = block;
    filled = computed.map(({ column }) => rows.reduce((count, { index }) => count + (isFilled(csv, index, column) ? 1 : 0), 0));
    filledOf.set(block, filled);
  }
  return filled;
}

function isFilled(csv: CsvBlock, index: number, column: number): boolean {
  return column < cellsIn(csv, index) && !isEmptyCell(csv, (csv.rowEdges[index] as number) + column);
}

/** For each record of the new blocks in order: the old row that it still is, matched by text from the front and from the back. */
function rowsThatStay(gone: readonly Row[], fresh: readonly CsvBlock[], hasHeader: boolean): readonly (Row | undefined)[] {
  const texts: string[] = [];
  fresh.forEach((csv, i) => {
    for (let index = hasHeader && i === 0 ? 1 : 0; index < csv.rowCount; index++) {
      if (!isBlank(csv, index)) texts.push(rawText(csv, index));
    }
  });
  const stay = new Array<Row | undefined>(texts.length).fill(undefined);
  const isStill = (place: number, record: number): boolean => {
    const row = gone[place] as Row;
    return rawText(row.block.csv, row.index) === texts[record];
  };
  const most = Math.min(gone.length, texts.length);
  let front = 0;
  while (front < most && isStill(front, front)) {
    stay[front] = gone[front];
    front++;
  }
  let back = 0;
  while (back < most - front && isStill(gone.length - 1 - back, texts.length - 1 - back)) {
    stay[texts.length - 1 - back] = gone[gone.length - 1 - back];
    back++;
  }
  return stay;
}

function isBlank(csv: CsvBlock, index: number): boolean {
  return cellsIn(csv, index) === 1 && lengthOf(csv, csv.rowEdges[index] as number) === 0;
}

/** Nothing at all, or nothing between quotation marks. */
function isEmptyCell(csv: CsvBlock, cell: number): boolean {
  const length = lengthOf(csv, cell);
  return length === 0 || (length === 2 && cellValue(csv, cell) === '');
}

/** Whether nothing stands in any of some columns. */
function areEmpty(csv: CsvBlock, first: number, columns: readonly number[]): boolean {
  for (const column of columns) if (!isEmptyCell(csv, first + column)) return false;
  return true;
}

function lengthOf({ edges }: CsvBlock, cell: number): number {
  return (edges[cell + 1] as number) - 1 - (edges[cell] as number);
}

const marked = new WeakMap<CsvBlock, boolean>();

/** Blocks of a document of no more are soon looked through again. */
const FEW_BLOCKS = 2;

/** Of a long document asked once for each block, so that an edit does not look through the whole text again. */
function mayHoldMarks(csv: CsvBlock, { blocks }: CsvDocument): boolean {
  let may = marked.get(csv);
  if (may === undefined) {
    may = csv.text.includes('<<<<<<<') || csv.text.includes('>>>>>>>');
    if (blocks.length > FEW_BLOCKS) marked.set(csv, may);
  }
  return may;
}

/** Lines that a merge left: seven `<` or `>` at the start of a record. */
function conflictMarks(doc: CsvDocument): readonly Span[] {
  let found: Span[] | undefined;
  doc.blocks.forEach((csv, i) => {
    if (!mayHoldMarks(csv, doc)) return;
    for (let index = 0; index < csv.rowCount; index++) {
      const raw = rawText(csv, index);
      if (!raw.startsWith('<<<<<<<') && !raw.startsWith('>>>>>>>')) continue;
      const start = (doc.blockStarts[i] as number) + recordSpan(csv, index).start;
      (found ??= []).push({ start, end: start + raw.length });
    }
  });
  return found ?? [];
}
