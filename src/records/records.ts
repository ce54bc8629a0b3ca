import { isFuture } from '../base/moment';
import type { Moment } from '../base/moment';
import type { TextEdit } from '../base/textEdit';
import { zoneOf } from '../base/zone';
import type { Zone } from '../base/zone';
import type { TankTemperatures } from '../domain/temperature';
import { inTimeOrder } from '../domain/timeOrder';
import type { LogEntry, Profile } from '../domain/things';
import { schemaForPath } from '../schema/catalog';
import type { SheetAtPath } from '../schema/catalog';
import type { SheetName } from '../schema/descriptor';
import { slotOf } from '../schema/slots';
import { Changes } from './changes';
import { readConfig } from './config';
import type { ConfigOutcome, FishroomConfig } from './config';
import type { FileText } from './fileStore';
import { byPath, drop, getSet } from './groups';
import { IdIndex } from './idIndex';
import { isBuiltInSpecies, Profiles } from './profiles';
import { ReadingRows, waterReadings } from './readings';
import type { ReadingSources, WaterReadings } from './readings';
import { RowGroups } from './orderedRows';
import type { Reference, ReferenceTargets } from './references';
import { inWrittenOrder, keyText } from './row';
import type { Row } from './row';
import { RoutineBook } from './routines';
import { SheetFile } from './sheetFile';
import type { Reading } from './sheetFile';
import { tankEvents } from './tankEvents';
import { clutchOf, clutchOfLogRow, logEntryOf, pairOf, tankOf } from './things';
import type { Clutch, Pair, Tank, TankEvent, TankReading } from './things';
import { UnknownReferences } from './unknownReferences';
import type { RowsOfFile } from './unknownReferences';
import { UnreadSheets } from './unreadSheets';

/** A file's new text, `undefined` when it is gone, or edits of the text it had. */
export type FileChange =
  | { readonly path: string; readonly file: FileText | undefined }
  | { readonly path: string; readonly edits: readonly TextEdit[] };

/**
 * All records of one fishroom: its files, ids, references and logs. Changes come file by file; what they touch is told,
 * so that nobody need look at the rest. The result is the same as if all files had been read afresh.
 */
export class Records {
  readonly #machineZone: Zone;
  readonly #files = new Map<string, SheetFile>();
  readonly #indexes = new Map<SheetName, IdIndex>();
  readonly #clutchLogs = new Map<string, Set<SheetFile>>();
  readonly #tankLogs = new Map<string, Set<SheetFile>>();
  readonly #logRows = new Map<string, Set<Row>>();
  readonly #byPair = new RowGroups();
  readonly #tanksOfSystem = new Map<string, Set<Row>>();
  readonly #tanksOfRoom = new Map<string, Set<Row>>();
  readonly #readingRows = new ReadingRows();
  readonly #readingsOfTank = new Map<string, WaterReadings>();
  readonly #readingsOfSystem = new Map<string, WaterReadings>();
  readonly unread = new UnreadSheets();
  readonly #temperatures = new Map<string, TankTemperatures | undefined>();
  #routines: RoutineBook | undefined;
  readonly #profiles = new Profiles((species) => this.index('species').row(species));
  #reading: Reading;
  #config: ConfigOutcome = { kind: 'config', config: {} };

  /** `machineZone` holds where `fishroom.json` names no zone. */
  constructor(machineZone: Zone) {
    this.#machineZone = machineZone;
    this.#reading = { zone: machineZone, extraColumns: new Set() };
  }

  get zone(): Zone {
    return this.#reading.zone;
  }

  /** What `fishroom.json` says, or why it can't be read. */
  get configOutcome(): ConfigOutcome {
    return this.#config;
  }

  get config(): FishroomConfig {
    return this.#config.kind === 'config' ? this.#config.config : {};
  }

  files(): IterableIterator<SheetFile> {
    return this.#files.values();
  }

  file(path: string): SheetFile | undefined {
    return this.#files.get(path);
  }

  /** The ids of a register; empty where the sheet isn't there. */
  index(sheet: SheetName): IdIndex {
    let index = this.#indexes.get(sheet);
    if (index === undefined) this.#indexes.set(sheet, (index = new IdIndex()));
    return index;
  }

  /** Registers that are there, can be read and have a column for their names, as of the last change. */
  readonly #readable = new Map<SheetName, IdIndex | undefined>();

  readonly targets: ReferenceTargets = {
    index: (sheet) => {
      if (!this.#readable.has(sheet)) {
        const file = this.#files.get(`${sheet}.csv`);
        const isReadable = file !== undefined && file.blocked === undefined && file.header.columnOf.has(file.schema.key ?? '');
        this.#readable.set(sheet, isReadable ? this.index(sheet) : undefined);
      }
      return this.#readable.get(sheet);
    },
    isBuiltIn: (sheet, id) => sheet === 'species' && isBuiltInSpecies(id),
  };
  readonly #unknown = new UnknownReferences(this.targets, this.#files);

  clutch(id: string): Clutch | undefined {
    const row = this.index('clutches').row(id);
    return row === undefined ? undefined : clutchOf(row);
  }

  pair(id: string): Pair | undefined {
    const known = this.#pairs.get(id);
    if (known !== undefined) return known;
    const row = this.index('pairs').row(id);
    if (row === undefined) return undefined;
    const pair = pairOf(row);
    this.#pairs.set(id, pair);
    return pair;
  }
  /** Those that were asked for: each of very many clutches asks for its own. */
  readonly #pairs = new Map<string, Pair>();

  tank(id: string): Tank | undefined {
    const row = this.index('tanks').row(id);
    return row === undefined ? undefined : tankOf(row);
  }

  /**
   * Rows of the pair's clutches in the order of their spawns (equal moments: as written), each id once. Those that spawn
   * later than `now` are left out, so that no bare day stands behind them.
   */
  clutchRowsOf(pair: string, now?: Moment): readonly Row[] {
    const index = this.index('clutches');
    const spawnOf = (row: Row): Moment => (clutchOf(row) as Clutch).spawned;
    const holds = (row: Row): boolean => (!index.anyDuplicate || index.row(keyText(row)) === row) && (now === undefined || !isFuture(spawnOf(row), now));
    return inTimeOrder(this.#byPair.of(pair).filter(holds), spawnOf);
  }

  pairsWithClutches(): IterableIterator<string> {
    return this.#byPair.names();
  }

  /** A clutch's own species, else its pair's. */
  speciesOf(clutch: Clutch): string | undefined {
    return clutch.species ?? (clutch.pair === undefined ? undefined : this.pair(clutch.pair)?.species);
  }

  /** The routines that hold here, the keeper's and the built-in ones. */
  get routines(): RoutineBook {
    return (this.#routines ??= new RoutineBook(this.file('routines.csv')?.rows() ?? []));
  }

  profile(species: string): Profile | undefined {
    return this.#profiles.of(species);
  }

  /** Whether any clutch has a log. */
  get hasClutchLogs(): boolean {
    return this.#clutchLogs.size + this.#logRows.size > 0;
  }

  /** The files that are a clutch's own log, in the order of their paths. */
  logsOf(clutch: string): readonly SheetFile[] {
    return byPath(this.#clutchLogs.get(clutch));
  }

  /** The files that are a tank's own log, in the order of their paths. */
  tankLogsOf(tank: string): readonly SheetFile[] {
    return byPath(this.#tankLogs.get(tank));
  }

  /** Tanks on one water. */
  tanksOnWater(system: string): readonly Tank[] {
    return this.#tanksIn(this.#tanksOfSystem, system).flatMap((id) => this.tank(id) ?? []);
  }

  /** What was done to a tank, or to another `onWater` of it too, and found in it; in no order. */
  tankEventsOf(tank: string, where: 'in' | 'onWater'): readonly TankEvent[] {
    const system = where === 'in' ? undefined : this.tank(tank)?.system;
    return tankEvents(system === undefined ? [tank] : this.#tanksIn(this.#tanksOfSystem, system), this.#sources);
  }

  /** The rows of `log.csv` about a clutch, as written. */
  logRowsOf(clutch: string): readonly Row[] {
    return inWrittenOrder(this.#logRows.get(clutch));
  }

  /**
   * The rows of a clutch's log from all files, in the order of their times; rows without readable time and event are left
   * out, and those later than `now`, behind which no bare day stands.
   */
  entriesOf(clutch: Pick<Clutch, 'clutch'>, now?: Moment): readonly LogEntry[] {
    // Asking each clutch of a long register for its name takes its time too.
    if (!this.hasClutchLogs) return NO_ENTRIES;
    const id = clutch.clutch;
    const logs = this.#clutchLogs.get(id);
    const rows = this.logRowsOf(id);
    if (logs === undefined && rows.length === 0) return NO_ENTRIES;
    const entries: LogEntry[] = [];
    const take = (entry: LogEntry | undefined): void => {
      if (entry !== undefined && (now === undefined || !isFuture(entry.time, now))) entries.push(entry);
    };
    for (const log of byPath(logs)) for (const row of log.rows()) take(logEntryOf(row, 'clutch-log'));
    for (const row of rows) take(logEntryOf(row, 'log'));
    return inTimeOrder(entries, ({ time }) => time);
  }

  /** The readings that count for a tank, in the order of their times. */
  readingsOf(tank: string): readonly TankReading[] {
    return this.#waterOf(tank).readings;
  }

  /** The rows of `readings.csv` about a tank, or a room, as written. */
  readingRowsOf({ tank, room }: { readonly tank?: string; readonly room?: string }): readonly Row[] {
    return tank === undefined ? this.#readingRows.ofRoom(room ?? '') : this.#readingRows.ofTank(tank);
  }

  readonly temperaturesOf = (tank: string): TankTemperatures | undefined => {
    if (!this.#temperatures.has(tank)) {
      const { logged } = this.#waterOf(tank);
      const usual = this.tank(tank)?.tempC;
      this.#temperatures.set(tank, logged.rows.length === 0 && usual === undefined ? undefined : { ...logged, usual });
    }
    return this.#temperatures.get(tank);
  };

  #waterOf(tank: string): WaterReadings {
    const system = this.tank(tank)?.system;
    const [waters, name] = system === undefined ? [this.#readingsOfTank, tank] : [this.#readingsOfSystem, system];
    let water = waters.get(name);
    if (water === undefined) {
      water = waterReadings(system === undefined ? [tank] : this.#tanksIn(this.#tanksOfSystem, system), this.#sources);
      waters.set(name, water);
    }
    return water;
  }

  /** The file's rows with ids that a sheet doesn't have, in written order. */
  unknownIn(path: string): readonly { readonly row: Row; readonly references: readonly Reference[] }[] {
    return this.#unknown.in(path);
  }

  /** Takes changes of files and tells what they touched. An edit of a file that isn't there throws. */
  apply(batch: readonly FileChange[]): Changes {
    const changes = new Changes();
    const sheetsBefore = new Map<SheetName, boolean>();
    const added: RowsOfFile[] = [];
    const turned: SheetAtPath[] = [];
    if (batch.some(({ path }) => path === 'fishroom.json')) this.#takeConfig(batch, changes);
    for (const change of batch) {
      const place = schemaForPath(change.path);
      if (place === undefined) continue;
      const name = place.schema.name;
      if (!sheetsBefore.has(name)) {
        sheetsBefore.set(name, this.targets.index(name) !== undefined);
        if (this.index(name).size === 0 && sheetsBefore.get(name) === false) changes.fresh.add(name);
      }
      changes.files.add(change.path);
      if (name === 'routines') {
        this.#routines = undefined;
        changes.others.add(name);
      }
      const rows = this.#takeFile(change, place, changes);
      const file = this.#files.get(change.path);
      if (this.unread.note(change.path, name, file?.isUnread === true)) turned.push(place);
      if (file !== undefined && rows.length > 0) added.push({ file, rows });
    }
    this.#readable.clear();
    for (const [name, before] of sheetsBefore) if ((this.targets.index(name) !== undefined) !== before) changes.appeared.add(name);
    this.#unknown.update(added, changes);
    this.#touchOrphans(changes);
    if (turned.length > 0) this.#touchUnread(turned, changes);
    this.#touchReadings(changes);
    return changes;
  }

  /** What comes from a sheet elsewhere was left alone as long as nobody could read it. */
  #touchUnread(turned: readonly SheetAtPath[], changes: Changes): void {
    for (const path of this.#files.keys()) changes.files.add(path);
    for (const { schema, thing } of turned) {
      if (thing !== undefined) (schema.thing === 'clutch' ? changes.clutches : changes.readings).add(thing);
      else if (schema.name === 'log' || schema.name === 'readings') changes.everything = true;
    }
  }

  #takeConfig(batch: readonly FileChange[], changes: Changes): void {
    const change = batch.find(({ path }) => path === 'fishroom.json');
    if (change === undefined || !('file' in change)) throw new Error('fishroom.json is only taken as a whole');
    changes.files.add('fishroom.json');
    this.#config = readConfig(change.file?.text ?? '');
    const config = this.config;
    const zone = (config.timezone === undefined ? undefined : zoneOf(config.timezone)) ?? this.#machineZone;
    const extra = config.extra_columns ?? [];
    const same = zone === this.#reading.zone && extra.length === this.#reading.extraColumns.size && extra.every((name) => this.#reading.extraColumns.has(name));
    if (same) return;
    this.#reading = { zone, extraColumns: new Set(extra) };
    changes.everything = true;
    this.#routines = undefined;
    for (const file of this.#files.values()) {
      changes.files.add(file.path);
      const { removed, added } = file.reread(this.#reading);
      this.#takeRows(file, removed, { changes, way: 'remove' });
      this.#takeRows(file, added, { changes, way: 'add' });
      this.#unknown.replaced(file);
    }
  }

  /** Gives the rows that came, or that all did. */
  #takeFile(change: FileChange, { schema, thing }: SheetAtPath, changes: Changes): RowsOfFile['rows'] {
    let file = this.#files.get(change.path);
    if ('file' in change && change.file === undefined) {
      if (file === undefined) return [];
      const rows = [...file.rows()];
      this.#files.delete(change.path);
      this.#attachLog(file, changes, 'remove');
      this.#takeRows(file, rows, { changes, way: 'remove' });
      return [];
    }
    if (file === undefined) {
      if (!('file' in change)) throw new Error(`${change.path} was edited before it was read`);
      file = new SheetFile(change.path, schema, thing);
      this.#files.set(change.path, file);
      this.#attachLog(file, changes, 'add');
    }
    const taken = file;
    const came = (rows: readonly Row[]): void => this.#takeRows(taken, rows, { changes, way: 'add' });
    // Nothing goes from a file that was empty.
    if ('file' in change && file.blocks.length === 0) {
      file.replace(change.file as FileText, this.#reading, came);
      return 'all';
    }
    const { removed, added } = 'file' in change ? file.replace(change.file as FileText, this.#reading) : file.edit(change.edits, this.#reading);
    this.#takeRows(file, removed, { changes, way: 'remove' });
    came(added);
    return added;
  }

  #attachLog(file: SheetFile, changes: Changes, way: 'add' | 'remove'): void {
    const { thing } = file;
    if (thing === undefined) return;
    const logs = file.schema.thing === 'clutch' ? this.#clutchLogs : this.#tankLogs;
    if (way === 'add') getSet(logs, thing).add(file);
    else drop(logs, thing, file);
    if (file.schema.thing === 'clutch') changes.clutches.add(thing);
    else changes.readings.add(thing);
  }

  #takeRows(file: SheetFile, rows: readonly Row[], how: { readonly changes: Changes; readonly way: 'add' | 'remove' }): void {
    const { changes, way } = how;
    const { name, role, key, filters } = file.schema;
    if (way === 'remove') this.#unknown.forget(file, rows);
    if (role !== 'register' || key === undefined || filters.length > 0) {
      for (const row of rows) this.#takeOther(file, row, how);
      return;
    }
    const slot = slotOf(file.schema, key);
    const index = this.index(name);
    const named: Row[] = [];
    for (const row of rows) {
      const id = row.value(slot) as string | undefined;
      if (id === undefined) continue;
      named.push(row);
      if (way === 'add' ? index.add(id, row) : index.remove(id, row)) changes.noteId(name, id, way);
      this.#takeThing(name, id, { row, changes, way });
    }
    if (name === 'clutches') changes.noteClutchRows(named, way);
  }

  /** A row that no id stands for. */
  #takeOther(file: SheetFile, row: Row, { changes, way }: { readonly changes: Changes; readonly way: 'add' | 'remove' }): void {
    const sheet = file.schema.name;
    if (sheet === 'clutch-log') {
      changes.clutches.add(file.thing as string);
    } else if (sheet === 'log') {
      const clutch = clutchOfLogRow(row);
      if (clutch !== undefined) {
        if (way === 'add') getSet(this.#logRows, clutch).add(row);
        else drop(this.#logRows, clutch, row);
        changes.clutches.add(clutch);
      }
    } else if (sheet === 'tank-log') {
      changes.readings.add(file.thing as string);
    } else if (sheet === 'readings') {
      const place = way === 'add' ? this.#readingRows.add(row) : this.#readingRows.remove(row);
      if (place.tank !== undefined) changes.readings.add(place.tank);
      else if (place.room !== undefined) changes.roomReadings.add(place.room);
    }
  }

  #takeThing(sheet: SheetName, id: string, { row, changes, way }: { readonly row: Row; readonly changes: Changes; readonly way: 'add' | 'remove' }): void {
    switch (sheet) {
      case 'clutches': {
        const pair = clutchOf(row)?.pair;
        if (pair === undefined) return;
        if (way === 'add') {
          this.#byPair.add(pair, row);
        } else {
          this.#byPair.delete(pair, row);
          changes.pairs.add(pair);
        }
        return;
      }
      case 'pairs':
        changes.pairRows.add(id);
        this.#pairs.delete(id);
        return;
      case 'tanks': {
        const { system, room } = tankOf(row);
        if (system !== undefined) {
          changes.systems.add(system);
          if (way === 'add') getSet(this.#tanksOfSystem, system).add(row);
          else drop(this.#tanksOfSystem, system, row);
        }
        if (room !== undefined) {
          if (way === 'add') getSet(this.#tanksOfRoom, room).add(row);
          else drop(this.#tanksOfRoom, room, row);
          changes.rooms.add(room);
        }
        changes.tanks.add(id);
        return;
      }
      case 'rooms':
        changes.rooms.add(id);
        return;
      case 'species':
        for (const species of this.#profiles.asked()) changes.species.add(species);
        this.#profiles.clear();
        return;
      default:
        if (sheet === 'fish' || sheet === 'cultures') changes[sheet].add(id);
        changes.others.add(sheet);
    }
  }

  /** Once all changes are in: what was measured somewhere counts for all tanks that share the water. */
  #touchReadings({ tanks, readings, roomReadings, systems, rooms }: Changes): void {
    for (const tank of tanks) {
      readings.add(tank);
      // Another row may hold for the name now, in another room or on another system.
      for (const row of this.index('tanks').rows(tank)) {
        const { system, room } = tankOf(row);
        if (system !== undefined) systems.add(system);
        if (room !== undefined) rooms.add(room);
      }
    }
    for (const room of roomReadings) for (const row of this.#tanksOfRoom.get(room) ?? []) readings.add(tankOf(row).tank);
    for (const tank of readings) {
      const system = this.tank(tank)?.system;
      if (system !== undefined) systems.add(system);
    }
    for (const system of systems) {
      this.#readingsOfSystem.delete(system);
      for (const row of this.#tanksOfSystem.get(system) ?? []) readings.add(tankOf(row).tank);
    }
    for (const tank of readings) {
      this.#readingsOfTank.delete(tank);
      this.#temperatures.delete(tank);
    }
  }

  readonly #sources: ReadingSources = {
    tank: (id) => this.tank(id),
    logsOf: (tank) => byPath(this.#tankLogs.get(tank)),
    rowsOf: (tank) => this.#readingRows.ofTank(tank),
    rowsOfRoom: (room) => this.#readingRows.ofRoom(room),
  };

  /** Tanks of a room, retired ones too. */
  tanksOfRoom(room: string): readonly string[] {
    return this.#tanksIn(this.#tanksOfRoom, room);
  }

  /** Each tank once, in written order; of several rows with one id the first holds, in whichever room or system it is. */
  #tanksIn(groups: ReadonlyMap<string, ReadonlySet<Row>>, name: string): readonly string[] {
    const index = this.index('tanks');
    return inWrittenOrder(groups.get(name)).flatMap((row) => {
      const id = row.value(0) as string;
      return index.row(id) === row ? [id] : [];
    });
  }

  /** Logs whose thing came or went with its register's row. */
  #touchOrphans(changes: Changes): void {
    for (const [sheet, logs] of [['clutches', this.#clutchLogs], ['tanks', this.#tankLogs]] as const) {
      const things = changes.appeared.has(sheet) ? logs.keys() : changes.idsOf(sheet);
      for (const thing of things) for (const { path } of logs.get(thing) ?? []) changes.files.add(path);
    }
  }
}

const NO_ENTRIES: readonly LogEntry[] = [];
