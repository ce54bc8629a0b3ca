import { say } from '../base/messages';
import { CastFailure, shown } from './value';

const pattern = /^[\p{L}\p{Nd}][\p{L}\p{M}\p{Nd}._-]*$/u;

/** Names that Windows keeps for devices, also before an extension. Source: Microsoft, "Naming Files, Paths, and Namespaces" (from memory). */
const reserved = /^(?:con|prn|aux|nul|(?:com|lpt)[1-9])(?:\.|$)/i;

/**
 * The text if it can name a thing and so a file: letters of any script (with their combining marks), digits, `.` `_`
 * `-`; a letter or digit first, no `.` last; not reserved by Windows; in Unicode form C, so that what looks equal is.
 */
export function castId(text: string): string | CastFailure {
  const shape = shapeOf(text);
  if (shape === 'ascii' || (shape === 'other' && pattern.test(text) && !text.endsWith('.'))) {
    if (isReserved(text)) {
      return new CastFailure('value-pattern', say('value-pattern.reserved', shown(text)));
    }
    if (shape === 'ascii' || text.normalize('NFC') === text) {
      return text;
    }
    return new CastFailure('value-pattern', say('value-pattern.accents', shown(text)), [text.normalize('NFC')]);
  }
  return new CastFailure('value-pattern', say('value-pattern.id', shown(text)));
}

/** Looks before it asks the pattern: nearly every id is told from a reserved name by its length. */
function isReserved(text: string): boolean {
  const stem = text.length <= 4 ? text.length : text.charCodeAt(3) === dot ? 3 : text.charCodeAt(4) === dot ? 4 : 0;
  return (stem === 3 || stem === 4) && !isDigit(text.charCodeAt(1)) && reserved.test(text);
}

function isDigit(code: number): boolean {
  return code >= 0x30 && code <= 0x39;
}

const dot = 0x2e;

/** Most ids are ASCII and need no pattern: 'ascii' is already known to be right, 'other' has further characters. */
function shapeOf(text: string): 'ascii' | 'other' | 'wrong' {
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code > 0x7f) {
      return 'other';
    }
    const isWord = isDigit(code) || ((code | 0x20) >= 0x61 && (code | 0x20) <= 0x7a);
    const isMark = code === dot || code === 0x5f || code === 0x2d;
    if (!isWord && (!isMark || at === 0 || (code === dot && at === text.length - 1))) {
      return 'wrong';
    }
  }
  return 'ascii';
}
