import type { Duration } from '../base/duration';
import type { Moment } from '../base/moment';
import { zoneOf } from '../base/zone';
import { cellValue } from '../csv/block';
import type { Zone } from '../base/zone';
import type { Anchor, Level, Routine } from '../domain/routines';
import { schemaNamed } from '../schema/catalog';
import { defaultRoutinesText } from '../schema/defaults';
import { slotOf } from '../schema/slots';
import type { Value } from '../schema/value';
import type { Row } from './row';
import { SheetFile } from './sheetFile';

/** The name that stands for the routines that come with the tool, where a file's path is told. */
const BUILT_IN_ROUTINES = 'built-in routines.csv';

const schema = schemaNamed('routines');

export type About = 'clutch' | 'tank' | 'pair' | 'order';

/** What the filters of a routine's rows are held against; undefined matches only rows that don't ask. */
export interface Traits {
  readonly species?: string | undefined;
  readonly care?: string | undefined;
  readonly use?: string | undefined;
}

/** Where a routine stands: the row that holds, and that of each cell, which may be a less special one. */
export interface RoutineSource {
  readonly row: Row;
  rowOf(name: string): Row | undefined;
}

/** What a routine's cell says, and the row it stands in; undefined for a blank one. */
export function routineCell({ source }: Routine, name: string): { readonly text: string; readonly row: Row; readonly isBuiltIn: boolean } | undefined {
  const row = (source as RoutineSource).rowOf(name);
  const column = row?.block.file.header.columnOf.get(name);
  if (row === undefined || column === undefined) return undefined;
  const { csv } = row.block;
  return { text: cellValue(csv, (csv.rowEdges[row.index] as number) + column), row, isBuiltIn: row.path === BUILT_IN_ROUTINES };
}

/** The keeper's row of a routine; undefined where it comes with the tool. */
export function ownRowOf({ source }: Routine): Row | undefined {
  const { row } = source as RoutineSource;
  return row.path === BUILT_IN_ROUTINES ? undefined : row;
}

/** From what weighs most. */
const filters = ['species', 'care', 'use'] as const;

let builtIn: readonly Row[] | undefined;

function builtInRows(): readonly Row[] {
  if (builtIn === undefined) {
    const file = new SheetFile(BUILT_IN_ROUTINES, schema, undefined);
    file.replace({ text: defaultRoutinesText }, { zone: zoneOf('UTC') as Zone, extraColumns: new Set() });
    builtIn = [...file.rows()];
  }
  return builtIn;
}

/** The routines of a fishroom: the keeper's rows, and those that come with the tool. */
export class RoutineBook {
  readonly #rows: ReadonlyMap<string, readonly Row[]>;
  readonly #known = new Map<string, readonly Routine[]>();
  /** Events whose being written down at all decides how much a routine matters. */
  readonly habitEvents: ReadonlySet<string>;
  /** What any of the rows says is to be done, those that apply to nothing too. */
  readonly actions: ReadonlySet<string>;
  /** Each routine by its name, with what is to be done. */
  readonly actionOf: ReadonlyMap<string, string>;

  /** `own` are the rows of the keeper's sheet, as written. */
  constructor(own: Iterable<Row>) {
    const rows = new Map<string, Row[]>();
    for (const row of [...own, ...builtInRows()]) {
      const id = textOf(row, 'routine');
      if (id === undefined) continue;
      const there = rows.get(id);
      if (there === undefined) rows.set(id, [row]);
      else there.push(row);
    }
    this.#rows = rows;
    this.habitEvents = habitEventsIn(rows.values());
    this.actions = new Set([...rows.values()].flatMap((all) => all.flatMap((row) => textOf(row, 'action') ?? [])));
    this.actionOf = new Map([...rows].map(([id, all]) => [id, all.map((row) => textOf(row, 'action')).find((action) => action !== undefined) ?? id]));
  }

  /**
   * The routines that apply to a thing, in the order of the sheet. Of a routine's rows whose filters all match, the most
   * special one holds (species before care before use before none, the keeper's before the built-in); its blank cells are
   * taken from the next one.
   */
  for(about: About, traits: Traits): readonly Routine[] {
    const key = JSON.stringify([about, traits.species, traits.care, traits.use]);
    let routines = this.#known.get(key);
    if (routines === undefined) {
      routines = [...this.#rows.values()].flatMap((rows) => routineOf(rows, about, traits) ?? []);
      this.#known.set(key, routines);
    }
    return routines;
  }

  /** Whether the keeper's own rows switch a routine off for a thing. */
  isSwitchedOff(id: string, about: About, traits: Traits): boolean {
    const own = (this.#rows.get(id) ?? []).filter((row) => row.path !== BUILT_IN_ROUTINES);
    const holder = own.length === 0 ? undefined : mostSpecial(own, about, traits).find((row) => valueOf(row, 'off') !== undefined);
    return holder !== undefined && valueOf(holder, 'off') === 'yes';
  }
}

/** Which words may stand in `done_by` of routines whose level is a habit. */
function habitEventsIn(groups: Iterable<readonly Row[]>): ReadonlySet<string> {
  const events = new Set<string>();
  for (const rows of groups) {
    if (!rows.some((row) => valueOf(row, 'level') === 'habit')) continue;
    for (const row of rows) for (const event of (valueOf(row, 'done_by') as readonly string[] | undefined) ?? []) events.add(event);
  }
  return events;
}

function routineOf(rows: readonly Row[], about: About, traits: Traits): Routine | undefined {
  const [holder, ...others] = mostSpecial(rows, about, traits);
  if (holder === undefined) return undefined;
  const all = [holder, ...others];
  const cell = (name: string): Value => all.map((row) => valueOf(row, name)).find((value) => value !== undefined);
  const source: RoutineSource = { row: holder, rowOf: (name) => all.find((row) => valueOf(row, name) !== undefined) };
  if (cell('off') === 'yes') return undefined;
  // When it is to be done, or what has been done, nobody can know: better not asked than asked at the wrong time.
  if (telling.some((name) => cell(name) === undefined && all.some((row) => isUnreadable(row, name)))) return undefined;
  return {
    routine: textOf(holder, 'routine') as string,
    action: (cell('action') as string | undefined) ?? (textOf(holder, 'routine') as string),
    level: (cell('level') as Level | undefined) ?? 'remind',
    anchor: cell('anchor') as Anchor | undefined,
    offset: cell('offset') as Duration | Moment | undefined,
    untilAnchor: cell('until_anchor') as Anchor | undefined,
    untilOffset: cell('until_offset') as Duration | undefined,
    every: cell('every') as Routine['every'],
    grace: cell('grace') as Duration | undefined,
    lapse: cell('lapse') as Duration | undefined,
    doneBy: (cell('done_by') as readonly string[] | undefined) ?? [],
    source,
  };
}

/** Without what these say, where a row says something, a routine would be asked at another time, or again and again. */
const telling = ['anchor', 'offset', 'until_anchor', 'until_offset', 'every', 'done_by'];

/** Whether something stands in a cell that is no value of its field. */
function isUnreadable({ faults, block }: Row, name: string): boolean {
  return faults.some(({ column }) => column !== undefined && block.file.header.columns[column]?.field?.name === name);
}

/** The rows that apply to a thing, the most special first. */
function mostSpecial(rows: readonly Row[], about: About, traits: Traits): readonly Row[] {
  const matching = rows.filter((row) => textOf(row, 'about') === about && filters.every((name) => (textOf(row, name) ?? traits[name]) === traits[name]));
  // The order among equals stays: the keeper's rows stand first.
  return matching.sort((a, b) => weight(b) - weight(a));
}

/** A filter counts more than all that weigh less together. */
function weight(row: Row): number {
  return filters.reduce((sum, name) => sum * 2 + (valueOf(row, name) === undefined ? 0 : 1), 0);
}

function valueOf(row: Row, name: string): Value {
  return row.value(slotOf(schema, name));
}

function textOf(row: Row, name: string): string | undefined {
  return valueOf(row, name) as string | undefined;
}
