import { existsSync, realpathSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import { formatMoment, parseMoment } from '../base/moment';
import { zoneOf } from '../base/zone';
import type { Zone } from '../base/zone';
import { Plan } from '../planner/plan';
import { roomsInOrder } from '../planner/roomName';
import { findFishrooms } from '../records/discovery';
import type { Fishroom } from '../records/discovery';
import type { FileStore } from '../records/fileStore';
import { readAll } from '../records/load';
import type { Row } from '../records/row';
import type { Io } from './io';
import { NodeFileStore } from './nodeFileStore';
import { Places } from './places';
import { WrongUse } from './wrongUse';

/** A fishroom as read. */
export interface Room {
  /** As it was given, or from there; with `/`. */
  readonly folder: string;
  /** Absolute. */
  readonly path: string;
  readonly plan: Plan;
  readonly places: Places;
  /** A file or folder in it can't be read, so what follows from the others may be wrong. */
  readonly isIncomplete: boolean;
}

export interface Rooms {
  readonly rooms: readonly Room[];
  /** Now on the first fishroom's clock. */
  readonly now: string;
  /** Complaints about files and folders in them that can't be read. */
  readonly unread: readonly Message[];
}

/**
 * Reads all fishrooms in some folders, each once. `now` is a moment on each fishroom's own clock; without one it's the
 * real one. Throws WrongUse for an unreadable moment, and for a folder that can't be read or holds no fishroom.
 */
export async function readRooms(folders: readonly string[], { now, io }: { readonly now: string | undefined; readonly io: Io }): Promise<Rooms> {
  const machineZone = zoneOf(io.zone) ?? universal();
  if (now !== undefined) instantOf(now, machineZone);
  const clock = io.now();
  const clockIn = (zone: Zone): number => (now === undefined ? clock : instantOf(now, zone));
  const rooms: Room[] = [];
  const unread: Message[] = [];
  const seen = new Set<string>();
  for (const folder of folders) {
    const root = resolve(io.cwd, folder);
    const store = new NodeFileStore(root);
    const found = await findFishrooms(store);
    if (found.length === 0) throw new WrongUse(whyNone(folder, root, store));
    for (const fishroom of found) {
      const path = join(root, fishroom.folder);
      const real = realpathSync(path);
      if (seen.has(real)) continue;
      seen.add(real);
      const room = await readRoom(store, fishroom, { machineZone, clockIn });
      const isIncomplete = [...store.failures.keys()].some((failed) => fishroom.folder === '' || failed === fishroom.folder || failed.startsWith(`${fishroom.folder}/`));
      rooms.push({ folder: shown(folder, fishroom.folder), path, ...room, isIncomplete });
    }
    for (const [path, reason] of store.failures) unread.push(say('cli.file.unreadable', shown(folder, path), textOf(reason)));
  }
  const first = rooms[0]?.plan;
  if (first === undefined) throw new Error('no folders were given');
  return { rooms, unread, now: formatMoment(first.now, first.records.zone) };
}

/** Complaints about sheets whose text can't be what was meant, so that nothing of them is in what is told. What is wrong with them is said by `check`. */
export function unreadSheets(rooms: readonly Room[]): readonly Message[] {
  return rooms.flatMap(({ folder, plan }) => plan.unreadPaths().map((path) => say('cli.sheet.unreadable', shown(folder, path))));
}

/** A path of a fishroom's file as it was given, or from there; with `/`. */
export function shown(folder: string, path: string): string {
  return join(folder, path).replaceAll('\\', '/');
}

interface Clock {
  readonly machineZone: Zone;
  readonly clockIn: (zone: Zone) => number;
}

async function readRoom(store: FileStore, fishroom: Fishroom, { machineZone, clockIn }: Clock): Promise<Pick<Room, 'plan' | 'places'>> {
  const batch = await readAll(store, fishroom);
  const config = batch.find(({ path }) => path === 'fishroom.json');
  const plan = new Plan({ machineZone, now: 0 });
  // What the clock shows is only known once the fishroom has said where it is.
  if (config !== undefined) plan.apply([config]);
  plan.setNow(clockIn(plan.records.zone));
  plan.apply(batch.filter((change) => change !== config));
  const configText = config !== undefined && 'file' in config ? config.file?.text : undefined;
  return { plan, places: new Places(plan, configText ?? '') };
}

function instantOf(now: string, zone: Zone): number {
  const moment = parseMoment(now, zone);
  if (moment === undefined || moment.about) throw new WrongUse(say('cli.now.unreadable', now));
  return moment.instant;
}

function universal(): Zone {
  const zone = zoneOf('UTC');
  if (zone === undefined) throw new Error('the runtime knows no UTC');
  return zone;
}

function whyNone(folder: string, root: string, { failures }: NodeFileStore): Message {
  const itself = failures.get('');
  if (itself !== undefined) return say('cli.folder.unreadable', folder, textOf(itself));
  for (const [path, reason] of failures) return say('cli.file.unreadable', shown(folder, path), textOf(reason));
  for (let above = dirname(root); above !== dirname(above); above = dirname(above)) {
    if (existsSync(join(above, 'fishroom.json'))) return say('cli.folder.inside', folder, shown(folder, relative(root, above)));
  }
  return say('cli.folder.none', folder);
}

/** The fishrooms by what their keepers call them, else by their folders; of several with one name all but the first are numbered. */
export function namedRooms(rooms: readonly Room[]): readonly { readonly name: string; readonly plan: Plan }[] {
  const taken = new Set<string>();
  return rooms.map(({ path, plan }) => {
    const own = plan.records.config.name ?? basename(path);
    let name = own;
    for (let number = 2; taken.has(name); number++) name = `${own} ${number}`;
    taken.add(name);
    return { name, plan };
  });
}

/** Lines that say that fishrooms keep no time zone of their own, so that their times depend on the machine. */
export function zoneHint(rooms: readonly Room[]): string[] {
  const without = rooms.find(({ plan }) => plan.records.config.timezone === undefined);
  return without === undefined ? [] : ['', textOf(say('cli.no-timezone', without.plan.records.zone.name))];
}

/** Throws WrongUse where no fishroom has the room. */
export function roomMustBe(name: string, rooms: readonly Room[]): void {
  const known = [...new Set(rooms.flatMap(({ plan }) => roomsInOrder(plan.records)))];
  if (!known.includes(name)) throw new WrongUse(say('cli.due.room', name, known.join(', ')));
}

/** Where a row stands, for programs: its file, with the fishroom's folder before it where there are several, and the line. */
export function placeOfRow(row: Row, { folder, plan, places }: Room, isOneOfSeveral: boolean): { readonly file: string; readonly line: number } {
  const file = plan.records.file(row.path);
  const start = file === undefined ? 0 : file.doc.rowSpan(file.recordOf(row)).start;
  return { file: isOneOfSeveral ? shown(folder, row.path) : row.path, line: places.at(row.path, start).line };
}
