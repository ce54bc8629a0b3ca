const TIME_OF_DAY = /^([01]?\d|2[0-3]):([0-5]\d)$/;

/** Minutes after midnight of a time of day such as `8:00` or `19:30`; undefined for any other text. */
export function minuteOfDay(text: string): number | undefined {
  const match = TIME_OF_DAY.exec(text);
  return match === null ? undefined : Number(match[1]) * 60 + Number(match[2]);
}
