import type { Moment } from '../base/moment';

/**
 * The items in the order of their times; equal times stay as written. A bare day has no hour: it stands directly
 * after the nearest timed item of its day that is written above it, else first of its day.
 */
export function inTimeOrder<T>(items: readonly T[], timeOf: (item: T) => Moment): readonly T[] {
  const lastTimed = new Map<number, number>();
  const keyed: { readonly item: T; readonly day: number; readonly key: number }[] = [];
  let sorted = true;
  for (const item of items) {
    const time = timeOf(item);
    let key: number;
    if (time.bare) {
      key = lastTimed.get(time.day) ?? Number.NEGATIVE_INFINITY;
    } else {
      key = time.instant;
      lastTimed.set(time.day, key);
    }
    const last = keyed[keyed.length - 1];
    if (last !== undefined && (time.day < last.day || (time.day === last.day && key < last.key))) sorted = false;
    keyed.push({ item, day: time.day, key });
  }
  if (sorted) return items;
  return keyed.sort((a, b) => a.day - b.day || (a.key === b.key ? 0 : a.key - b.key)).map(({ item }) => item);
}
