/** Order of texts by their code units, the same on every machine whatever its language. */
export function compareTexts(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

const natural = new Intl.Collator('en', { numeric: true });

/** Order of texts as people count: T9 before T10; 0 for some that differ, such as 2 and 02. */
export function compareNaturally(a: string, b: string): number {
  return natural.compare(a, b);
}

/** The same for names, of which no two are equal. */
export function compareNames(a: string, b: string): number {
  return compareNaturally(a, b) || compareTexts(a, b);
}
