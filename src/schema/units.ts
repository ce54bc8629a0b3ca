import type { UnitOf } from './descriptor';

/** A value of an accepted alternative column (°F, US gallons, inches) in the unit of its SI column. */
export function siValue(value: number, unitOf: UnitOf): number {
  return (value + unitOf.offset) * unitOf.factor;
}
