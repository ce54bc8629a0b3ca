import { isFuture } from '../base/moment';
import { cellIs } from '../csv/block';
import type { Alive } from '../domain/headcount';
import type { LogEntry } from '../domain/things';
import { NO_HEADER } from '../records/header';
import type { Header } from '../records/header';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { cultureOf } from '../records/cultures';
import { logEntryOf, placeOfReading, readingOf, tankOf } from '../records/things';
import { slotOf } from '../schema/slots';
import type { ClutchMemory } from './clutchMemory';
import type { Evaluation } from './evaluation';
import type { Column } from './columns/column';
import type { LogRowState } from './columns/logRow';
import type { WaterRow } from './columns/water';
import { clutchColumns, cultureColumns, fishColumns, logColumns, pairColumns, roomColumns, tankColumns, waterColumns } from './columns/registry';
import type { ClutchState, PairState, PlanView } from './states';

/** The computed columns of a file's header with what computes them; undefined where nothing does yet. */
function columnsOf<State>(file: SheetFile, all: readonly Column<State>[]): readonly (Column<State> | undefined)[] {
  let columns: readonly (Column<State> | undefined)[] | undefined = known.get(file.header);
  if (columns === undefined) {
    columns = file.header.computed.map(({ field }) => all.find(({ header }) => header === field.name));
    known.set(file.header, columns);
  }
  return columns;
}

const known = new WeakMap<object, readonly (Column<never> | undefined)[]>();

/** What the computed cells of a row should say, in the order of the header's computed columns; undefined: not ours to say. */
export type ExpectedCells = readonly (string | undefined)[];

/** Keeps, row by row, which computed cells aren't what they should be. */
export class Staleness {
  readonly #evaluation: Evaluation;

  constructor(evaluation: Evaluation) {
    this.#evaluation = evaluation;
  }

  /** The row of a clutch, and those of its logs. */
  checkClutch(row: Row, state: ClutchMemory | undefined, touched: Set<string>): void {
    const { records } = this.#evaluation;
    const file = records.file(row.path);
    if (file !== undefined) this.#markClutch(file, row, state, touched);
    // Of a long register each name takes its time to be read.
    if (file !== undefined && records.index('clutches').anyDuplicate) this.#markOthers({ file, sheet: 'clutches', id: keyText(row), holder: row }, touched);
    if (records.hasClutchLogs) this.checkLogs(keyText(row), state, touched);
  }

  checkLogs(id: string, state: ClutchMemory | undefined, touched: Set<string>): void {
    const { records } = this.#evaluation;
    const logs = records.logsOf(id);
    const shared = records.logRowsOf(id);
    if (logs.length === 0 && shared.length === 0) return;
    const states = logRowStates(state, this.#evaluation);
    for (const log of logs) {
      if (log.header.computed.length === 0) continue;
      for (const logRow of log.rows()) this.#mark(log, logRow, cellsOf(log, logColumns, states?.(logRow, 'clutch-log'), this.#evaluation), touched);
    }
    for (const logRow of shared) {
      const log = records.file(logRow.path);
      if (log === undefined || log.header.computed.length === 0) continue;
      this.#mark(log, logRow, cellsOf(log, logColumns, states?.(logRow, 'log'), this.#evaluation), touched);
    }
  }

  #markClutch(file: SheetFile, row: Row, state: ClutchMemory | undefined, touched: Set<string>): void {
    // A long register has no list of cells made for each of its rows.
    let stale = 0;
    if (row.wellFormed) {
      const { csv } = row.block;
      const first = csv.rowEdges[row.index] as number;
      const isSettled = state?.isSettled === true;
      for (const { column, place, bit } of this.#clutchColumnsOf(file.header)) {
        const cell = state === undefined ? '' : ((isSettled ? column.settled : undefined) ?? column.value(state, this.#evaluation));
        if (!cellIs(csv, first + place, cell)) stale |= bit;
      }
    }
    this.#setStale(file, row, stale, touched);
  }

  #clutchColumnsOf(header: Header): readonly PlacedColumn[] {
    if (this.#clutchColumns.header !== header) this.#clutchColumns = { header, columns: placedColumns(header) };
    return this.#clutchColumns.columns;
  }
  /** Of the header that was last asked for: there is hardly ever another. */
  #clutchColumns: { readonly header: Header; readonly columns: readonly PlacedColumn[] } = { header: NO_HEADER, columns: [] };

  checkPair(id: string, state: PairState | undefined, touched: Set<string>): void {
    this.#markThing({ sheet: 'pairs', id }, (file) => cellsOf(file, pairColumns, state, this.#evaluation), touched);
  }

  /** Rows of the logs of these tanks, and of `readings.csv` about them or these rooms. */
  checkWater(tanks: Iterable<string>, rooms: Iterable<string>, touched: Set<string>): void {
    const { records } = this.#evaluation;
    for (const tank of tanks) {
      for (const log of records.tankLogsOf(tank)) if (log.header.computed.length > 0) for (const row of log.rows()) this.#markWater(log, row, touched);
      for (const row of records.readingRowsOf({ tank })) this.#markWater(records.file(row.path), row, touched);
    }
    for (const room of rooms) for (const row of records.readingRowsOf({ room })) this.#markWater(records.file(row.path), row, touched);
  }

  /** All rows about water of some files, of which some count only now or no more. */
  checkWaterFiles(files: readonly SheetFile[], touched: Set<string>): void {
    for (const file of files) if (file.schema.name === 'tank-log' || file.schema.name === 'readings') for (const row of file.rows()) this.#markWater(file, row, touched);
  }

  #markWater(file: SheetFile | undefined, row: Row, touched: Set<string>): void {
    if (file === undefined || file.header.computed.length === 0) return;
    this.#mark(file, row, waterCells(file, row, this.#evaluation), touched);
  }

  checkFish(fish: Iterable<string>, touched: Set<string>): void {
    const file = this.#evaluation.records.file('fish.csv');
    if (file === undefined || file.header.computed.length === 0) return;
    for (const id of fish) this.#markThing({ sheet: 'fish', id }, (sheet, row) => cellsOf(sheet, fishColumns, row, this.#evaluation), touched);
  }

  checkCultures(cultures: Iterable<string>, touched: Set<string>): void {
    for (const id of cultures) this.#markThing({ sheet: 'cultures', id }, (sheet, row) => cellsOf(sheet, cultureColumns, cultureOf(row), this.#evaluation), touched);
  }

  checkTanks(tanks: ReadonlySet<string>, touched: Set<string>): void {
    const { records } = this.#evaluation;
    const file = records.file('tanks.csv');
    if (file === undefined || file.header.computed.length === 0) return;
    for (const id of tanks) this.#markThing({ sheet: 'tanks', id }, (sheet, row) => cellsOf(sheet, tankColumns, tankOf(row), this.#evaluation), touched);
  }

  checkRooms(rooms: ReadonlySet<string>, tanks: ReadonlySet<string>, touched: Set<string>): void {
    const { records } = this.#evaluation;
    const file = records.file('rooms.csv');
    if (file === undefined || file.header.computed.length === 0) return;
    const all = new Set(rooms);
    for (const tank of tanks) {
      const room = records.tank(tank)?.room;
      if (room !== undefined) all.add(room);
    }
    for (const id of all) this.#markThing({ sheet: 'rooms', id }, (sheet) => cellsOf(sheet, roomColumns, id, this.#evaluation), touched);
  }

  /** Of several rows with one id only the first says something; the computed cells of the others are nobody's. */
  #markThing({ sheet, id }: Thing, cells: (file: SheetFile, row: Row) => ExpectedCells, touched: Set<string>): void {
    const { records } = this.#evaluation;
    const index = records.index(sheet);
    const holder = index.row(id);
    if (holder === undefined) return;
    const file = records.file(holder.path);
    if (file === undefined) return;
    this.#mark(file, holder, cells(file, holder), touched);
    this.#markOthers({ file, sheet, id, holder }, touched);
  }

  #markOthers({ file, sheet, id, holder }: Thing & { readonly file: SheetFile; readonly holder: Row }, touched: Set<string>): void {
    const index = this.#evaluation.records.index(sheet);
    if (!index.anyDuplicate || !index.isDuplicate(id)) return;
    for (const row of index.rows(id)) if (row !== holder) this.#mark(file, row, NOTHING, touched);
  }

  #mark(file: SheetFile, row: Row, cells: ExpectedCells, touched: Set<string>): void {
    let stale = 0;
    if (row.wellFormed) {
      const { csv } = row.block;
      const first = csv.rowEdges[row.index] as number;
      for (let i = 0; i < cells.length; i++) {
        const cell = cells[i];
        if (cell !== undefined && !cellIs(csv, first + (file.header.computed[i]?.column as number), cell)) stale |= 1 << i;
      }
    }
    this.#setStale(file, row, stale, touched);
  }

  #setStale(file: SheetFile, row: Row, stale: number, touched: Set<string>): void {
    // What a cell should say may be another thing than before, though it is as wrong as it was.
    if (file.markStale(row, stale) || stale !== 0) touched.add(file.path);
  }
}

interface Thing {
  readonly sheet: 'clutches' | 'pairs' | 'tanks' | 'rooms' | 'fish' | 'cultures';
  readonly id: string;
}

/** A column of clutches, where it stands, and its bit in what is stale of a row. */
interface PlacedColumn {
  readonly column: Column<ClutchState>;
  readonly place: number;
  readonly bit: number;
}

function placedColumns({ computed }: Header): readonly PlacedColumn[] {
  return computed.flatMap(({ column: place, field }, i) => clutchColumns.filter(({ header }) => header === field.name).map((column) => ({ column, place, bit: 1 << i })));
}

/** What a row's computed cells should say: all empty where its thing isn't known. */
function cellsOf<State>(file: SheetFile, all: readonly Column<State>[], state: State | undefined, view: PlanView): ExpectedCells {
  return columnsOf(file, all).map((column) => (column === undefined ? undefined : state === undefined ? '' : column.value(state, view)));
}

export type LogRowStates = ((row: Row, sheet: 'clutch-log' | 'log') => LogRowState | undefined) | undefined;

/** Gives each row of a clutch's logs its state: none for rows that count for nothing. */
export function logRowStates(state: ClutchState | undefined, evaluation: Evaluation): LogRowStates {
  if (state === undefined) return undefined;
  const after = new Map<LogEntry, Alive>();
  const { entries } = state.study;
  const afterEach = (alive: Alive, index: number): void => {
    const entry = entries[index];
    if (entry !== undefined) after.set(entry, alive);
  };
  const study = evaluation.study(state.clutch, { species: state.species, afterEach });
  const last = study.heads.alive;
  return (row, sheet) => {
    const entry = logEntryOf(row, sheet);
    if (entry === undefined || isFuture(entry.time, evaluation.now)) return undefined;
    return { state, entry, alive: after.get(entry) ?? last };
  };
}

/** A row about water as its columns look at it; undefined for one that names neither tank nor room. */
export function waterRowOf(file: SheetFile, row: Row): WaterRow | undefined {
  if (file.thing !== undefined) return { row, tank: file.thing, reading: readingOf(row, 'tank-log') };
  const { tank, room } = placeOfReading(row);
  return tank === undefined && room === undefined ? undefined : { row, tank, reading: readingOf(row, 'readings') };
}

/** Cells of a row that is about no water are nobody's. */
function waterCells(file: SheetFile, row: Row, evaluation: Evaluation): ExpectedCells {
  const state = waterRowOf(file, row);
  return state === undefined ? NOTHING : cellsOf(file, waterColumns, state, evaluation);
}

/** What the computed cells of any row should say. `logs` keeps what is worked out once for all rows of a clutch's log. */
export function expectedCells(file: SheetFile, row: Row, evaluation: Evaluation, logs = new Map<string, LogRowStates>()): ExpectedCells {
  return withColumnsOf({ file, row, logs }, evaluation, (all, state) => cellsOf(file, all, state, evaluation)) ?? NOTHING;
}

/** A row, and what is worked out once for all rows of a clutch's log. */
export interface RowAsked {
  readonly file: SheetFile;
  readonly row: Row;
  readonly logs: Map<string, LogRowStates>;
}

/** Hands the columns that are computed in a sheet to `use`, with what they look at in a row (undefined: its thing isn't known); undefined where no cell of the row is ours. */
export function withColumnsOf<Result>({ file, row, logs }: RowAsked, evaluation: Evaluation, use: <State>(all: readonly Column<State>[], state: State | undefined) => Result): Result | undefined {
  const { records } = evaluation;
  const id = row.value(slotOf(file.schema, file.schema.name === 'log' ? 'clutch' : file.schema.key)) as string | undefined;
  const holds = (sheet: Thing['sheet']): boolean => id !== undefined && records.index(sheet).row(id) === row;
  switch (file.schema.name) {
    case 'clutches':
      return holds('clutches') ? use(clutchColumns, evaluation.clutch(id as string)) : undefined;
    case 'pairs':
      return holds('pairs') ? use(pairColumns, evaluation.pair(id as string)) : undefined;
    case 'tanks':
      return holds('tanks') ? use(tankColumns, tankOf(row)) : undefined;
    case 'tank-log':
    case 'readings': {
      const state = waterRowOf(file, row);
      return state === undefined ? undefined : use(waterColumns, state);
    }
    case 'fish':
      return holds('fish') ? use(fishColumns, row) : undefined;
    case 'cultures':
      return holds('cultures') ? use(cultureColumns, cultureOf(row)) : undefined;
    case 'rooms':
      return holds('rooms') ? use(roomColumns, id) : undefined;
    case 'clutch-log':
    case 'log': {
      const clutch = file.thing ?? id;
      if (clutch === undefined) return use(logColumns, undefined);
      if (!logs.has(clutch)) logs.set(clutch, logRowStates(evaluation.clutch(clutch), evaluation));
      return use(logColumns, logs.get(clutch)?.(row, file.schema.name));
    }
    default:
      return undefined;
  }
}

const NOTHING: ExpectedCells = [];
