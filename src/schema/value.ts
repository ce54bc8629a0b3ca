import type { Duration } from '../base/duration';
import type { Message } from '../base/messages';
import type { Moment } from '../base/moment';

/** A number of fish or eggs; `about` when the keeper wrote `~` before it. */
export interface Count {
  readonly value: number;
  readonly about: boolean;
}

/**
 * What a cell holds: a string of an id, text, url, enum (or a word in place of a duration), a number, a count, a moment
 * (a day: a bare one), a duration, the words of ids and codes. Undefined: the cell is empty, so it isn't known.
 */
export type Value = string | number | Count | Moment | Duration | readonly string[] | undefined;

type CastCode = 'value-type' | 'value-enum' | 'value-range' | 'value-pattern';

/** Why a text is no value of its field, and texts that would be one and may be what was meant. */
export class CastFailure {
  readonly code: CastCode;
  readonly message: Message;
  readonly suggestions: readonly string[];

  constructor(code: CastCode, message: Message, suggestions: readonly string[] = []) {
    this.code = code;
    this.message = message;
    this.suggestions = suggestions;
  }
}

const shownLength = 40;

/** A cell's text as messages show it: at most 40 characters, on one line. */
export function shown(text: string): string {
  const short = text.length > shownLength ? `${[...text.slice(0, shownLength - 1)].slice(0, -1).join('')}…` : text;
  return short.replace(/[\u0000-\u001f\u007f\u2028\u2029]/g, ' ');
}
