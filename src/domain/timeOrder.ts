import type { Moment } from '../base/moment';

/**
 * The items in the order of their times; equal times stay as written. A bare day has no hour: it stands directly
 * after the nearest timed item of its day that is written above it, else first of its day.
 */
export function inTimeOrder<T>(items: readonly T[], timeOf: (item: T) => Moment): readonly T[] {
  if (isInOrder(items, timeOf)) return items;
  const lastTimed = new Map<number, number>();
  const keyed: { readonly item: T; readonly day: number; readonly key: number }[] = [];
  for (const item of items) {
    const time = timeOf(item);
    let key: number;
    if (time.bare) {
      key = lastTimed.get(time.day) ?? Number.NEGATIVE_INFINITY;
    } else {
      key = time.instant;
      lastTimed.set(time.day, key);
    }
    keyed.push({ item, day: time.day, key });
  }
  return keyed.sort((a, b) => a.day - b.day || (a.key === b.key ? 0 : a.key - b.key)).map(({ item }) => item);
}

function isInOrder<T>(items: readonly T[], timeOf: (item: T) => Moment): boolean {
  for (let i = 1; i < items.length; i++) if (!isFollowing(timeOf(items[i] as T), timeOf(items[i - 1] as T))) return false;
  return true;
}

/** Whether what is written directly below another stays there in the order of times, as can be told at a glance: a later day, and on one day a later hour or two bare days. */
export function isFollowing(time: Moment, before: Moment): boolean {
  if (time.day !== before.day) return time.day > before.day;
  return time.bare || before.bare ? time.bare === before.bare : time.instant >= before.instant;
}
