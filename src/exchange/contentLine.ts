/** Octets of a line at most, its line end not counted (RFC 5545, 3.1). */
const LONGEST = 75;

/**
 * A text as the value of a property of type TEXT (RFC 5545, 3.3.11). Line breaks of any kind become `\n`; signs that no calendar file may hold are left out,
 * half a surrogate pair shows as U+FFFD.
 */
export function textValue(text: string): string {
  return plainText(text).replaceAll(/[\\;,\n]/g, (sign) => (sign === '\n' ? '\\n' : `\\${sign}`));
}

/** The text that a reader gets back. */
export function plainText(text: string): string {
  return text
    .replaceAll(/\r\n|[\r\n\v\f\u0085\u2028\u2029]/g, '\n')
    .replaceAll(/(?![\t\n])\p{Cc}/gu, '')
    .replaceAll(/\p{Cs}/gu, '\uFFFD');
}

/** The same on one line. */
export function oneLine(text: string): string {
  return plainText(text).replaceAll(/[\n\t]+/g, ' ').trim();
}

/** A line as it stands in a file, folded so that no piece has more than 75 octets in UTF-8 and none ends inside a sign. Ends with a line end. */
export function folded(line: string): string {
  let text = '';
  let octets = 0;
  for (const sign of line) {
    const size = octetsOf(sign);
    if (octets + size > LONGEST) {
      text += '\r\n ';
      octets = 1;
    }
    text += sign;
    octets += size;
  }
  return `${text}\r\n`;
}

/** The lines of a file with their folds taken out; of lone line ends too, since other programs may have touched it. */
export function unfolded(text: string): string[] {
  return text.replaceAll(/\r?\n[ \t]/g, '').split(/\r?\n/).filter((line) => line !== '');
}

function octetsOf(sign: string): number {
  const code = sign.codePointAt(0) as number;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}
