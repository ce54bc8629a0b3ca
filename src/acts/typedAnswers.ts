import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { Answers, AskedField } from './act';

/** Stands for a value that isn't known. */
const NONE = '-';

/**
 * Reads several answers from one line: values separated by blanks, in the order of the fields; `-` or nothing leaves one out. A field of free words takes all
 * that is left. Or says that there are more than were asked for.
 */
export function typedAnswers(text: string, fields: readonly AskedField[]): { readonly answers: Answers } | { readonly fault: Message } {
  const answers: Record<string, string> = {};
  let rest = text.trim();
  for (const { name } of fields) {
    const [, word = '', behind = ''] = name === 'note' ? [rest, rest, ''] : (/^(\S*)\s*([^]*)$/.exec(rest) as RegExpExecArray);
    answers[name] = word === NONE ? '' : word;
    rest = behind;
  }
  return rest === '' ? { answers } : { fault: say('act.typed.more', rest, fields.map(({ header }) => header).join(' ')) };
}

/** The likely answers as one line, which reads back as they are. */
export function likelyLine(fields: readonly AskedField[]): string {
  const words = fields.map(({ likely }) => (likely === '' ? NONE : likely));
  const last = words.findLastIndex((word) => word !== NONE);
  return words.slice(0, last + 1).join(' ');
}
