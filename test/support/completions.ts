import { textOf } from '../../src/base/messages';
import { completionsAt } from '../../src/language/completion/complete';
import type { Completions } from '../../src/language/completion/complete';
import { applyEdits } from '../../src/base/textEdit';
import { unmark } from './marked';
import type { MarkedTexts } from './marked';
import { roomOf } from './room';

/** What may stand in place of the marked text, where the cursor stands at its end. Throws unless just the marked text would be replaced. */
export function offered(marked: MarkedTexts, now = '2026-06-10T09:00'): Completions | undefined {
  const { texts, file, span } = unmark(marked);
  const found = completionsAt(roomOf(texts, now), file, span.end);
  if (found !== undefined && (found.span.start !== span.start || found.span.end !== span.end)) throw new Error(`${JSON.stringify(found.span)} would be replaced, not ${JSON.stringify(span)}`);
  return found;
}

/** The same as texts: `T01 (front A1 · breeding)`. */
export function offeredTexts(marked: MarkedTexts, now?: string): readonly string[] {
  return (offered(marked, now)?.suggestions ?? []).map(({ value, beside }) => {
    const what = beside.map((part) => (typeof part === 'string' ? part : textOf(part))).join(' · ');
    return what === '' ? value : `${value} (${what})`;
  });
}

/** The values alone. */
export function offeredValues(marked: MarkedTexts, now?: string): readonly string[] {
  return (offered(marked, now)?.suggestions ?? []).map(({ value }) => value);
}

/** The file's text after a suggestion was taken. */
export function taken(marked: MarkedTexts, value: string): string {
  const { texts, file } = unmark(marked);
  const found = offered(marked);
  const suggestion = found?.suggestions.find((one) => one.value === value);
  if (found === undefined || suggestion === undefined) throw new Error(`${value} is not offered`);
  return applyEdits(texts[file] ?? '', [{ ...found.span, text: suggestion.insert }]);
}
