import { relative, resolve } from 'node:path';
import { say } from '../base/messages';
import { computedHeaders } from '../planner/columns/registry';
import type { SheetFile } from '../records/sheetFile';
import { nearest } from '../schema/nearest';
import { countOf } from './text';
import { shown } from './rooms';
import type { Room } from './rooms';
import { WrongUse } from './wrongUse';

/** A row of a sheet; record 0 is the header. */
export interface Target {
  readonly room: Room;
  readonly file: SheetFile;
  readonly record: number;
}

/**
 * The row that ID or FILE:LINE means, whose column `header` is computed. FILE is seen from `cwd`, else from a fishroom.
 * Throws WrongUse, with what was likely meant, where there is none or there are several.
 */
export function targetOf(row: string, header: string, { rooms, cwd }: { readonly rooms: readonly Room[]; readonly cwd: string }): Target {
  const place = /^(.+):(\d+)$/s.exec(row);
  const candidates = place === null ? rowsNamed(row, rooms) : rowsAt(place[1] as string, Number(place[2]), { rooms, cwd });
  const fitting = candidates.filter(({ file }) => computedHeaders(file.schema.name).includes(header));
  const [only, ...others] = fitting;
  if (only === undefined) throw noSuchHeader(header, candidates);
  if (others.length > 0) throw new WrongUse(say('cli.explain.several', fitting.map(({ room, file, record }) => `${shown(room.folder, file.path)}:${lineOf(room, file, record)}`).join(', ')));
  return only;
}

/** The line on which a record begins, from 1. */
export function lineOf({ places }: Room, { path, doc }: SheetFile, record: number): number {
  return places.at(path, doc.rowSpan(record).start).line;
}

function rowsNamed(id: string, rooms: readonly Room[]): readonly Target[] {
  const found = rooms.flatMap((room) =>
    room.plan.placesOf(id).flatMap(({ path, record }) => {
      const file = room.plan.records.file(path);
      return file === undefined ? [] : [{ room, file, record }];
    }),
  );
  if (found.length > 0) return found;
  const near = nearest(id, idsIn(rooms));
  throw new WrongUse(near === undefined ? say('cli.explain.id', id) : say('cli.explain.id.near', id, near));
}

function* idsIn(rooms: readonly Room[]): Generator<string> {
  for (const { plan } of rooms) {
    for (const { schema } of plan.records.files()) {
      if (schema.role === 'register' && computedHeaders(schema.name).length > 0) yield* plan.records.index(schema.name).ids();
    }
  }
}

function rowsAt(path: string, line: number, { rooms, cwd }: { readonly rooms: readonly Room[]; readonly cwd: string }): readonly Target[] {
  const fromHere = sheets(rooms, (room) => relative(room.path, resolve(cwd, path)));
  const files = fromHere.length > 0 ? fromHere : sheets(rooms, () => path);
  if (files.length === 0) {
    const near = nearest(path, rooms.flatMap(({ folder, plan }) => plan.paths().flatMap((each) => [each, shown(folder, each)])));
    throw new WrongUse(near === undefined ? say('cli.explain.file', path) : say('cli.explain.file.near', path, near));
  }
  return files.map(({ room, file }) => ({ room, file, record: recordAt(line, { room, file }) }));
}

function sheets(rooms: readonly Room[], pathIn: (room: Room) => string): readonly Omit<Target, 'record'>[] {
  return rooms.flatMap((room) => {
    const file = room.plan.records.file(pathIn(room).replaceAll('\\', '/').replace(/^\.\//, ''));
    return file === undefined ? [] : [{ room, file }];
  });
}

function recordAt(line: number, { room, file }: Omit<Target, 'record'>): number {
  const where = shown(room.folder, file.path);
  if (file.blocked !== undefined) throw new WrongUse(say('cli.explain.blocked', where));
  const start = room.places.startOfLine(file.path, line);
  const record = start === undefined ? undefined : file.doc.at(start).row;
  if (record === undefined || record >= file.doc.rowCount) {
    const last = file.doc.rowCount === 0 ? 0 : room.places.at(file.path, file.doc.rowSpan(file.doc.rowCount - 1).end).line;
    throw new WrongUse(say('cli.explain.line', where, line, countOf('lines', last)));
  }
  if (record === 0) throw new WrongUse(say('cli.explain.line-header', where, line));
  if (file.rowAt(record) === undefined) throw new WrongUse(say('cli.explain.line-blank', where, line));
  return record;
}

function noSuchHeader(header: string, candidates: readonly Target[]): WrongUse {
  const [first] = candidates;
  if (first === undefined) throw new Error('a header is asked for of no row');
  const where = [...new Set(candidates.map(({ room, file }) => shown(room.folder, file.path)))].join(', ');
  const headers = candidates.flatMap(({ file }) => computedHeaders(file.schema.name));
  const isOwn = candidates.some(({ file }) => file.schema.fieldNamed.get(header)?.computed === false);
  if (isOwn && headers.length > 0) return new WrongUse(say('cli.explain.own', header, where, headers.join(', ')));
  const near = nearest(header, headers);
  return new WrongUse(near === undefined ? say('cli.explain.header', header, where) : say('cli.explain.header.near', header, where, near));
}
