import { isMessageCode, say } from '../base/messages';
import type { Message } from '../base/messages';

/** Columns that take their words from another. */
const sameWords: Readonly<Record<string, string>> = { until_anchor: 'anchor', done_by: 'event' };

/** What a word of an `enum` column says, in one sentence; undefined for a word that isn't one of that column. */
export function meaningOf(field: string, word: string): Message | undefined {
  const code = `word.${sameWords[field] ?? field}.${word}`;
  return isMessageCode(code) ? say(code) : undefined;
}
