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

/** The best of the candidates, at most `MOST`: where they are more than that, those that begin with what was typed stand before all others. */
export function pick(candidates: readonly Candidate[], typed: string, kind: Suggestion['kind']): Picked {
  const isIncomplete = candidates.length > MOST;
  const isMeant = (candidate: Candidate): number => (isIncomplete && beginsWith(candidate.value, typed) ? 0 : 1);
  const inOrder = [...candidates].sort((a, b) => isMeant(a) - isMeant(b) || a.rank - b.rank || (a.near ?? 0) - (b.near ?? 0));
  return { suggestions: inOrder.slice(0, MOST).map(({ value, describe }) => ({ value, kind, beside: describe() })), isIncomplete };
}

/** Whether a text begins with another, in whatever case. */
export function beginsWith(text: string, beginning: string): boolean {
  return text.startsWith(beginning) || text.slice(0, beginning.length).toLowerCase() === beginning.toLowerCase();
}
