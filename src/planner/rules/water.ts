import { say } from '../../base/messages';
import { isFuture } from '../../base/moment';
import { isTooOld } from '../../domain/ammonia';
import { changesNeeded, dailyRise, isMeasured, steadyState, unionizedShare } from '../../domain/water';
import type { Measured } from '../../domain/water';
import type { Row } from '../../records/row';
import { placeOfReading } from '../../records/things';
import type { TankReading } from '../../records/things';
import { ammoniaText, latestAmmonia } from '../columns/water';
import type { Found } from '../found';
import type { PlanView } from '../states';
import { limitOf, percentNeeded, QUARTER } from '../waterLimits';

/** Tanks on one water, or a tank by itself, and the species that live in it. */
export interface Water {
  /** In walking order; never empty. */
  readonly tanks: readonly string[];
  readonly species: readonly string[];
}

/** Gills are harmed from about this on, mg/L NH3-N: UF/IFAS Extension on ammonia. */
const GILLS = 0.05;

/** One step of a usual kit for total ammonia, in mg/L (common practice). */
const KIT_STEP = 0.25;

/** Days between the water changes that keepers are used to (common practice), and days over which a rise still says something of today. */
const WEEK = 7;
const LONGEST_RISE = 60;

/** Too much un-ionized ammonia in the latest test of the last seven days. */
export function waterAmmonia({ tanks }: Water, view: PlanView): readonly Found[] {
  const latest = latestAmmonia(tanks[0] as string, view);
  if (latest?.ammonia === undefined || isTooOld(latest.reading.time, view.now)) return [];
  const { reading, ammonia } = latest;
  const { value, tan, ph, celsius } = ammonia;
  const found: Found[] = [];
  if (!isMeasured(ph.value, celsius.value)) found.push({ ...placeFor(reading, 'tan_mg_l', tanks, view), code: 'outside-model', message: say('outside-model.ammonia'), related: [] });
  const limit = limitOf('nh3_mg_l', view);
  if (value < limit) return found;
  const isNear = Math.abs(tan - limit / unionizedShare(ph.value, celsius.value)) < KIT_STEP;
  const code = value >= GILLS ? (isNear ? 'water-ammonia.gills-kit' : 'water-ammonia.gills') : isNear ? 'water-ammonia.kit' : 'water-ammonia.plain';
  const message = say(code, ammoniaText(ammonia), tan, ph.value, celsius.value, limit, percentNeeded(value, limit / 2));
  return [...found, { ...placeFor(reading, 'tan_mg_l', tanks, view), code: 'water-ammonia', message, related: [] }];
}

/** Temperature or pH that a species there doesn't stand, too much nitrite or nitrate, in the latest reading of each of the last seven days. */
export function waterRange(water: Water, view: PlanView): readonly Found[] {
  const { tanks } = water;
  const limits = view.records.config.limits;
  const readings = view.records.readingsOf(tanks[0] as string);
  const latest = (quantity: 'tempC' | 'ph' | 'nitrite' | 'nitrate'): { readonly value: number; readonly reading: TankReading } | undefined => {
    const reading = readings.findLast((one) => one[quantity] !== undefined && !isFuture(one.time, view.now));
    return reading === undefined || isTooOld(reading.time, view.now) ? undefined : { value: reading[quantity] as number, reading };
  };
  const found: Found[] = [];
  const tell = (reading: TankReading, header: string, message: Found['message']): void => {
    found.push({ ...placeFor(reading, header, tanks, view), code: 'water-range', message, related: [] });
  };
  for (const { quantity, header, name } of ranged) {
    const measured = latest(quantity);
    if (measured === undefined) continue;
    const { value, reading } = measured;
    const [low, high] = [limits?.[minOf(quantity)], limits?.[maxOf(quantity)]];
    const profiles = water.species.map((id) => view.records.profile(id)).filter((profile) => profile !== undefined);
    const tooLow = low === undefined ? profiles.filter((profile) => value < (profile[minOf(quantity)] ?? Number.NEGATIVE_INFINITY)) : [];
    const tooHigh = high === undefined ? profiles.filter((profile) => value > (profile[maxOf(quantity)] ?? Number.POSITIVE_INFINITY)) : [];
    if (low !== undefined && value < low) tell(reading, header, say(`water-range.${name}.limit-low`, value, low));
    if (high !== undefined && value > high) tell(reading, header, say(`water-range.${name}.limit-high`, value, high));
    if (tooLow.length > 0) tell(reading, header, say(`water-range.${name}.low`, value, Math.max(...tooLow.map((profile) => profile[minOf(quantity)] as number)), tooLow.map(({ species }) => species).join(', ')));
    if (tooHigh.length > 0) tell(reading, header, say(`water-range.${name}.high`, value, Math.min(...tooHigh.map((profile) => profile[maxOf(quantity)] as number)), tooHigh.map(({ species }) => species).join(', ')));
  }
  const nitrite = latest('nitrite');
  const mostNitrite = limitOf('no2_mg_l', view);
  if (nitrite !== undefined && nitrite.value >= mostNitrite) tell(nitrite.reading, 'no2_mg_l', say('water-range.nitrite', nitrite.value, mostNitrite, percentNeeded(nitrite.value, mostNitrite / 2)));
  const nitrate = latest('nitrate');
  const mostNitrate = limitOf('no3_mg_l', view);
  if (nitrate !== undefined && nitrate.value > mostNitrate) {
    const once = percentNeeded(nitrate.value, mostNitrate);
    const quarters = changesNeeded(nitrate.value, mostNitrate, QUARTER);
    const rise = nitrateRise(nitrate.reading, tanks[0] as string, view);
    if (rise === undefined) tell(nitrate.reading, 'no3_mg_l', say('water-range.nitrate', nitrate.value, mostNitrate, once, quarters));
    else {
      const settles = steadyState(WEEK * rise, QUARTER);
      tell(nitrate.reading, 'no3_mg_l', say('water-range.nitrate.rise', nitrate.value, mostNitrate, once, quarters, rise.toFixed(1), Math.round(settles.before), Math.round(settles.after)));
    }
  }
  return found;
}

/** By how many mg/l nitrate rises in a day, from the test before a reading and the water changed since; undefined where that can't be known. */
function nitrateRise(reading: TankReading, tank: string, { records }: PlanView): number | undefined {
  const readings = records.readingsOf(tank);
  const before = readings.slice(0, readings.indexOf(reading)).findLast(({ nitrate }) => nitrate !== undefined);
  if (before === undefined || reading.time.day - before.time.day > LONGEST_RISE) return undefined;
  const changes = records.tankEventsOf(tank, 'onWater').filter(({ event, time }) => event === 'water_change' && time.instant >= before.time.instant && time.instant < reading.time.instant);
  const known = changes.flatMap(({ time, changePct }) => (changePct === undefined ? [] : [{ instant: time.instant, share: changePct / 100 }]));
  if (known.length < changes.length) return undefined;
  const measured = ({ time, nitrate }: TankReading): Measured => ({ instant: time.instant, concentration: nitrate as number });
  return dailyRise(measured(before), measured(reading), known);
}

const ranged = [
  { quantity: 'tempC', header: 'temp_c', name: 'temp' },
  { quantity: 'ph', header: 'ph', name: 'ph' },
] as const;

function minOf(quantity: 'tempC' | 'ph'): 'temp_min_c' | 'ph_min' {
  return quantity === 'tempC' ? 'temp_min_c' : 'ph_min';
}

function maxOf(quantity: 'tempC' | 'ph'): 'temp_max_c' | 'ph_max' {
  return quantity === 'tempC' ? 'temp_max_c' : 'ph_max';
}

/** The cell of the reading; of one about a room the first tank's row, since each tank of the room has it. */
function placeFor({ row }: TankReading, header: string, tanks: readonly string[], view: PlanView): { readonly row: Row; readonly header: string | undefined; readonly owner: Row } {
  const file = view.records.file(row.path);
  const own = file?.thing ?? (file?.schema.name === 'readings' ? placeOfReading(row).tank : undefined);
  const tank = view.records.index('tanks').row(own ?? (tanks[0] as string));
  return own === undefined && tank !== undefined ? { row: tank, header: undefined, owner: tank } : { row, header, owner: tank ?? row };
}
