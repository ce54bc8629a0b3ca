import { blankMoment } from '../base/moment';
import type { Moment, Writable } from '../base/moment';
import type { WrittenMilestones } from '../domain/recorded';
import type { ClutchEvent, ClutchRecord, Count, LogEntry } from '../domain/things';
import { schemaNamed } from '../schema/catalog';
import type { SheetName } from '../schema/descriptor';
import { slotOf } from '../schema/slots';
import type { Value } from '../schema/value';
import { Row } from './row';
import type { CellFault, RowBlock } from './row';

/** The place of each field, by which a row is asked for its value. */
export function slotsOf<Name extends string>(sheet: SheetName, ...names: readonly Name[]): Readonly<Record<Name, number>> {
  const fields = schemaNamed(sheet).fields;
  const slots = {} as Record<Name, number>;
  for (const name of names) {
    slots[name] = fields.findIndex((field) => field.name === name);
    if (slots[name] < 0) throw new Error(`the sheet ${sheet} has no field ${name}`);
  }
  return slots;
}

const clutchSlots = slotsOf('clutches', 'clutch', 'pair', 'species', 'tank', 'spawned', 'eggs', 'hatched', 'free_swimming', 'ended');

/** A clutch of the register and the row it stands in. */
export interface Clutch extends ClutchRecord, WrittenMilestones {
  readonly species: string | undefined;
}

/** The row's clutch; undefined where it has no readable id or spawn. A clutch without a tank stands in '' . */
export function clutchOf(row: Row): ClutchRow | undefined {
  return row instanceof ClutchRow ? row : undefined;
}

/** A row of the register of clutches, with all its cells read. */
export function registerRow(block: RowBlock, index: number, faults: readonly CellFault[] | undefined): Row {
  const { cells } = block;
  const isClutch = cells.at(index, clutchSlots.clutch) !== undefined && cells.fill(passing, index, clutchSlots.spawned);
  return isClutch ? new ClutchRow(block, index, faults) : new Row(block, index, faults);
}

/** Whoever only asks whether there is a moment has none made. */
const passing = blankMoment();

/** A clutch as a row of the register, which is asked for what it says instead of taking a copy, since a long register has very many. */
export class ClutchRow extends Row implements Clutch {
  get clutch(): string {
    return this.value(clutchSlots.clutch) as string;
  }

  fillSpawned(moment: Writable<Moment>): void {
    this.fill(moment, clutchSlots.spawned);
  }

  fillHatched(moment: Writable<Moment>): boolean {
    return this.fill(moment, clutchSlots.hatched);
  }

  fillFreeSwimming(moment: Writable<Moment>): boolean {
    return this.fill(moment, clutchSlots.free_swimming);
  }

  fillEnded(moment: Writable<Moment>): boolean {
    return this.fill(moment, clutchSlots.ended);
  }

  get pair(): string | undefined {
    return this.value(clutchSlots.pair) as string | undefined;
  }

  get species(): string | undefined {
    return this.value(clutchSlots.species) as string | undefined;
  }

  get tank(): string {
    return (this.value(clutchSlots.tank) as string | undefined) ?? '';
  }

  get spawned(): Moment {
    return this.value(clutchSlots.spawned) as Moment;
  }

  get eggs(): Count | undefined {
    return this.value(clutchSlots.eggs) as Count | undefined;
  }

  get hatched(): Moment | undefined {
    return this.value(clutchSlots.hatched) as Moment | undefined;
  }

  get freeSwimming(): Moment | undefined {
    return this.value(clutchSlots.free_swimming) as Moment | undefined;
  }

  get ended(): Moment | undefined {
    return this.value(clutchSlots.ended) as Moment | undefined;
  }
}

const logNames = ['time', 'event', 'tank', 'count', 'length_mm', 'to_tank', 'ref'] as const;
const logSlots = { 'clutch-log': slotsOf('clutch-log', ...logNames), log: slotsOf('log', ...logNames) };

/** The row of a clutch's log; undefined without a readable time and event. */
export function logEntryOf(row: Row, sheet: 'clutch-log' | 'log'): LogEntry | undefined {
  if (row.kept === undefined) row.kept = readEntry(row, logSlots[sheet]) ?? null;
  return (row.kept as LogEntry | null) ?? undefined;
}

function readEntry(row: Row, slots: (typeof logSlots)['log']): LogEntry | undefined {
  const time = row.value(slots.time) as Moment | undefined;
  const event = row.value(slots.event) as ClutchEvent | undefined;
  if (time === undefined || event === undefined) return undefined;
  return {
    time,
    event,
    tank: row.value(slots.tank) as string | undefined,
    count: row.value(slots.count) as Count | undefined,
    lengthMm: row.value(slots.length_mm) as number | undefined,
    toTank: row.value(slots.to_tank) as string | undefined,
    ref: row.value(slots.ref) as string | undefined,
    row,
  };
}

const pairSlots = slotsOf('pairs', 'pair', 'kind', 'species', 'tank', 'male', 'female', 'retired');

export interface Pair {
  readonly pair: string;
  readonly kind: 'pair' | 'trio' | 'harem' | 'colony';
  readonly species: string | undefined;
  readonly tank: string | undefined;
  readonly male: string | undefined;
  readonly female: string | undefined;
  readonly retired: Moment | undefined;
  readonly row: Row;
}

export function pairOf(row: Row): Pair {
  return (row.kept ??= {
    pair: row.value(pairSlots.pair) as string,
    kind: (row.value(pairSlots.kind) as Pair['kind'] | undefined) ?? 'pair',
    species: row.value(pairSlots.species) as string | undefined,
    tank: row.value(pairSlots.tank) as string | undefined,
    male: row.value(pairSlots.male) as string | undefined,
    female: row.value(pairSlots.female) as string | undefined,
    retired: row.value(pairSlots.retired) as Moment | undefined,
    row,
  }) as Pair;
}

const tankSlots = slotsOf('tanks', 'tank', 'room', 'position', 'system', 'temp_c', 'use', 'retired');

export interface Tank {
  readonly tank: string;
  readonly room: string | undefined;
  /** Where in the room, in the keeper's own words. */
  readonly position: string | undefined;
  readonly system: string | undefined;
  readonly tempC: number | undefined;
  readonly use: string | undefined;
  readonly retired: Moment | undefined;
  readonly row: Row;
}

export function tankOf(row: Row): Tank {
  return (row.kept ??= {
    tank: row.value(tankSlots.tank) as string,
    room: row.value(tankSlots.room) as string | undefined,
    position: row.value(tankSlots.position) as string | undefined,
    system: row.value(tankSlots.system) as string | undefined,
    tempC: row.value(tankSlots.temp_c) as number | undefined,
    use: row.value(tankSlots.use) as string | undefined,
    retired: row.value(tankSlots.retired) as Moment | undefined,
    row,
  }) as Tank;
}

const tankEventSlots = { 'tank-log': slotsOf('tank-log', 'time', 'event', 'change_pct'), readings: slotsOf('readings', 'time', 'event', 'change_pct') };

/** What a row of a tank's log says that happened: readings without an event are a test. */
export function eventOfTankRow(row: Row, sheet: 'tank-log' | 'readings'): string | undefined {
  const event = row.value(tankEventSlots[sheet].event) as string | undefined;
  return event ?? (readingOf(row, sheet) === undefined ? undefined : 'tested');
}

/** Something that was done to a tank or found in it. */
export interface TankEvent {
  readonly event: string;
  readonly time: Moment;
  /** Of a water change: how much of the water, in %. */
  readonly changePct: number | undefined;
}

/** The row's event; undefined without a readable time, or with neither event nor reading. */
export function tankEventOf(row: Row, sheet: 'tank-log' | 'readings'): TankEvent | undefined {
  const time = row.value(tankEventSlots[sheet].time) as Moment | undefined;
  const event = eventOfTankRow(row, sheet);
  return time === undefined || event === undefined ? undefined : { event, time, changePct: row.value(tankEventSlots[sheet].change_pct) as number | undefined };
}

const readingNames = ['time', 'temp_c', 'ph', 'tan_mg_l', 'no2_mg_l', 'no3_mg_l', 'gh_dh', 'kh_dh', 'ec_us_cm'] as const;
const readingSlots = { 'tank-log': slotsOf('tank-log', ...readingNames), readings: slotsOf('readings', ...readingNames) };
const readingPlaces = slotsOf('readings', 'tank', 'room');

/** A row of a tank's log that holds at least one reading. */
export interface TankReading {
  readonly time: Moment;
  readonly tempC: number | undefined;
  readonly ph: number | undefined;
  /** Total ammonia, as nitrogen. */
  readonly tan: number | undefined;
  /** As NO2. */
  readonly nitrite: number | undefined;
  /** As NO3. */
  readonly nitrate: number | undefined;
  readonly row: Row;
}

/** The row's readings; undefined without a readable time or any reading. */
export function readingOf(row: Row, sheet: 'tank-log' | 'readings'): TankReading | undefined {
  if (row.kept === undefined) row.kept = readReading(row, readingSlots[sheet]) ?? null;
  return (row.kept as TankReading | null) ?? undefined;
}

function readReading(row: Row, slots: (typeof readingSlots)['readings']): TankReading | undefined {
  const time = row.value(slots.time) as Moment | undefined;
  const isReading = readingNames.some((name) => name !== 'time' && row.value(slots[name]) !== undefined);
  if (time === undefined || !isReading) return undefined;
  const number = (slot: number): number | undefined => row.value(slot) as number | undefined;
  return { time, tempC: number(slots.temp_c), ph: number(slots.ph), tan: number(slots.tan_mg_l), nitrite: number(slots.no2_mg_l), nitrate: number(slots.no3_mg_l), row };
}

/** The tank or room that a row of `readings.csv` is about. */
export function placeOfReading(row: Row): { readonly tank: string | undefined; readonly room: string | undefined } {
  return { tank: row.value(readingPlaces.tank) as string | undefined, room: row.value(readingPlaces.room) as string | undefined };
}

const logClutchSlot = slotsOf('log', 'clutch').clutch;

/** The clutch that a row of `log.csv` is about. */
export function clutchOfLogRow(row: Row): string | undefined {
  return row.value(logClutchSlot) as string | undefined;
}

/** The row's value of a field, by name. */
export function valueOf(row: Row, sheet: SheetName, name: string): Value {
  return row.value(slotOf(schemaNamed(sheet), name));
}
