import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { CsvDocument } from '../../../src/csv/document';

/** How each record stands in the text. */
export interface WrittenRecord {
  readonly cells: readonly string[];
  readonly lineEnd: string;
}

/** A sheet that reads without issues: what its cells mean and how they are written. */
export interface Sheet {
  readonly delimiter: string;
  readonly bom: string;
  readonly values: readonly (readonly string[])[];
  readonly records: readonly WrittenRecord[];
  readonly text: string;
}

const pieces = ['a', '7', ' ', '"', ',', ';', '\t', '\n', '\r', '\r\n', 'é', '🐟', '\uD83D', '\u6C34', '\uFEFF', '\0', '\u00A0', '~'] as const;

/** Any text a cell can mean. */
export const cellText = fc.oneof(
  { weight: 1, arbitrary: fc.constant('') },
  { weight: 2, arbitrary: fc.constantFrom('T07', 'c-12', '2026-03-04', '~200', 'angelfish') },
  { weight: 3, arbitrary: fc.array(fc.constantFrom(...pieces), { maxLength: 5 }).map((parts) => parts.join('')) },
);

interface Draft {
  readonly cells: readonly { readonly value: string; readonly quoted: boolean; readonly blanks: string }[];
  readonly lineEnd: string;
}

/** Sheets of every dialect, quoting habit and line end, mixed line ends unless one is given, blank lines and records of every width. */
export function anySheet(onlyLineEnd?: string): fc.Arbitrary<Sheet> {
  const cell = fc.record({ value: cellText, quoted: fc.boolean(), blanks: fc.constantFrom('', '', '', ' ', '\u00A0 ') });
  const record = fc.record({
    cells: fc.array(cell, { minLength: 1, maxLength: 4 }),
    lineEnd: onlyLineEnd === undefined ? fc.constantFrom('\n', '\r\n', '\r') : fc.constant(onlyLineEnd),
  });
  return fc
    .record({
      delimiter: fc.constantFrom(',', ';', '\t'),
      bom: fc.constantFrom('', '\uFEFF'),
      drafts: fc.array(record, { minLength: 1, maxLength: 6 }),
      finalLineEnd: fc.boolean(),
    })
    .map(({ delimiter, bom, drafts, finalLineEnd }) => sheetOf({ delimiter: drafts[0]?.cells.length === 1 ? ',' : delimiter, bom, drafts, finalLineEnd }));
}

function sheetOf(plan: { delimiter: string; bom: string; drafts: readonly Draft[]; finalLineEnd: boolean }): Sheet {
  const { delimiter, bom, drafts, finalLineEnd } = plan;
  const records: { cells: string[]; lineEnd: string }[] = [];
  for (const [row, draft] of drafts.entries()) {
    const cells = draft.cells.map(({ value, quoted, blanks }, column) => {
      const plain = !quoted && !value.startsWith('"') && !value.includes(delimiter) && !/[\r\n]/.test(value);
      const safeInHeader = row > 0 || !/[,;\t]/.test(value);
      const safeAtBeginning = row > 0 || column > 0 || bom !== '' || !value.startsWith('\uFEFF');
      return plain && safeInHeader && safeAtBeginning ? value : `"${value.replaceAll('"', '""')}"${blanks}`;
    });
    const blank = cells.length === 1 && cells[0] === '';
    const last = row === drafts.length - 1;
    const merges = blank && draft.lineEnd === '\n' && records.at(-1)?.lineEnd === '\r';
    const lineEnd = last && !finalLineEnd && !blank ? '' : merges ? '\r' : draft.lineEnd;
    records.push({ cells, lineEnd });
  }
  const values = drafts.map((draft) => draft.cells.map(({ value }) => value));
  return { delimiter, bom, values, records, text: bom + textOf(records, delimiter) };
}

export function textOf(records: readonly WrittenRecord[], delimiter: string): string {
  return records.map(({ cells, lineEnd }) => cells.join(delimiter) + lineEnd).join('');
}

export function tableOf(document: CsvDocument): string[][] {
  return rowNumbers(document).map((row) => Array.from({ length: document.cellCount(row) }, (_, column) => document.value(row, column)));
}

export function recordsOf(document: CsvDocument): WrittenRecord[] {
  return rowNumbers(document).map((row) => ({
    cells: Array.from({ length: document.cellCount(row) }, (_, column) => document.source(row, column)),
    lineEnd: document.lineEnd(row),
  }));
}

function rowNumbers(document: CsvDocument): number[] {
  return Array.from({ length: document.rowCount }, (_, row) => row);
}

/** All that can be asked of a document but where its blocks begin, as one text; checks that the blocks are whole. */
export function contentsOf(document: CsvDocument): string {
  assertWholeBlocks(document);
  const lines = [`${JSON.stringify(document.delimiter)} ${document.hasBom} ${document.length} ${document.rowCount}`];
  for (const { kind, span } of document.issues) lines.push(`${kind} ${span.start}-${span.end}`);
  for (let row = 0; row < document.rowCount; row++) {
    const whole = document.rowSpan(row);
    let line = `${row} ${whole.start}-${whole.end}`;
    for (let column = 0; column < document.cellCount(row); column++) {
      const { start, end } = document.span(row, column);
      line += `|${start}-${end}=${document.value(row, column)}`;
    }
    lines.push(line + JSON.stringify(document.lineEnd(row)));
  }
  return lines.join('\n');
}

function assertWholeBlocks(document: CsvDocument): void {
  const { blocks, blockStarts, blockRows, length, rowCount } = document;
  assert.ok(rowCount === 0 || blocks[0]?.rowCount === 1, 'the header stands alone');
  let start = 0;
  let row = 0;
  for (const [index, block] of blocks.entries()) {
    assert.equal(blockStarts[index], start);
    assert.equal(blockRows[index], row);
    assert.ok(block.rowCount > 0 || blocks.length === 1, 'no block is empty');
    assert.ok(block.rowCount <= 128, `${block.rowCount} records in a block`);
    assert.equal(block.rowEdges.length, block.rowCount + 1);
    assert.equal(block.rowEdges.at(-1), block.edges.length);
    start += block.text.length;
    row += block.rowCount;
  }
  assert.deepEqual([start, row, blocks.map((block) => block.text).join('')], [length, rowCount, document.text()]);
}
