import { lengthAt, rateTo } from './growth';
import type { GrowthCurve, LengthLimits } from './growth';
import { leastSquares } from './leastSquares';
import type { Curve } from './leastSquares';

/** Measurements on so many days make a curve of a brood's own. */
const FITTED_FROM = 4;

/** A mean length and the days since the birth at which it was measured. */
export interface MeasuredLength {
  readonly days: number;
  readonly mm: number;
}

/** A growth curve drawn through a brood's own measurements. */
export interface GrowthFit {
  readonly curve: GrowthCurve;
  /** The standard error of K. */
  readonly perDayError: number;
  /** The standard error of the full-grown length where the data carry it; undefined where that of the species was taken. */
  readonly maxError: number | undefined;
  readonly n: number;
}

/** How sure the data must be of the full-grown length: its standard error as a share of it. */
const SURE = 0.15;
/** How many times smaller or larger than the species' full-grown length what the data say may be. */
const LIKELY = 2;

/**
 * The curve with the least squares through measurements of four or more days, the length at birth held fixed. Its full-grown
 * length is the data's where they carry it (no rule of statistics, common practice): its standard error is at most 15 %
 * of it, and it is between half and twice the species'. Else it is the species', and only K is
 * fitted. Undefined with fewer, or where they make no curve.
 */
export function fitGrowth(measured: readonly MeasuredLength[], limits: LengthLimits): GrowthFit | undefined {
  const n = measured.length;
  if (daysApart(measured) < FITTED_FROM) return undefined;
  const points = measured.map(({ days, mm }) => ({ x: days, y: mm }));
  const { hatchMm, maxMm } = limits;
  const start = firstRate(measured, limits);
  if (start === undefined) return undefined;
  const both = leastSquares(grown(hatchMm), points, [maxMm, start]);
  if (both !== undefined) {
    const [max, perDay] = both.parameters as [number, number];
    const [maxError, perDayError] = both.errors as [number, number];
    const isCarried = maxError <= SURE * max && max > hatchMm && max >= maxMm / LIKELY && max <= maxMm * LIKELY;
    if (isCarried && perDay > 0) return { curve: { hatchMm, maxMm: max, perDay }, perDayError, maxError, n };
  }
  const alone = leastSquares(grownTo(limits), points, [start]);
  const perDay = alone?.parameters[0] ?? 0;
  if (alone === undefined || !(perDay > 0)) return undefined;
  return { curve: { ...limits, perDay }, perDayError: alone.errors[0] as number, maxError: undefined, n };
}

/** On how many days was measured: rows of several tanks, written one after the other, are one measurement. */
function daysApart(measured: readonly MeasuredLength[]): number {
  let apart = 0;
  let before = -Infinity;
  for (const days of measured.map((one) => one.days).sort((a, b) => a - b)) {
    if (days - before < 1) continue;
    apart++;
    before = days;
  }
  return apart;
}

/** The middle one of the K that the measurements give one by one. */
function firstRate(measured: readonly MeasuredLength[], limits: LengthLimits): number | undefined {
  const rates = measured.flatMap(({ days, mm }) => rateTo(limits, mm, days) ?? []).sort((a, b) => a - b);
  return rates[rates.length >> 1];
}

/** Full-grown length and K are sought. */
export function grown(hatchMm: number): Curve {
  return ([maxMm, perDay], days) => {
    const rest = Math.exp(-(perDay as number) * days);
    return { value: hatchMm + ((maxMm as number) - hatchMm) * (1 - rest), slopes: [1 - rest, ((maxMm as number) - hatchMm) * days * rest] };
  };
}

/** K is sought. */
function grownTo(limits: LengthLimits): Curve {
  return ([perDay], days) => ({ value: lengthAt({ ...limits, perDay: perDay as number }, days), slopes: [(limits.maxMm - limits.hatchMm) * days * Math.exp(-(perDay as number) * days)] });
}

