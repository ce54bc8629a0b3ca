import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { castId } from '../schema/id';
import { CastFailure } from '../schema/value';

/** A thing that a keeper called by any name, and the id that it can have in a sheet. */
export interface NamedThing {
  readonly id: string;
  /** What was typed, where that can't be an id. */
  readonly name?: string;
}

/** Reads names separated by commas; blank ones are passed over. Or says what is wrong with them: one that no id can be made of, or two with one id. */
export function typedNames(text: string): { readonly names: readonly NamedThing[] } | { readonly fault: Message } {
  const names: NamedThing[] = [];
  const taken = new Set<string>();
  for (const part of text.normalize('NFC').split(',')) {
    const typed = part.trim();
    if (typed === '') continue;
    const id = castId(idFrom(typed));
    if (id instanceof CastFailure) return { fault: id.message };
    // Files are named after things, and not every disk tells capitals apart.
    if (taken.has(id.toLowerCase())) return { fault: say('act.new-fishroom.twice', typed) };
    taken.add(id.toLowerCase());
    names.push(id === typed ? { id } : { id, name: typed });
  }
  return { names };
}

/** The text itself where it can be an id, else its words in lower case with `-` between them; the text where nothing is left of it. */
function idFrom(text: string): string {
  if (!(castId(text) instanceof CastFailure)) return text;
  const words = text.toLowerCase().match(/[\p{L}\p{M}\p{Nd}]+/gu) ?? [];
  const id = words.join('-');
  return id === '' ? text : id;
}
