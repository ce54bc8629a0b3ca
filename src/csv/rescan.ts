import type { TextEdit } from '../base/textEdit';
import { firstRows, type CsvBlock } from './block';
import { readDialect, type Dialect } from './dialect';
import { BlockScanner, blockRows } from './scanner';
import { lastAtMost } from './search';

/** A scanned text: blocks that tile it, and where each begins. */
export interface ScannedText {
  readonly blocks: readonly CsvBlock[];
  readonly blockStarts: Uint32Array;
  readonly length: number;
  readonly dialect: Dialect;
}

/** Neighbouring blocks, `first` to `last`, and what the edits make of their text. */
interface Region {
  readonly first: number;
  readonly last: number;
  readonly text: string;
}

/**
 * Scans what the edits touch and takes the other blocks over as they are. Undefined where the edits may change the
 * dialect, so that the whole text has to be scanned. Throws when edits overlap, are unsorted or reach outside the text.
 */
export function rescan(before: ScannedText, edits: readonly TextEdit[]): Pick<ScannedText, 'blocks' | 'dialect'> | undefined {
  const regions = regionsOf(before, edits);
  const dialect = dialectAfter(before, regions, edits[0]);
  if (!dialect) return undefined;
  const scanner = new BlockScanner(dialect.delimiter);
  const blocks: CsvBlock[] = [];
  let next = 0;
  for (const [index, region] of regions.entries()) {
    takeOver(blocks, before.blocks, { from: next, to: region.first });
    next = region.last + 1;
    const scanned = [...openAt(scanner, region, dialect), ...scanner.rest()];
    const last = scanned.at(-1);
    if (last && next < before.blocks.length && !endsWithLineEnd(last)) {
      scanFrom(before, regions.slice(index), { scanner, dialect, blocks });
      return { blocks, dialect };
    }
    for (const block of scanned) blocks.push(block);
  }
  takeOver(blocks, before.blocks, { from: next, to: before.blocks.length });
  return { blocks, dialect };
}

/** The blocks whose scan the edits can change. Those of several edits that meet in a block are one region. */
function regionsOf(before: ScannedText, edits: readonly TextEdit[]): Region[] {
  const regions: Region[] = [];
  let index = 0;
  let from = 0;
  while (index < edits.length) {
    const begin = index;
    let first = 0;
    let last = -1;
    for (let edit = edits[index]; edit; edit = edits[++index]) {
      if (edit.start < from || edit.end < edit.start || edit.end > before.length) {
        throw new Error(`edit ${edit.start}-${edit.end} is out of order or outside a text of length ${before.length}`);
      }
      const touched = firstTouched(before, edit.start);
      if (index === begin) first = touched;
      else if (touched > last) break;
      // The block that begins where the edit ends is touched too: its first record may now continue the one before.
      last = lastAtMost(before.blockStarts, edit.end);
      from = edit.end;
    }
    regions.push({ first, last, text: editedText(before, { first, last }, edits.slice(begin, index)) });
  }
  return regions;
}

/** Joined of its pieces at once, since a text that was added up is slow to scan. */
function editedText({ blocks, blockStarts }: ScannedText, { first, last }: { first: number; last: number }, edits: readonly TextEdit[]): string {
  const text = textOf(blocks.slice(first, last + 1));
  const offset = blockStarts[first] as number;
  const pieces: string[] = [];
  let from = 0;
  for (const { start, end, text: replacement } of edits) {
    pieces.push(text.slice(from, start - offset), replacement);
    from = end - offset;
  }
  pieces.push(text.slice(from));
  return pieces.join('');
}

function firstTouched({ blocks, blockStarts }: ScannedText, offset: number): number {
  const block = lastAtMost(blockStarts, offset);
  // A line feed put behind a carriage return makes one line end of the two.
  const joins = blockStarts[block] === offset && blocks[block - 1]?.text.endsWith('\r');
  return joins ? block - 1 : block;
}

function dialectAfter(before: ScannedText, regions: readonly Region[], edit: TextEdit | undefined): Dialect | undefined {
  const [region] = regions;
  if (!region || !edit || edit.start >= before.dialect.decidedBy) return before.dialect;
  if (region.first > 0) return undefined;
  const dialect = readDialect(region.text);
  const known = dialect.decidedBy < Infinity || region.last === before.blocks.length - 1;
  return known && dialect.delimiter === before.dialect.delimiter ? dialect : undefined;
}

/** Turns the scanner to a text that begins where block `first` does. Gives the header block, where that is the first. */
function openAt(scanner: BlockScanner, { first, text }: Pick<Region, 'first' | 'text'>, { hasBom }: Dialect): CsvBlock[] {
  scanner.open(text, first === 0 && hasBom ? 1 : 0);
  return first === 0 && !scanner.isDone() ? [scanner.next(1)] : [];
}

/**
 * Scans on from a region behind which the old records no longer begin where they did (a quoted cell was opened, say),
 * until a record begins where an old block did and no edit follows, or to the end of the text.
 */
function scanFrom(before: ScannedText, regions: readonly Region[], into: { scanner: BlockScanner; dialect: Dialect; blocks: CsvBlock[] }): void {
  const { scanner, dialect, blocks } = into;
  const { first } = regions[0] as Region;
  const pieces: string[] = [];
  let next = first;
  let edited = 0;
  for (const region of regions) {
    pieces.push(textOf(before.blocks.slice(next, region.first)), region.text);
    edited += (before.blockStarts[region.first] as number) - (before.blockStarts[next] ?? before.length) + region.text.length;
    next = region.last + 1;
  }
  const moved = edited - (before.blockStarts[next] ?? before.length);
  pieces.push(textOf(before.blocks.slice(next)));
  blocks.push(...openAt(scanner, { first, text: pieces.join('') }, dialect));
  while (!scanner.isDone()) {
    const from = scanner.position;
    const block = scanner.next(blockRows);
    while (next < before.blocks.length && (before.blockStarts[next] as number) + moved <= from) next++;
    for (; next < before.blocks.length; next++) {
      const start = (before.blockStarts[next] as number) + moved;
      if (start > scanner.position) break;
      const rows = start === scanner.position ? block.rowCount : rowAt(block, start - from);
      if (rows === undefined) continue;
      blocks.push(firstRows(block, rows));
      takeOver(blocks, before.blocks, { from: next, to: before.blocks.length });
      return;
    }
    blocks.push(block);
  }
}

/** The record of a block that begins at an offset. */
function rowAt(block: CsvBlock, offset: number): number | undefined {
  const edge = lastAtMost(block.edges, offset);
  const row = lastAtMost(block.rowEdges, edge);
  return block.edges[edge] === offset && block.rowEdges[row] === edge ? row : undefined;
}

function endsWithLineEnd(block: CsvBlock): boolean {
  return (block.edges.at(-1) ?? 0) <= block.text.length;
}

function takeOver(into: CsvBlock[], blocks: readonly CsvBlock[], { from, to }: { from: number; to: number }): void {
  for (let index = from; index < to; index++) into.push(blocks[index] as CsvBlock);
}

function textOf(blocks: readonly CsvBlock[]): string {
  return blocks.length === 1 ? (blocks[0] as CsvBlock).text : blocks.map((block) => block.text).join('');
}
