import type { Span } from './span';

/** Replaces a span of a text. A list of edits is sorted by start, without overlaps, all offsets in the old text. */
export interface TextEdit extends Span {
  readonly text: string;
}

/** The text after the edits. Throws when they overlap, are unsorted or reach outside the text. */
export function applyEdits(text: string, edits: readonly TextEdit[]): string {
  let result = '';
  let from = 0;
  for (const edit of edits) {
    if (edit.start < from || edit.end < edit.start || edit.end > text.length) {
      throw new Error(`edit ${edit.start}-${edit.end} is out of order or outside a text of length ${text.length}`);
    }
    result += text.slice(from, edit.start) + edit.text;
    from = edit.end;
  }
  return result + text.slice(from);
}
