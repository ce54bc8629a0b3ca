import type { TextEdit } from '../base/textEdit';

/** The smallest edit that makes `after` of the `before` at `offset`, without cutting a surrogate pair or a \r\n in two. */
export function difference(offset: number, before: string, after: string): TextEdit {
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before.charCodeAt(head) === after.charCodeAt(head)) head++;
  while (head > 0 && (cutsPair(before, head) || cutsPair(after, head))) head--;
  let tail = 0;
  while (tail < shorter - head && before.charCodeAt(before.length - 1 - tail) === after.charCodeAt(after.length - 1 - tail)) tail++;
  while (tail > 0 && (cutsPair(before, before.length - tail) || cutsPair(after, after.length - tail))) tail--;
  return { start: offset + head, end: offset + before.length - tail, text: after.slice(head, after.length - tail) };
}

function cutsPair(text: string, at: number): boolean {
  const pair = text.slice(at - 1, at + 1);
  return pair === '\r\n' || /^[\uD800-\uDBFF][\uDC00-\uDFFF]$/.test(pair);
}
