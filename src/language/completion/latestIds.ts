import { keyText } from '../../records/row';
import type { Row, RowBlock } from '../../records/row';
import type { SheetFile } from '../../records/sheetFile';
import { MOST } from './suggestion';

/**
 * Rows of a register from its end whose names fit what was typed, those that fit best first (as `fitOf` says): at most one more
 * than are shown, so that it is known whether there are others. Of rows that don't fit nothing is read but a text of all names.
 */
export function latestFitting(register: SheetFile | undefined, typed: string, isWanted: (row: Row) => boolean): readonly Row[] {
  const blocks = register?.blocks ?? [];
  return typed === '' ? latest(blocks, isWanted) : new Search(blocks, { letters: typed.toLowerCase(), isWanted }).rows();
}

function latest(blocks: readonly RowBlock[], isWanted: (row: Row) => boolean): readonly Row[] {
  const found: Row[] = [];
  for (let i = blocks.length - 1; i >= 0; i--) {
    const { rows } = blocks[i] as RowBlock;
    for (let j = rows.length - 1; j >= 0; j--) {
      const row = rows[j] as Row;
      if (keyText(row) !== '' && isWanted(row) && found.push(row) > MOST) return found;
    }
  }
  return found;
}

/** So many letters of all names are looked through at a time. */
const PART = 20_000;

/** Whatever goes from letter to letter is left to the engine, which does it many times as fast: nobody completes so often that this becomes warm. */
class Search {
  readonly #blocks: readonly RowBlock[];
  readonly #names: Names;
  readonly #letters: string;
  readonly #isWanted: (row: Row) => boolean;
  /** By where their names begin. */
  readonly #found = new Map<number, Row>();

  constructor(blocks: readonly RowBlock[], { letters, isWanted }: { readonly letters: string; readonly isWanted: (row: Row) => boolean }) {
    this.#blocks = blocks;
    this.#names = namesIn(blocks);
    this.#letters = letters;
    this.#isWanted = isWanted;
  }

  rows(): readonly Row[] {
    for (const letter of this.#letters) if (!this.#names.text.includes(letter)) return [];
    this.#look((part) => placesOf(part, `\n${this.#letters}`));
    this.#look((part) => placesOf(part, this.#letters));
    const codes = this.#letters.split('').map((letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`);
    // From a first letter on there is one way to match, so it is never long in failing.
    const pattern = new RegExp(codes.map((code, place) => (place === 0 ? code : `[^\\n${code}]*${code}`)).join(''), 'g');
    this.#look((part) => Array.from(part.matchAll(pattern), ({ index }) => index));
    return [...this.#found.values()];
  }

  /** Takes the rows of what is found in the names, from their end. */
  #look(find: (part: string) => readonly number[]): void {
    const { text } = this.#names;
    for (let end = text.length; end > 0 && this.#found.size <= MOST; ) {
      const start = end <= PART ? 0 : text.lastIndexOf('\n', end - PART);
      const places = find(text.slice(start, end));
      for (let i = places.length - 1; i >= 0 && this.#found.size <= MOST; i--) this.#take(text.lastIndexOf('\n', start + (places[i] as number)));
      end = start;
    }
  }

  /** Takes the row whose name stands behind a line end. */
  #take(start: number): void {
    if (this.#found.has(start)) return;
    const { text, starts } = this.#names;
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >>> 1;
      if ((starts[middle] as number) <= start) low = middle;
      else high = middle - 1;
    }
    const place = text.slice(starts[low], start).split('\n').length - 1;
    const row = (this.#blocks[low] as RowBlock).rows[place] as Row;
    if (this.#isWanted(row)) this.#found.set(start, row);
  }
}

/** Where a text stands. Forwards: the engine is slow in looking for something backwards. */
function placesOf(names: string, text: string): readonly number[] {
  const places: number[] = [];
  for (let at = names.indexOf(text); at >= 0; at = names.indexOf(text, at + 1)) places.push(at);
  return places;
}

/** The names of all rows in lower case, each behind a line end, and where those of each block begin. */
interface Names {
  readonly text: string;
  readonly starts: readonly number[];
}

const known = new WeakMap<readonly RowBlock[], Names>();

/** Made once for each state of a register, out of what is kept of its blocks. */
function namesIn(blocks: readonly RowBlock[]): Names {
  let names = known.get(blocks);
  if (names === undefined) {
    const texts = blocks.map(namesOf);
    let length = 0;
    const starts = texts.map((text) => (length += text.length) - text.length);
    names = { text: texts.join(''), starts };
    known.set(blocks, names);
  }
  return names;
}

const texts = new WeakMap<RowBlock, string>();

/** Made once for each block of rows, so that only what changed is read again. */
function namesOf(block: RowBlock): string {
  let names = texts.get(block);
  if (names === undefined) {
    names = block.rows.map((row) => `\n${keyText(row)}`).join('').toLowerCase();
    texts.set(block, names);
  }
  return names;
}
