/** A duration known at one temperature and wanted at another (all °C). */
export interface ThermalQuestion {
  /** At the reference temperature, in any unit. */
  readonly duration: number;
  readonly temperature: number;
  readonly reference: number;
  /** Developmental zero: the temperature at which development would stand still. */
  readonly zero: number;
}

/**
 * The duration at `temperature`, in the unit of the one given. The rate of development grows linearly above the
 * developmental zero, so that duration × (temperature − zero) is constant (thermal time, degree-days). Throws when
 * either temperature isn't above the zero.
 */
export function thermalDuration({ duration, temperature, reference, zero }: ThermalQuestion): number {
  if (!(temperature > zero && reference > zero)) {
    throw new RangeError(`no development at ${temperature} or ${reference} °C with a developmental zero of ${zero} °C`);
  }
  return (duration * (reference - zero)) / (temperature - zero);
}

/** A temperature, the developmental zero and the species' range, where they are known (all °C). */
export interface ModelRange {
  readonly temperature: number;
  readonly zero: number;
  readonly min: number | undefined;
  readonly max: number | undefined;
}

const nearZero = 1;
const beyondRange = 3;

/**
 * Whether the rate is still about linear: more than 1 °C above the developmental zero and no more than 3 °C outside the
 * species' range (common practice, no source).
 */
export function withinModel({ temperature, zero, min, max }: ModelRange): boolean {
  if (!(temperature > zero + nearZero)) return false;
  if (min !== undefined && temperature < min - beyondRange) return false;
  return max === undefined || temperature <= max + beyondRange;
}
