import type { Moment } from '../base/moment';
import { DAY } from './ladder';
import { unionizedAmmonia } from './water';

/** What a row of a tank's log measured. */
export interface WaterReading {
  readonly time: Moment;
  readonly tempC?: number | undefined;
  readonly ph?: number | undefined;
  /** Total ammonia in mg/L, as nitrogen. */
  readonly tan?: number | undefined;
}

/** Un-ionized ammonia of a reading, and the readings that its parts come from. */
export interface Ammonia<Reading> {
  /** mg/L, as nitrogen. */
  readonly value: number;
  readonly tan: number;
  readonly ph: { readonly value: number; readonly reading: Reading };
  readonly celsius: { readonly value: number; readonly reading: Reading };
}

/** So long a pH or a temperature may stand in for one that wasn't measured. */
const STANDS = 7 * DAY;

/**
 * Un-ionized ammonia of one of a water's readings (in the order of their times): from its own total ammonia, and its pH and
 * temperature, each else the latest at or before it of the last seven days. Undefined where one of them is missing.
 */
export function ammoniaOf<Reading extends WaterReading>(readings: readonly Reading[], index: number): Ammonia<Reading> | undefined {
  const reading = readings[index];
  if (reading?.tan === undefined) return undefined;
  const ph = latest(readings, index, 'ph');
  const celsius = latest(readings, index, 'tempC');
  if (ph === undefined || celsius === undefined) return undefined;
  return { value: unionizedAmmonia({ tan: reading.tan, ph: ph.value, celsius: celsius.value }), tan: reading.tan, ph, celsius };
}

function latest<Reading extends WaterReading>(readings: readonly Reading[], index: number, quantity: 'ph' | 'tempC'): { readonly value: number; readonly reading: Reading } | undefined {
  const { time } = readings[index] as Reading;
  for (let i = index; i >= 0; i--) {
    const reading = readings[i] as Reading;
    if (isTooOld(reading.time, time)) return undefined;
    const value = reading[quantity];
    if (value !== undefined) return { value, reading };
  }
  return undefined;
}

/** Whether one moment lies more than seven days before another; by day where one is bare. */
export function isTooOld(time: Moment, at: Moment): boolean {
  return time.bare || at.bare ? at.day - time.day > STANDS / DAY : at.instant - time.instant > STANDS;
}
