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
  readonly logsOf: (tank: string) => readonly SheetFile[];
  readonly rowsOf: (tank: string) => readonly Row[];
  readonly rowsOfRoom: (room: string) => readonly Row[];
}

/** What was measured in one water: that of a tank by itself, or of all tanks on one system. */
export interface WaterReadings {
  /** In the order of their times. */
  readonly readings: readonly TankReading[];
  readonly logged: Omit<TankTemperatures, 'usual'>;
}

/** The readings of the water that the tanks share, from their own logs and from `readings.csv` by tank or by room. */
export function waterReadings(tanks: readonly string[], sources: ReadingSources): WaterReadings {
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
  const inOrder = inTimeOrder(readings, ({ time }) => time);
  return { readings: inOrder, logged: temperaturesAmong(inOrder) };
}

/** The temperatures among the readings, by their instants (a bare day stands for its noon). */
function temperaturesAmong(readings: readonly TankReading[]): WaterReadings['logged'] {
  const logged = readings.filter(({ tempC }) => tempC !== undefined).sort((a, b) => a.time.instant - b.time.instant);
  return {
    instants: logged.map(({ time }) => time.instant),
    celsius: logged.map(({ tempC }) => tempC as number),
    rows: logged.map(({ row }) => row),
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
