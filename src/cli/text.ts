import { say, textOf } from '../base/messages';
import type { MessageCode } from '../base/messages';
import type { Severity } from '../schema/problemCodes';
import type { Io } from './io';

/** Colours a text for a terminal, or leaves it as it is. */
export type Paint = (text: string) => string;

export interface Paints {
  readonly heading: Paint;
  readonly quiet: Paint;
  readonly severity: Readonly<Record<Severity, Paint>>;
}

/** Colours are for terminals that show them, and where nobody forbade them (https://no-color.org). */
export function paintsFor({ out, env }: Io): Paints {
  const isColoured = out.isTerminal && (env['NO_COLOR'] ?? '') === '' && env['TERM'] !== 'dumb';
  const paint = (start: number, end: number): Paint => (isColoured ? (text) => `\u001b[${start}m${text}\u001b[${end}m` : (text) => text);
  return {
    heading: paint(1, 22),
    quiet: paint(2, 22),
    severity: { error: paint(31, 39), warning: paint(33, 39), information: paint(36, 39), hint: paint(2, 22) },
  };
}

export interface Cell {
  readonly text: string;
  readonly paint?: Paint;
}

/** Lines whose cells stand below each other, two blanks apart; the last cell of a line is as long as it likes. */
export function aligned(rows: readonly (readonly Cell[])[], indent: string): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.slice(0, -1).forEach((cell, column) => {
      widths[column] = Math.max(widths[column] ?? 0, widthOf(cell.text));
    });
  }
  return rows.map((row) => {
    const cells = row.map(({ text, paint = plain }, column) => {
      const room = column === row.length - 1 ? 0 : (widths[column] ?? 0) - widthOf(text);
      return paint(text) + ' '.repeat(room);
    });
    return indent + cells.join('  ').trimEnd();
  });
}

function plain(text: string): string {
  return text;
}

function widthOf(text: string): number {
  return [...text].length;
}

/** Longer texts are cut: they come out of cells, which may hold anything. */
const longest = 400;

/**
 * A text out of records or names of files on one line, safe for a terminal: signs that would steer it, break the line or
 * turn its direction show as their codes.
 */
export function visible(text: string, most = longest): string {
  const cut = text.length > most ? `${text.slice(0, most)}…` : text;
  return cut.replaceAll(/[\p{Cc}\p{Cs}\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]/gu, (sign) => {
    const short = shortEscapes.get(sign);
    return short ?? `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
  });
}

const shortEscapes: ReadonlyMap<string, string> = new Map([
  ['\n', '\\n'],
  ['\r', '\\r'],
  ['\t', '\\t'],
]);

type Counted = 'errors' | 'warnings' | 'informations' | 'hints' | 'files' | 'cells' | 'lines' | 'columns';

/** "1 file", "3 files". */
export function countOf(counted: Counted, count: number): string {
  const many: MessageCode = `cli.${counted}`;
  return textOf(count === 1 ? say(`${many}.one`) : say(many, count));
}

/** The sections with a blank line between them. */
export function* parted(sections: Iterable<readonly string[]>): Generator<string> {
  let isFirst = true;
  for (const lines of sections) {
    if (!isFirst) yield '';
    isFirst = false;
    yield* lines;
  }
}
