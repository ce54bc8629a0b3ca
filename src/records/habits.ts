import type { Moment } from '../base/moment';
import { compareMoments } from '../base/moment';
import type { SheetSchema } from '../schema/descriptor';
import { slotOf } from '../schema/slots';
import type { Row, RowBlock } from './row';
import type { SheetFile } from './sheetFile';
import { eventOfTankRow } from './things';

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
  return eventsOf(row, schema).some(([name, time]) => name === event && time.day >= now.day - DAYS && compareMoments(time, now) <= 0);
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
  let known = latest.get(block) as Map<string, Moment> | undefined;
  if (known !== undefined) return known;
  known = new Map();
  for (const row of block.rows) {
    for (const [event, time] of eventsOf(row, schema)) {
      const other = known.get(event);
      if (other === undefined || time.instant > other.instant) known.set(event, time);
    }
  }
  latest.set(block, known);
  return known;
}

/** What a row says that happened; milestones in the register count as their events. */
function eventsOf(row: Row, schema: SheetSchema): readonly (readonly [string, Moment])[] {
  const value = (name: string): unknown => row.value(slotOf(schema, name));
  if (schema.name === 'clutches') {
    return registered.flatMap((name) => {
      const time = value(name) as Moment | undefined;
      return time === undefined ? [] : [[name, time] as const];
    });
  }
  const time = value('time') as Moment | undefined;
  const event = schema.name === 'tank-log' || schema.name === 'readings' ? eventOfTankRow(row, schema.name) : (value('event') as string | undefined);
  return time === undefined || event === undefined ? [] : [[event, time]];
}

