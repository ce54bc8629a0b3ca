import { DAY } from './ladder';

/** Beyond these the formula of the share of ammonia was not measured (Emerson et al. 1975). */
const MEASURED = { celsius: [0, 30], ph: [6, 10] } as const;

/**
 * pKa of ammonia in fresh water. Source: Emerson, Russo, Lund & Thurston (1975), J. Fish. Res. Board Can. 32:2379:
 * 0.09018 + 2729.92/(273.15 + T).
 */
export function pKaOf(celsius: number): number {
  return 0.09018 + 2729.92 / (273.15 + celsius);
}

/** Share of total ammonia that is un-ionized, in fresh water: 1/(1 + 10^(pKa − pH)). */
export function unionizedShare(ph: number, celsius: number): number {
  return 1 / (1 + 10 ** (pKaOf(celsius) - ph));
}

/** Un-ionized ammonia in mg/L from total ammonia in mg/L, both as nitrogen. */
export function unionizedAmmonia({ tan, ph, celsius }: { readonly tan: number; readonly ph: number; readonly celsius: number }): number {
  return tan * unionizedShare(ph, celsius);
}

/** Whether pH and temperature are within what the formula was measured for. */
export function isMeasured(ph: number, celsius: number): boolean {
  return ph >= MEASURED.ph[0] && ph <= MEASURED.ph[1] && celsius >= MEASURED.celsius[0] && celsius <= MEASURED.celsius[1];
}

/** What is left of a concentration after n changes of a share of the water (0 to 1) for water without it: C·(1−f)^n. */
export function afterChanges(concentration: number, share: number, n: number): number {
  return concentration * (1 - share) ** n;
}

/** How many changes of a share of the water bring a concentration down to a target; Infinity where none do. */
export function changesNeeded(concentration: number, target: number, share: number): number {
  if (concentration <= target) return 0;
  if (share >= 1) return target >= 0 ? 1 : Number.POSITIVE_INFINITY;
  if (target <= 0 || share <= 0) return Number.POSITIVE_INFINITY;
  const n = Math.ceil(Math.log(target / concentration) / Math.log(1 - share));
  // The logarithms may end a hair above a whole number.
  return afterChanges(concentration, share, n - 1) <= target ? n - 1 : n;
}

/** The share of the water to change once, 0 to 1, to bring a concentration down to a target. */
export function shareNeeded(concentration: number, target: number): number {
  return concentration <= target ? 0 : 1 - Math.max(0, target) / concentration;
}

/** Where a concentration that rises by `rise` from change to change settles: before each change p/f, after it p(1−f)/f. */
export function steadyState(rise: number, share: number): { readonly before: number; readonly after: number } {
  return { before: rise / share, after: (rise * (1 - share)) / share };
}

/** How many volumes of the tank have to drip through, mixing as they come, to bring a concentration down to a target: ln(C/target); Infinity where none do. */
export function volumesNeeded(concentration: number, target: number): number {
  if (concentration <= target) return 0;
  return target > 0 ? Math.log(concentration / target) : Number.POSITIVE_INFINITY;
}

/** A measurement, or a change of a share (0 to 1) of the water, at an instant in ms. */
export interface Measured {
  readonly instant: number;
  readonly concentration: number;
}

export interface Changed {
  readonly instant: number;
  readonly share: number;
}

/**
 * By how much a concentration rises in a day of 24 h where nothing is changed, from two measurements and the changes between
 * them (what is measured at the instant of a change was measured before it); evenly produced, changed for water without it.
 * Undefined where they are less than a day apart or it doesn't rise.
 */
export function dailyRise(first: Measured, last: Measured, changes: readonly Changed[]): number | undefined {
  if (last.instant - first.instant < DAY) return undefined;
  // What is left of the first measurement, and how many days' production is still there.
  let left = first.concentration;
  let days = 0;
  let at = first.instant;
  for (const { instant, share } of [...changes].sort((a, b) => a.instant - b.instant)) {
    if (instant < first.instant || instant >= last.instant) continue;
    days = (days + (instant - at) / DAY) * (1 - share);
    left *= 1 - share;
    at = instant;
  }
  const rise = (last.concentration - left) / (days + (last.instant - at) / DAY);
  return rise > 0 ? rise : undefined;
}
