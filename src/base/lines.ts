/** A place in a text by line and character, both from 0; a line ends with `\n`, `\r\n` or a lone `\r`. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

/** Turns offsets of one text into lines and back. */
export class LineIndex {
  readonly #starts: number[] = [0];
  readonly #length: number;

  constructor(text: string) {
    this.#length = text.length;
    for (let at = 0; at < text.length; at++) {
      const code = text.charCodeAt(at);
      if (code !== 10 && code !== 13) continue;
      if (code === 13 && text.charCodeAt(at + 1) === 10) at++;
      this.#starts.push(at + 1);
    }
  }

  /** Throws for an offset outside the text. */
  positionAt(offset: number): Position {
    if (offset < 0 || offset > this.#length) throw new RangeError(`offset ${offset} outside a text of length ${this.#length}`);
    let low = 0;
    let high = this.#starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >>> 1;
      if ((this.#starts[middle] as number) <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low, character: offset - (this.#starts[low] as number) };
  }

  /** The offset of a line's beginning; undefined for a line that the text doesn't have. */
  startOf(line: number): number | undefined {
    return this.#starts[line];
  }
}
