/** The number of an optional sign, digits, and optionally `.` and digits; NaN for anything else. */
export function plainNumber(text: string): number {
  const first = text.charCodeAt(0);
  const from = first === plus || first === minus ? 1 : 0;
  let point = -1;
  let digits = 0;
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === dot && point < 0) {
      point = at;
    } else if (code < zero || code > nine) {
      return NaN;
    } else {
      digits = digits * 10 + code - zero;
    }
  }
  if (text.length === from || point === from || point === text.length - 1) {
    return NaN;
  }
  if (text.length > exactLength) {
    return Number(text) + 0; // + 0: -0 becomes 0
  }
  // Digits and power of ten are exact, so their quotient is the nearest number, as Number(text) is.
  const size = point < 0 ? digits : digits / (powersOfTen[text.length - 1 - point] as number);
  return first === minus ? 0 - size : size;
}

/** The same for whole numbers: NaN for one with decimals, be they zeros. */
export function wholeNumber(text: string): number {
  return text.includes('.') ? NaN : plainNumber(text);
}

/** Texts up to this length have no more digits than a number holds exactly. */
const exactLength = 15;
const powersOfTen = Array.from({ length: exactLength }, (_, power) => Number(`1e${power}`));

const plus = 0x2b;
const minus = 0x2d;
const dot = 0x2e;
const zero = 0x30;
const nine = 0x39;

/** A longer text is no number that somebody wrote in another way. */
const longest = 40;

/** What a number written in another country's way may mean, in our way: `7,5` → 7.5; `1,200` → 1.200 or 1200; `1.200,5` → 1200.5; `.5` → 0.5. */
export function numberReadings(text: string): readonly string[] {
  if (text.length > longest) {
    return [];
  }
  const plain = text.replace('\u2212', '-').replace(/(\d)[ \u00a0\u202f'’](?=\d{3}(?!\d))/g, '$1');
  const readings = plain === text ? [] : [plain];
  if (/^[+-]?\d+,\d+$/.test(plain)) {
    readings.push(plain.replace(',', '.'));
  }
  if (/^[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?$/.test(plain)) {
    readings.push(plain.replaceAll(',', ''));
  }
  if (/^[+-]?\d{1,3}(?:\.\d{3})+,\d+$/.test(plain) || /^[+-]?\d{1,3}(?:\.\d{3}){2,}$/.test(plain)) {
    readings.push(plain.replaceAll('.', '').replace(',', '.'));
  }
  if (/^[+-]?\d+[.,]0*$/.test(plain)) {
    readings.push(plain.replace(/[.,].*/, ''));
  }
  if (/^[+-]?[.,]\d+$/.test(plain)) {
    readings.push(plain.replace(/[.,]/, '0.'));
  }
  return readings;
}

/** What an estimate written in another way may mean: `ca. 200`, `200?` → `~200`. */
export function estimateReadings(text: string): readonly string[] {
  if (text.length > longest) {
    return [];
  }
  const digits = (/^(?:~|≈|ca\.?|c\.|about|approx\.?) *(\d+)$/i.exec(text) ?? /^(\d+) *[~?]$/.exec(text))?.[1];
  return digits === undefined ? [] : [`~${digits}`];
}
