export type Delimiter = ',' | ';' | '\t';

/** How a sheet is written. */
export interface Dialect {
  readonly delimiter: Delimiter;
  /** Whether the text begins with a byte order mark (U+FEFF), which is no part of the first cell. */
  readonly hasBom: boolean;
  /** Only the text before this offset decides the dialect; Infinity where more text behind its end could. */
  readonly decidedBy: number;
}

const candidates = [',', ';', '\t'] as const;

/**
 * Reads the dialect from the header record: the delimiter that stands there most often outside quoted cells, a comma
 * before a semicolon before a tab where it is a tie, a comma where there is none.
 */
export function readDialect(text: string): Dialect {
  const hasBom = text.startsWith('\uFEFF');
  const counts: Record<Delimiter, number> = { ',': 0, ';': 0, '\t': 0 };
  const mark = /[,;\t"\r\n]/g;
  let cellStart = hasBom ? 1 : 0;
  let decidedBy = Infinity;
  mark.lastIndex = cellStart;
  for (let found = mark.exec(text); found; found = mark.exec(text)) {
    const at = found.index;
    const character = found[0];
    if (character === '"') {
      if (at === cellStart) mark.lastIndex = behindQuotedCell(text, at);
    } else if (character === '\r' || character === '\n') {
      decidedBy = at + 1;
      break;
    } else {
      counts[character as Delimiter]++;
      cellStart = at + 1;
    }
  }
  let delimiter: Delimiter = ',';
  for (const candidate of candidates) if (counts[candidate] > counts[delimiter]) delimiter = candidate;
  return { delimiter, hasBom, decidedBy };
}

/** Whether a header cell must be quoted lest its text count when the delimiter is read. */
export function holdsDelimiter(value: string): boolean {
  return /[,;\t]/.test(value);
}

/** While the delimiter is unknown, a quotation mark closes before any of them, a line end or the end of the text. */
function behindQuotedCell(text: string, open: number): number {
  const cellEnd = /[^\S\r\n]*(?:[,;\t\r\n]|$)/y;
  let mark = text.indexOf('"', open + 1);
  while (mark !== -1) {
    const doubled = text.charAt(mark + 1) === '"';
    cellEnd.lastIndex = mark + 1;
    if (!doubled && cellEnd.test(text)) return mark + 1;
    mark = text.indexOf('"', mark + (doubled ? 2 : 1));
  }
  return text.length;
}
