import type { Profile } from './things';

/**
 * Growth in total length after von Bertalanffy, with the length at day 0 in place of the usual t0:
 * L(t) = max − (max − hatch) · e^(−K·t), t in days of 24 h since the birth. Source of the curve: FAO
 * X6845E, equation 9 (fao.org/3/X6845E/X6845E03.htm).
 */
export interface GrowthCurve extends LengthLimits {
  /** K, a day. */
  readonly perDay: number;
}

/** Between these lengths, in mm, a growing fish is: `hatch` at day 0, `max` after endless time. */
export interface LengthLimits {
  readonly hatchMm: number;
  readonly maxMm: number;
}

/** Total length in mm after so many days; day 0 and before: the length at birth. */
export function lengthAt({ hatchMm, maxMm, perDay }: GrowthCurve, days: number): number {
  return maxMm - (maxMm - hatchMm) * Math.exp(-perDay * Math.max(0, days));
}

/** Days after the birth at which a length is reached: 0 for what they are born with, undefined for what they never reach. */
export function daysToLength({ hatchMm, maxMm, perDay }: GrowthCurve, mm: number): number | undefined {
  if (mm <= hatchMm) return 0;
  if (!(mm < maxMm) || !(perDay > 0)) return undefined;
  return Math.log((maxMm - hatchMm) / (maxMm - mm)) / perDay;
}

/** The K that leads to a length in so many days; undefined for a length outside the limits and for no days. */
export function rateTo({ hatchMm, maxMm }: LengthLimits, mm: number, days: number): number | undefined {
  if (!(mm > hatchMm && mm < maxMm && days > 0)) return undefined;
  const perDay = Math.log((maxMm - hatchMm) / (maxMm - mm)) / days;
  return perDay > 0 && Number.isFinite(perDay) ? perDay : undefined;
}

/** Undefined where the species has no such numbers, or they make no sense. */
export function lengthLimitsOf(profile: Profile | undefined): LengthLimits | undefined {
  const { hatch_mm: hatchMm, max_mm: maxMm } = profile ?? {};
  return hatchMm === undefined || maxMm === undefined || !(hatchMm < maxMm) ? undefined : { hatchMm, maxMm };
}

/**
 * The curve of the species: K is such that `sale_mm` is reached `sale_d` days after the birth. Undefined where a number is
 * missing or the lengths are not in their order.
 */
export function profileGrowth(profile: Profile | undefined): GrowthCurve | undefined {
  const limits = lengthLimitsOf(profile);
  if (limits === undefined || profile?.sale_mm === undefined || profile.sale_d === undefined) return undefined;
  const perDay = rateTo(limits, profile.sale_mm, profile.sale_d);
  return perDay === undefined ? undefined : { ...limits, perDay };
}

/** The same curve run through so many times as fast. */
export function faster(curve: GrowthCurve, factor: number): GrowthCurve {
  return { ...curve, perDay: curve.perDay * factor };
}

/**
 * Specific growth rate in % a day: 100·ln(after / before) / days, of lengths or of weights. Undefined where there is no
 * growth to speak of: no days, or a size that is none.
 */
export function specificGrowthPct(before: number, after: number, days: number): number | undefined {
  return before > 0 && after > 0 && days > 0 ? (100 * Math.log(after / before)) / days : undefined;
}
