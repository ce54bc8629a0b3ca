import type { Span } from '../../src/base/span';

/** Texts of files in which «» stand around one place. */
export type MarkedTexts = Readonly<Record<string, string>>;

export interface Marked {
  readonly texts: Readonly<Record<string, string>>;
  readonly file: string;
  readonly span: Span;
}

/** Takes the marks out. Throws unless they stand around exactly one place. */
export function unmark(marked: MarkedTexts): Marked {
  const holding = Object.keys(marked).filter((path) => marked[path]?.includes('«'));
  const [file] = holding;
  const text = file === undefined ? '' : (marked[file] as string);
  const start = text.indexOf('«');
  const end = text.indexOf('»') - 1;
  if (file === undefined || holding.length > 1 || end < start || text.lastIndexOf('«') !== start) throw new Error('one place of one file is marked with «»');
  return { texts: { ...marked, [file]: text.replace(/[«»]/g, '') }, file, span: { start, end } };
}
