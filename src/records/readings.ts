import type { TankTemperatures } from '../domain/temperature';
import { inTimeOrder } from '../domain/timeOrder';
import { asWritten, inWrittenOrder } from './row';

import type { Row } from './row';
import type { SheetFile } from './sheetFile';
import { placeOfReading, readingOf } from './things';
import type { Tank, TankReading } from './things';

/** What the readings of a tank are gathered from. */
export interface ReadingSources {
  readonly tank: (id: string) => Tank | undefined;
  readonly tanksOf: (system: string) => readonly string[];
  readonly logsOf: (tank: string) => readonly SheetFile[];
  readonly rowsOf: (tank: string) => readonly Row[];
  readonly rowsOfRoom: (room: string) => readonly Row[];
}

/**
 * All readings that count for a tank, in the order of their times: from its own log, from `readings.csv` by tank or by
 * room, and from the tanks that share its water.
 */
export function readingsOf(id: string, sources: ReadingSources): readonly TankReading[] {
  const own = sources.tank(id);
  const tanks = own?.system === undefined ? [id] : sources.tanksOf(own.system);
  const readings: TankReading[] = [];
  const take = (row: Row, sheet: 'tank-log' | 'readings'): void => {
    const reading = readingOf(row, sheet);
    if (reading !== undefined) readings.push(reading);
  };
  const shared: Row[] = [];
  const rooms = new Set<string>();
  for (const tank of tanks) {
    for (const log of sources.logsOf(tank)) for (const row of log.rows()) take(row, 'tank-log');
    for (const row of sources.rowsOf(tank)) shared.push(row);
    const room = sources.tank(tank)?.room;
    if (room !== undefined) rooms.add(room);
  }
  for (const room of rooms) for (const row of sources.rowsOfRoom(room)) shared.push(row);
  for (const row of shared.sort(asWritten)) take(row, 'readings');
  return inTimeOrder(readings, ({ time }) => time);
}

/** The temperatures among the readings, by their instants (a bare day stands for its noon). */
export function temperaturesOf(readings: readonly TankReading[], usual: number | undefined): TankTemperatures | undefined {
  const logged = readings.filter(({ tempC }) => tempC !== undefined).sort((a, b) => a.time.instant - b.time.instant);
  if (logged.length === 0 && usual === undefined) return undefined;
  return {
    instants: logged.map(({ time }) => time.instant),
    celsius: logged.map(({ tempC }) => tempC as number),
    rows: logged.map(({ row }) => row),
    usual,
  };
}

/** Rows of `readings.csv` by the tank or room that they are about. */
export class ReadingRows {
  readonly #byTank = new Map<string, Set<Row>>();
  readonly #byRoom = new Map<string, Set<Row>>();

  add(row: Row): { readonly tank: string | undefined; readonly room: string | undefined } {
    const place = placeOfReading(row);
    if (place.tank !== undefined) put(this.#byTank, place.tank, row);
    else if (place.room !== undefined) put(this.#byRoom, place.room, row);
    return place;
  }

  remove(row: Row): { readonly tank: string | undefined; readonly room: string | undefined } {
    const place = placeOfReading(row);
    if (place.tank !== undefined) this.#byTank.get(place.tank)?.delete(row);
    else if (place.room !== undefined) this.#byRoom.get(place.room)?.delete(row);
    return place;
  }

  ofTank(tank: string): readonly Row[] {
    return inWrittenOrder(this.#byTank.get(tank));
  }

  ofRoom(room: string): readonly Row[] {
    return inWrittenOrder(this.#byRoom.get(room));
  }
}

function put(map: Map<string, Set<Row>>, key: string, row: Row): void {
  let rows = map.get(key);
  if (rows === undefined) map.set(key, (rows = new Set()));
  rows.add(row);
}
