import { join } from 'node:path';
import { say, textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import type { CommandLine } from '../args';
import { complain } from '../complain';
import { fillingsOf } from '../filling';
import type { Change, Filling } from '../filling';
import { writeLines } from '../io';
import type { ExitCode, Io } from '../io';
import { jsonLines } from '../jsonLines';
import { reasonOf } from '../reason';
import { replaceFile } from '../replaceFile';
import { readRooms, shown, zoneHint } from '../rooms';
import type { Room } from '../rooms';
import { aligned, countOf, paintsFor, visible } from '../text';
import type { Cell, Paints } from '../text';
import type { Verb } from '../verb';

/** What the computed columns should hold; with --write they do so afterwards. */
export const fill: Verb = { name: 'fill', options: ['write', 'add', 'overwrite'], run };

interface Filled {
  readonly room: Room;
  readonly files: readonly Filling[];
}

async function run({ operands, options }: CommandLine, io: Io): Promise<ExitCode> {
  const { rooms, unread, now } = await readRooms(operands.length > 0 ? operands : ['.'], { now: options.now, io });
  const leftAlone: Message[] = [];
  const failures: Message[] = [...unread];
  const filled = rooms.map((room): Filled => {
    const fillings = fillingsOf(room, options);
    leftAlone.push(...fillings.leftAlone);
    if (!options.write) return { room, files: fillings.files };
    if (!room.isIncomplete) return { room, files: fillings.files.filter((file) => write(file, room, failures)) };
    if (fillings.files.length > 0) failures.push(say('cli.fill.incomplete', room.folder));
    return { room, files: [] };
  });
  writeLines(io.out, options.format === 'json' ? jsonLines({ now }, { changes: changesOf(filled) }) : textOfAll(filled, { isWritten: options.write, isAll: leftAlone.length === 0, paints: paintsFor(io) }));
  for (const message of [...leftAlone, ...failures]) complain(io, message);
  if (failures.length > 0) return 2;
  return options.write || filled.every(({ files }) => files.length === 0) ? 0 : 1;
}

/** Returns false, with a failure more, when the file could not be written. */
function write({ path, before, after }: Filling, room: Room, failures: Message[]): boolean {
  try {
    if (replaceFile(join(room.path, path), { before, after })) return true;
    failures.push(say('cli.file.changed', shown(room.folder, path)));
  } catch (error) {
    failures.push(say('cli.file.unwritable', shown(room.folder, path), textOf(reasonOf(error))));
  }
  return false;
}

function* changesOf(filled: readonly Filled[]): Generator {
  for (const { room, files } of filled) {
    for (const { path, changes } of files) {
      const file = filled.length > 1 ? shown(room.folder, path) : path;
      for (const { line, column, header, before, after } of changes) yield { file, line, column, header, before, after };
    }
  }
}

function* textOfAll(filled: readonly Filled[], { isWritten, isAll, paints }: { readonly isWritten: boolean; readonly isAll: boolean; readonly paints: Paints }): Generator<string> {
  for (const { room, files } of filled) {
    for (const { path, changes } of files) {
      yield paints.heading(visible(shown(room.folder, path)));
      yield* aligned(changes.length > mostRows ? rowsByColumn(changes, paints) : rowsOf(changes, paints), '  ');
      yield '';
    }
  }
  yield summary(filled, { isWritten, isAll });
  yield* zoneHint(filled.map(({ room }) => room));
}

/** A file with more changes is told column by column. */
const mostRows = 60;

function rowsOf(changes: readonly Change[], paints: Paints): Cell[][] {
  const hasIds = changes.some(({ id }) => id !== '');
  return changes.map((change) => [
    { text: `${change.line}:${change.column}` },
    ...(hasIds ? [{ text: visible(change.id, mostOfCell) }] : []),
    { text: change.header },
    beforeAndAfter(change, paints),
  ]);
}

function rowsByColumn(changes: readonly Change[], paints: Paints): Cell[][] {
  const byHeader = new Map<string, Change[]>();
  for (const change of changes) {
    const others = byHeader.get(change.header);
    if (others === undefined) byHeader.set(change.header, [change]);
    else others.push(change);
  }
  return [...byHeader].map(([header, all]) => {
    const cells = all.filter(({ kind }) => kind === 'cell');
    const first = cells.find(({ after }) => after !== '') ?? cells[0];
    const sample = first === undefined ? '' : textOf(say('cli.fill.sample', first.line, beforeAndAfter(first, paints).text));
    return [{ text: header }, { text: cells.length === all.length ? '' : textOf(say('cli.fill.column')) }, { text: countOf('cells', cells.length) }, { text: sample, paint: paints.quiet }];
  });
}

const mostOfCell = 60;

function beforeAndAfter({ kind, before, after }: Change, paints: Paints): Cell {
  if (kind === 'header') return { text: textOf(say('cli.fill.column')), paint: paints.quiet };
  const [from, to] = [before, after].map((text) => (text === '' ? textOf(say('cli.fill.empty')) : visible(text, mostOfCell)));
  return { text: textOf(say('cli.fill.change', from ?? '', to ?? '')) };
}

/** `isAll`: nothing was left alone. */
function summary(filled: readonly Filled[], { isWritten, isAll }: { readonly isWritten: boolean; readonly isAll: boolean }): string {
  const files = filled.flatMap((each) => each.files);
  const changes = files.flatMap((file) => file.changes);
  if (changes.length === 0) {
    if (!isAll) return textOf(say('cli.fill.rest'));
    const sheets = filled.flatMap(({ room }) => [...room.plan.records.files()]);
    const hasColumns = sheets.some(({ header }) => header.computed.length > 0);
    return textOf(hasColumns ? say('cli.fill.current', countOf('files', sheets.length)) : say('cli.fill.no-columns'));
  }
  const cells = changes.filter(({ kind }) => kind === 'cell').length;
  const columns = changes.length - cells;
  const what = [...(cells > 0 ? [countOf('cells', cells)] : []), ...(columns > 0 ? [countOf('columns', columns)] : [])].join(', ');
  return textOf(say(isWritten ? 'cli.fill.done' : 'cli.fill.would', what, countOf('files', files.length)));
}
