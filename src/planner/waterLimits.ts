import { shareNeeded } from '../domain/water';
import type { PlanView } from './states';

/**
 * Usual limits. Ammonia, mg/L NH3-N: 0.025 mg/L NH3 is EIFAC Technical Paper 11 (1970), from memory. Nitrite (mg/L NO2),
 * common practice; nitrate (mg/L NO3): 50 for tolerant fish, Dictionary of Ichthyology.
 */
const USUAL = { nh3_mg_l: 0.02, no2_mg_l: 0.5, no3_mg_l: 50 } as const;

/** The share of a water change that keepers are used to (common practice). */
export const QUARTER = 0.25;

/** The keeper's own limit, else the usual one. */
export function limitOf(quantity: keyof typeof USUAL, { records }: PlanView): number {
  return records.config.limits?.[quantity] ?? USUAL[quantity];
}

/** How much of the water to change to bring a concentration down to a target, in whole per cent, rounded up so that it is enough. */
export function percentNeeded(concentration: number, target: number): number {
  return Math.ceil(Math.round(shareNeeded(concentration, target) * 1e6) / 1e4);
}
