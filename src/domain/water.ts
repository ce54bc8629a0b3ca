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
