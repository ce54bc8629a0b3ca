import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { applyEdits } from '../base/textEdit';
import type { CellChange, HandKept } from '../planner/cellChange';
import type { SheetFile } from '../records/sheetFile';
import { shown } from './rooms';
import type { Room } from './rooms';

/** A cell that isn't what it should be, or the header of a column that is added. */
export interface Change {
  readonly kind: 'cell' | 'header';
  /** In the text with the added columns, both from 1. */
  readonly line: number;
  readonly column: number;
  readonly header: string;
  readonly before: string;
  readonly after: string;
  /** The id of the row's thing; '' in a log. */
  readonly id: string;
}

/** A sheet with cells to change, as it was read and as it should be. */
export interface Filling {
  /** Relative to the fishroom. */
  readonly path: string;
  readonly before: string;
  readonly after: string;
  readonly changes: readonly Change[];
}

export interface Fillings {
  readonly files: readonly Filling[];
  /** About what is left alone: columns that were kept by hand, and cells that come from a sheet that can't be read. */
  readonly leftAlone: readonly Message[];
}

export interface FillOptions {
  readonly add: boolean;
  readonly overwrite: boolean;
}

/** What is to be written into a fishroom's sheets. With `add` the room's plan has the added columns afterwards. */
export function fillingsOf(room: Room, { add, overwrite }: FillOptions): Fillings {
  const { plan } = room;
  const files: Filling[] = [];
  const leftAlone: Message[] = [];
  const unread = new Set(plan.paths().flatMap((path) => plan.unreadSources(path)));
  for (const path of unread) leftAlone.push(say('cli.fill.unread', shown(room.folder, path)));
  const added = add ? addColumns(room) : new Map<string, Added>();
  for (const path of plan.paths()) {
    const file = plan.records.file(path);
    if (file === undefined) continue;
    const { changes, handKept } = plan.fills(path, { overwrite });
    leftAlone.push(...handKept.map((column) => tellLeftAlone(column, room)));
    const { text: before, headers } = added.get(path) ?? { text: undefined, headers: [] };
    if (changes.length === 0 && headers.length === 0) continue;
    const headed = file.doc.text();
    files.push({
      path,
      before: before ?? headed,
      after: applyEdits(headed, changes.flatMap(({ edits }) => edits)),
      changes: [...headers.map((header) => headerChange(header, file, room)), ...changes.map((change) => cellChange(change, file, room))],
    });
  }
  return { files, leftAlone };
}

interface Added {
  /** The text before. */
  readonly text: string;
  readonly headers: readonly string[];
}

function addColumns({ plan }: Room): ReadonlyMap<string, Added> {
  const files = plan.paths().flatMap((path) => {
    const file = plan.records.file(path);
    const edits = plan.missingColumns(path);
    return file === undefined || edits.length === 0 ? [] : [{ path, edits, text: file.doc.text(), had: file.header.columnOf }];
  });
  plan.apply(files);
  return new Map(
    files.map(({ path, text, had }) => {
      const has = plan.records.file(path)?.header.columnOf.keys() ?? [];
      return [path, { text, headers: [...has].filter((header) => !had.has(header)) }];
    }),
  );
}

function headerChange(header: string, { path, doc, header: { columnOf } }: SheetFile, { places }: Room): Change {
  const place = places.at(path, doc.span(0, columnOf.get(header) as number).start);
  return { kind: 'header', ...place, header, before: '', after: header, id: '' };
}

function cellChange({ file: path, span, header, before, after }: CellChange, file: SheetFile, { places }: Room): Change {
  const { key } = file.schema;
  const keyColumn = key === undefined ? undefined : file.header.columnOf.get(key);
  const id = keyColumn === undefined ? '' : file.doc.value(file.doc.at(span.start).row, keyColumn);
  return { kind: 'cell', ...places.at(path, span.start), header, before, after, id };
}

function tellLeftAlone({ file, header, rows }: HandKept, room: Room): Message {
  const where = shown(room.folder, file);
  return rows === 1 ? say('cli.fill.hand-kept.one', where, header) : say('cli.fill.hand-kept', where, header, rows);
}
