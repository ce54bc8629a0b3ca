/**
 * The cell as RFC 4180 writes it: between quotation marks, its own marks doubled, when it holds the delimiter, a
 * quotation mark or a line end; else as it is.
 */
export function quoteCell(value: string, delimiter: string): string {
  return value.includes(delimiter) || /["\r\n]/.test(value) ? quoted(value) : value;
}

/** The value between quotation marks, its own marks doubled. */
export function quoted(value: string): string {
  return `"${value.replaceAll('"', '""')}"`;
}

/**
 * The value of a cell as it is written, which may have blanks behind its closing mark. A cell whose mark is never
 * closed is read as papaparse does: all that follows the opening mark, nothing undone.
 */
export function unquoteCell(source: string): string {
  if (!source.startsWith('"')) return source;
  const close = closingQuote(source);
  return close === undefined ? source.slice(1) : source.slice(1, close).replaceAll('""', '"');
}

/** Where the closing mark of a quoted cell stands; undefined where it is never closed. */
export function closingQuote(source: string): number | undefined {
  const end = source.trimEnd().length;
  let from = end;
  while (from > 1 && source.charCodeAt(from - 1) === 34) from--;
  // Marks pair from the left, so the last of a run closes the cell when their number is odd.
  return (end - from) % 2 === 1 ? end - 1 : undefined;
}
