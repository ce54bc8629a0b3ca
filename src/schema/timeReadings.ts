/** A longer text is no date or length of time that somebody wrote in another way. */
const longest = 40;

const date =
  /^(~?) ?(\d{1,4})([./-]) ?(\d{1,2})\3 ?(\d{1,4})(?:[ T,]{1,2}(\d{1,2})[:.](\d{2})(?::\d{2})? ?(?:([ap])\.?m\.?)?)?$/i;

/**
 * Every way to read a date that isn't ISO 8601, as ISO 8601: `3/4/2026` → 2026-04-03 (day first) and 2026-03-04 (month
 * first); a year of two digits is one from 2000 on, and may stand first. Which of them exist in the calendar isn't checked.
 */
export function dateReadings(text: string): readonly string[] {
  const match = text.length > longest ? null : date.exec(text);
  if (match === null) {
    return /^\d{8}$/.test(text) ? [`${text.slice(0, 4)}-${text.slice(4, 6)}-${text.slice(6)}`] : [];
  }
  const [, about = '', first = '', , second = '', third = '', hour, minute = '', half] = match;
  const time = hour === undefined ? '' : `T${hourOf(hour, half)}:${minute}`;
  const iso = (year: string, month: string, day: string): string =>
    `${about}${year.padStart(4, '20')}-${month.padStart(2, '0')}-${day.padStart(2, '0')}${time}`;
  const readings: string[] = [];
  if (first.length <= 2 && (third.length === 2 || third.length === 4)) {
    readings.push(iso(third, second, first), iso(third, first, second));
  }
  if ((first.length === 2 || first.length === 4) && third.length <= 2) {
    readings.push(iso(first, second, third));
  }
  return [...new Set(readings)];
}

/** Two digits of the hour of a day from one that may count twice to twelve. */
function hourOf(hour: string, half: string | undefined): string {
  const afternoon = half === undefined ? 0 : half.toLowerCase() === 'p' ? 12 : 0;
  const counted = half === undefined ? Number(hour) : (Number(hour) % 12) + afternoon;
  return String(counted).padStart(2, '0');
}

const span = /^([+-]?)(\d{1,9}) ?(?:(h|hours?)|(d|days?)|(w|weeks?)|(?:min|minutes?))$/i;

/** What a length of time written in another way may mean: `36 h` → PT36H, `p14d` → P14D. */
export function durationReadings(text: string): readonly string[] {
  if (text.length > longest) {
    return [];
  }
  const match = span.exec(text);
  if (match === null) {
    return [text.toUpperCase()];
  }
  const [, sign = '', number = '', hours, days, weeks] = match;
  const rest = hours !== undefined ? `T${number}H` : days !== undefined ? `${number}D` : weeks !== undefined ? `${number}W` : `T${number}M`;
  return [`${sign}P${rest}`];
}
