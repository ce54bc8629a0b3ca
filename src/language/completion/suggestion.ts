import type { Message } from '../../base/messages';

/** What may be written in a cell. */
export interface Suggestion {
  /** The cell's text, of a cell with several words one of them; without quoting. */
  readonly value: string;
  readonly kind: 'thing' | 'new name' | 'event' | 'word' | 'moment' | 'duration' | 'code' | 'column' | 'computed column';
  /** What it is, shown beside it: what the records say as it stands there, all else as messages. */
  readonly beside: readonly (string | Message)[];
  /** More about it, for who looks closer. */
  readonly about?: string | Message;
}

/** A suggestion that isn't made yet, since only the best of many are shown. */
export interface Candidate {
  readonly value: string;
  /** Lower ones stand first. */
  readonly rank: number;
  /** Orders those of one rank; else they stay as they come. */
  readonly near?: number;
  /** What stands beside it. */
  readonly describe: () => Suggestion['beside'];
}

/** No more are shown of one list; a keeper types on before reading so many. */
export const MOST = 200;

export interface Picked {
  readonly suggestions: readonly Suggestion[];
  /** There are more, which further typing brings up. */
  readonly isIncomplete: boolean;
}

/** The best of the candidates, at most `MOST`: where they are more than that, those that fit what was typed stand before all others. */
export function pick(candidates: readonly Candidate[], typed: string, kind: Suggestion['kind']): Picked {
  const isIncomplete = candidates.length > MOST;
  const folded = isIncomplete ? typed.toLowerCase() : '';
  const inOrder = candidates
    .map((candidate) => ({ candidate, fit: fitOf(candidate.value, folded), near: candidate.near ?? 0 }))
    .sort((a, b) => a.fit - b.fit || a.candidate.rank - b.candidate.rank || a.near - b.near);
  return { suggestions: inOrder.slice(0, MOST).map(({ candidate: { value, describe } }) => ({ value, kind, beside: describe() })), isIncomplete };
}

/** How well a text goes with what was typed of it, given in lower case: 0 begins with it, 1 holds it, 2 holds its letters in that order, 3 doesn't; in whatever case. */
function fitOf(text: string, typed: string): 0 | 1 | 2 | 3 {
  if (typed === '') return 0;
  const folded = text.toLowerCase();
  const place = folded.indexOf(typed);
  if (place >= 0) return place === 0 ? 0 : 1;
  let from = 0;
  for (const letter of typed) {
    const at = folded.indexOf(letter, from);
    if (at < 0) return 3;
    from = at + letter.length;
  }
  return 2;
}
