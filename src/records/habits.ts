import type { Moment } from '../base/moment';
import { compareMoments } from '../base/moment';
import type { SheetSchema } from '../schema/descriptor';
import type { Row, RowBlock } from './row';
import type { SheetFile } from './sheetFile';
import { eventOfTankRow, slotsOf } from './things';

/** What wasn't written down for so many days is no habit any more (common practice). */
const DAYS = 180;

interface Files {
  files(): Iterable<SheetFile>;
  file(path: string): SheetFile | undefined;
}

/** Which kinds of events this keeper writes down: those with a row of the last half year, of any clutch or tank. */
export class Habits {
  /** A file with a recent row of the event. */
  readonly #witnesses = new Map<string, string>();
  #events: ReadonlySet<string> = new Set();

  has(event: string): boolean {
    return this.#witnesses.has(event);
  }

  /**
   * Looks again where something changed: at the files of these paths, at all files where the events to look for or the
   * time are others. Tells whether a habit was taken up or given up.
   */
  update(records: Files, { changed, events, now }: { readonly changed: ReadonlySet<string> | 'all'; readonly events: ReadonlySet<string>; readonly now: Moment }): boolean {
    const all = [...events];
    const before = [...this.#witnesses.keys()].sort().join(' ');
    if (changed === 'all' || events !== this.#events) {
      this.#events = events;
      this.#witnesses.clear();
      for (const file of records.files()) this.#look(file, all, now);
    } else {
      const lost = [...this.#witnesses].filter(([, path]) => changed.has(path)).map(([event]) => event);
      for (const event of lost) this.#witnesses.delete(event);
      for (const path of changed) {
        const file = records.file(path);
        if (file !== undefined) this.#look(file, all, now);
      }
      // Somewhere else it may have been written down too.
      if (lost.some((event) => !this.#witnesses.has(event))) for (const file of records.files()) this.#look(file, lost, now);
    }
    return [...this.#witnesses.keys()].sort().join(' ') !== before;
  }

  #look(file: SheetFile, events: readonly string[], now: Moment): void {
    if (!mayHave(file.schema, events)) return;
    for (const block of file.blocks) {
      const latest = latestIn(block, file.schema);
      for (const event of events) {
        const time = latest.get(event);
        if (time === undefined || this.#witnesses.has(event) || time.day < now.day - DAYS) continue;
        if (compareMoments(time, now) <= 0 || block.rows.some((row) => isRecent(row, file.schema, { event, now }))) this.#witnesses.set(event, file.path);
      }
    }
  }
}

function isRecent(row: Row, schema: SheetSchema, { event, now }: { readonly event: string; readonly now: Moment }): boolean {
  let found = false;
  tellEvents(row, schema, (name, slot) => {
    const time = name === event ? (row.value(slot) as Moment | undefined) : undefined;
    if (time !== undefined && time.day >= now.day - DAYS && compareMoments(time, now) <= 0) found = true;
  });
  return found;
}

/** The register tells of two milestones only: a long one need not be walked through for other events. */
function mayHave({ name }: SheetSchema, events: readonly string[]): boolean {
  if (name === 'clutches') return registered.some((event) => events.includes(event));
  return name === 'clutch-log' || name === 'log' || name === 'tank-log' || name === 'readings';
}

const registered = ['hatched', 'free_swimming'] as const;

const latest = new WeakMap<RowBlock, ReadonlyMap<string, Moment>>();

/** Of a block that doesn't change the latest moment of each of its events. */
function latestIn(block: RowBlock, schema: SheetSchema): ReadonlyMap<string, Moment> {
  const known = latest.get(block);
  if (known !== undefined) return known;
  const found = new Map<string, Moment>();
  let row: Row;
  const take = (event: string, slot: number): void => {
    if (!row.fill(passing, slot)) return;
    const other = found.get(event);
    if (other === undefined || passing.instant >= other.instant) found.set(event, row.value(slot) as Moment);
  };
  // From the bottom up: logs go on at their end, so that few moments are made. Of equal ones the first stays.
  for (let i = block.rows.length - 1; i >= 0; i--) {
    row = block.rows[i] as Row;
    tellEvents(row, schema, take);
  }
  latest.set(block, found);
  return found;
}

const passing = { instant: 0.5, day: 0, bare: false, about: false };

const milestoneSlots = slotsOf('clutches', ...registered);
const logSlots = { 'clutch-log': slotsOf('clutch-log', 'time', 'event'), log: slotsOf('log', 'time', 'event'), 'tank-log': slotsOf('tank-log', 'time', 'event'), readings: slotsOf('readings', 'time', 'event') };

/** Tells what a row says that happened, with the field that says when; milestones in the register count as their events. */
function tellEvents(row: Row, { name }: SheetSchema, tell: (event: string, slot: number) => void): void {
  switch (name) {
    case 'clutches':
      for (const milestone of registered) tell(milestone, milestoneSlots[milestone]);
      return;
    case 'clutch-log':
    case 'log':
    case 'tank-log':
    case 'readings': {
      const { time, event } = logSlots[name];
      const told = name === 'tank-log' || name === 'readings' ? eventOfTankRow(row, name) : (row.value(event) as string | undefined);
      if (told !== undefined) tell(told, time);
      return;
    }
    default:
  }
}
