import type { ClutchEvent, Count, LogEntry } from '../../src/domain/things';
import { moment } from './moments';

/**
 * Rows of a clutch's log, separated by `;`: `time event tank count to_tank`, with `-` or nothing for a blank cell, and
 * anywhere a length such as `9.5mm`. Rows without a time are all of one moment.
 */
export function entriesOf(log: string): readonly LogEntry[] {
  return log
    .split(';')
    .map((row) => row.trim())
    .filter((row) => row !== '')
    .map(entryOf);
}

function entryOf(row: string): LogEntry {
  const all = row.split(/\s+/);
  const length = all.find((word) => /^[\d.]+mm$/.test(word));
  const words = all.filter((word) => word !== length);
  const time = /^~?\d/.test(words[0] ?? '') ? (words.shift() as string) : '2026-03-01T12:00';
  const [event, tank, count, toTank] = words.map((word) => (word === '-' ? undefined : word));
  return { time: moment(time), event: event as ClutchEvent, tank, count: countOf(count), toTank, ...(length === undefined ? {} : { lengthMm: Number.parseFloat(length) }), row: {} };
}

function countOf(text: string | undefined): Count | undefined {
  if (text === undefined) return undefined;
  return { value: Number(text.replace('~', '')), about: text.startsWith('~') };
}
