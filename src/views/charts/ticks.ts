import { dayMs } from '../../base/zone';

/** A scale with round numbers at its ends and between them. */
export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly { readonly value: number; readonly text: string }[];
}

/** Steps of 1, 2 or 5 times a power of ten, about so many of them, from at or below `low` to at or above `high`. */
export function roundScale(low: number, high: number, steps: number): Scale {
  const [from, to] = high > low ? [low, high] : [low - (Math.abs(low) / 100 || 1), high + (Math.abs(high) / 100 || 1)];
  const rough = (to - from) / steps;
  const power = Math.max(1e-300, 10 ** Math.floor(Math.log10(rough)));
  const step = power * (([1, 2, 5, 10] as const).find((factor) => factor * power >= rough) ?? 10);
  const decimals = Math.min(20, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
  const first = Math.floor(from / step + 1e-9);
  const last = Math.ceil(to / step - 1e-9);
  const ticks = Array.from({ length: last - first + 1 }, (_, i) => ({ value: (first + i) * step, text: ((first + i) * step).toFixed(decimals) }));
  return { from: first * step, to: last * step, ticks };
}

/** Where days are written on an axis: the first moment of each, and how much of the date is to be told. */
export interface DayTicks {
  readonly days: readonly number[];
  readonly unit: 'day' | 'month' | 'year';
}

/** Days, Mondays, or firsts of months or of years between two days, as many as fit: at most `most`. */
export function dayTicks(from: number, to: number, most: number): DayTicks {
  for (const { unit, step, start } of steps) {
    const days = unit === 'day' ? multiples({ from, to, most }, step, start) : firstsOfMonths({ from, to, most }, unit === 'year' ? 12 * step : step);
    if (days !== undefined) return { days, unit };
  }
  return { days: [], unit: 'year' };
}

// 1970-01-05 was a Monday.
const MONDAY = 4;
const steps: readonly { readonly unit: DayTicks['unit']; readonly step: number; readonly start: number }[] = [
  ...[1, 2].map((step) => ({ unit: 'day' as const, step, start: 0 })),
  ...[7, 14].map((step) => ({ unit: 'day' as const, step, start: MONDAY })),
  ...[1, 2, 3, 6].map((step) => ({ unit: 'month' as const, step, start: 0 })),
  ...[1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000].map((step) => ({ unit: 'year' as const, step, start: 0 })),
];

interface Days {
  readonly from: number;
  readonly to: number;
  readonly most: number;
}

function multiples({ from, to, most }: Days, step: number, start: number): readonly number[] | undefined {
  const first = Math.ceil((from - start) / step);
  const count = Math.max(0, Math.floor((to - start) / step) - first + 1);
  return count > most ? undefined : Array.from({ length: count }, (_, i) => (first + i) * step + start);
}

/** Each so many months, counted from January of the year 0. */
function firstsOfMonths({ from, to, most }: Days, step: number): readonly number[] | undefined {
  const start = new Date(from * dayMs);
  const days: number[] = [];
  for (let month = Math.floor((start.getUTCFullYear() * 12 + start.getUTCMonth()) / step) * step; days.length <= most; month += step) {
    const day = new Date(0).setUTCFullYear(Math.floor(month / 12), month - Math.floor(month / 12) * 12, 1) / dayMs;
    if (day > to) return days;
    if (day >= from) days.push(day);
  }
  return undefined;
}
