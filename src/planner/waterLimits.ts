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

/** The least or the most that a water may have, and the species that ask for it; none where it is the keeper's own limit. */
export interface RangeEnd {
  readonly value: number;
  readonly species: readonly string[];
}

const ends = { temp: { least: 'temp_min_c', most: 'temp_max_c' }, ph: { least: 'ph_min', most: 'ph_max' } } as const;

/** For each end the keeper's own limit, else the strictest of the species that live there; undefined where nobody says one. */
export function rangeOf(quantity: keyof typeof ends, species: readonly string[], { records }: PlanView): { readonly least: RangeEnd | undefined; readonly most: RangeEnd | undefined } {
  const end = (name: 'least' | 'most'): RangeEnd | undefined => {
    const column = ends[quantity][name];
    const own = records.config.limits?.[column];
    if (own !== undefined) return { value: own, species: [] };
    const told = species.flatMap((id) => {
      const value = records.profile(id)?.[column];
      return value === undefined ? [] : [{ id, value }];
    });
    if (told.length === 0) return undefined;
    const value = told.reduce((strictest, one) => (name === 'least' ? Math.max(strictest, one.value) : Math.min(strictest, one.value)), name === 'least' ? -Infinity : Infinity);
    return { value, species: told.filter((one) => one.value === value).map(({ id }) => id) };
  };
  return { least: end('least'), most: end('most') };
}

/** How much of the water to change to bring a concentration down to a target, in whole per cent, rounded up so that it is enough. */
export function percentNeeded(concentration: number, target: number): number {
  return Math.ceil(Math.round(shareNeeded(concentration, target) * 1e6) / 1e4);
}
