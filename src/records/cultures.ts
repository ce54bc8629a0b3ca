import type { Moment } from '../base/moment';
import type { Culture as CultureRecord } from '../domain/cultures';
import type { Records } from './records';
import type { Row } from './row';
import { slotsOf } from './things';

const cultureSlots = slotsOf('cultures', 'culture', 'food', 'started', 'grams', 'temp_c', 'yield_per_g', 'renew_every', 'ended');

/** A culture of live food and the row it stands in. */
export interface Culture extends CultureRecord {
  readonly row: Row;
}

/** The row's culture; undefined where it has no readable name or start. */
export function cultureOf(row: Row): Culture | undefined {
  if (row.kept === undefined) row.kept = readCulture(row) ?? null;
  return (row.kept as Culture | null) ?? undefined;
}

function readCulture(row: Row): Culture | undefined {
  const culture = row.value(cultureSlots.culture) as string | undefined;
  const started = row.value(cultureSlots.started) as Moment | undefined;
  if (culture === undefined || started === undefined) return undefined;
  return {
    culture,
    food: row.value(cultureSlots.food) as Culture['food'],
    started,
    grams: row.value(cultureSlots.grams) as number | undefined,
    tempC: row.value(cultureSlots.temp_c) as number | undefined,
    yieldPerG: row.value(cultureSlots.yield_per_g) as number | undefined,
    renewEvery: row.value(cultureSlots.renew_every) as Culture['renewEvery'],
    ended: row.value(cultureSlots.ended) as Moment | undefined,
    row,
  };
}

/** The cultures of a fishroom, as written; of several rows with one name the first. */
export function culturesOf(records: Records): readonly Culture[] {
  const index = records.index('cultures');
  return [...(records.file('cultures.csv')?.rows() ?? [])].flatMap((row) => {
    const culture = cultureOf(row);
    return culture !== undefined && index.row(culture.culture) === row ? [culture] : [];
  });
}
