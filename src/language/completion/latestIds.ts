import { keyText } from '../../records/row';
import type { Row, RowBlock } from '../../records/row';
import type { SheetFile } from '../../records/sheetFile';
import { fitOf, MOST } from './suggestion';

/**
 * Rows of a register from its end whose names fit what was typed, those that fit best first: at most one more than are
 * shown, so that it is known whether there are others. Of rows that don't fit, no more is read than the names of their block.
 */
export function latestFitting(register: SheetFile | undefined, typed: string, isWanted: (row: Row) => boolean): readonly Row[] {
  const folded = typed.toLowerCase();
  const beginning: Row[] = [];
  const byFit: readonly Row[][] = [beginning, [], []];
  const { blocks = [] } = register ?? {};
  for (let i = blocks.length - 1; i >= 0 && beginning.length <= MOST; i--) {
    for (const row of rowsHolding(blocks[i] as RowBlock, folded)) {
      const rows = byFit[fitOf(keyText(row), folded)];
      if (rows !== undefined && rows.length <= MOST && isWanted(row)) rows.push(row);
    }
  }
  return byFit.flat().slice(0, MOST + 1);
}

const NO_ROWS: readonly Row[] = [];

/** The named rows of a block whose names hold the letters in their order, from the last to the first. */
function rowsHolding(block: RowBlock, letters: string): readonly Row[] {
  if (letters === '') return block.rows.filter((row) => keyText(row) !== '').reverse();
  const names = namesIn(block);
  let found: Row[] | undefined;
  let met = 0;
  let place = 0;
  for (let at = 0; at < names.length; at++) {
    const letter = names.charCodeAt(at);
    if (letter === LINE_END) {
      if (met === letters.length) (found ??= []).push(block.rows[place] as Row);
      met = 0;
      place++;
    } else if (letter === letters.charCodeAt(met)) {
      met++;
    }
  }
  return found?.reverse() ?? NO_ROWS;
}

/** No name holds one. */
const LINE_END = 10;

const texts = new WeakMap<RowBlock, string>();

/** The names of a block's rows in lower case, each with a line end; made once for each block of rows, so that only what changed is read again. */
function namesIn(block: RowBlock): string {
  let names = texts.get(block);
  if (names === undefined) {
    names = block.rows.map((row) => `${keyText(row)}\n`).join('').toLowerCase();
    texts.set(block, names);
  }
  return names;
}
