import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { TextEdit } from '../base/textEdit';
import { CsvDocument } from '../csv/document';
import { insertRow, setCell } from '../csv/edits';
import type { Records } from '../records/records';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { SheetSchema } from '../schema/descriptor';
import { slotOf } from '../schema/slots';
import type { FileEdit } from './problem';

/** Cells of a row by their headers; an empty or missing one stays blank. */
export type Cells = Readonly<Partial<Record<string, string>>>;

/** The sheet in which a thing's next row stands: one that is there, or a new one. */
export type LogPlace =
  | { readonly kind: 'there'; readonly file: SheetFile; /** The cell that names the thing, in a sheet that all share. */ readonly whose: Cells }
  | { readonly kind: 'new'; readonly path: string; readonly schema: SheetSchema; readonly headers: readonly string[]; readonly delimiter: string; readonly lineEnd: string };

/** A file that is to be made: its header and rows by their headers. */
interface NewFile {
  readonly place: LogPlace & { readonly kind: 'new' };
  readonly rows: Cells[];
}

/**
 * Rows and cells that are to be written together, as one edit for each file. They are written as each file writes: its delimiter, its line ends, the order of
 * its columns. What can't be written is refused with the reason, and leaves the draft as it was.
 */
export class Draft {
  readonly #records: Records;
  readonly #edits = new Map<string, TextEdit[]>();
  readonly #new = new Map<string, NewFile>();

  constructor(records: Records) {
    this.#records = records;
  }

  /** Puts a row at the end of a log. */
  log(place: LogPlace, cells: Cells): Message | undefined {
    if (place.kind === 'there') return this.row(place.file, { ...cells, ...place.whose });
    const file = this.#new.get(place.path);
    if (file === undefined) this.#new.set(place.path, { place, rows: [cells] });
    else file.rows.push(cells);
    return undefined;
  }

  /** Puts a row at the end of a sheet that is there. */
  row(file: SheetFile, cells: Cells): Message | undefined {
    const refused = refusal(file, cells);
    if (refused !== undefined) return refused;
    const values = file.header.columns.map(({ header }, column) => (file.header.columnOf.get(header) === column ? asThere(file, header, cells[header] ?? '') : ''));
    this.#add(file.path, insertRow(file.doc, file.doc.rowCount, values));
    return undefined;
  }

  /** Writes into empty cells of a row that is there; what a keeper wrote is not written over. */
  set(row: Row, cells: Cells): Message | undefined {
    const file = this.#records.file(row.path);
    if (file === undefined) return say('act.refused.gone', row.path);
    if (!row.wellFormed) return say('act.refused.row', file.path, file.recordOf(row) + 1);
    const refused = refusal(file, cells);
    if (refused !== undefined) return refused;
    for (const [header, text = ''] of Object.entries(cells)) {
      const before = file.cellText(row, file.header.columnOf.get(header) as number) ?? '';
      if (before !== '' && before !== text) return say('act.refused.filled', file.path, file.recordOf(row) + 1, header, before);
    }
    for (const [header, text = ''] of Object.entries(cells)) {
      this.#add(file.path, setCell(file.doc, file.recordOf(row), file.header.columnOf.get(header) as number, asThere(file, header, text)));
    }
    return undefined;
  }

  edits(): readonly FileEdit[] {
    const changed = [...this.#edits].map(([file, edits]): FileEdit => ({ file, edits: inOrder(edits) }));
    return [...changed, ...[...this.#new.values()].map(({ place, rows }): FileEdit => ({ file: place.path, create: newText(place, rows) }))];
  }

  #add(file: string, edits: readonly TextEdit[]): void {
    const there = this.#edits.get(file);
    if (there === undefined) this.#edits.set(file, [...edits]);
    else there.push(...edits);
  }
}

function refusal(file: SheetFile, cells: Cells): Message | undefined {
  if (file.blocked !== undefined) return say('act.refused.unreadable', file.path);
  const lacking = Object.entries(cells).find(([header, text]) => text !== '' && text !== undefined && !file.header.columnOf.has(header))?.[0];
  return lacking === undefined ? undefined : say('act.refused.column', file.path, lacking);
}

/** Sorted by their places; rows for the same place become one insertion, in the order in which they were put there. */
function inOrder(edits: readonly TextEdit[]): readonly TextEdit[] {
  const all: TextEdit[] = [];
  for (const edit of [...edits].sort((a, b) => a.start - b.start || a.end - b.end)) {
    const before = all.at(-1);
    if (before?.end === edit.start && before.start === before.end && edit.start === edit.end) all[all.length - 1] = { ...before, text: before.text + edit.text };
    else all.push(edit);
  }
  return all;
}

function newText({ headers, schema, delimiter, lineEnd }: NewFile['place'], rows: readonly Cells[]): string {
  const named = withColumnsFor(rows, headers, schema);
  const head = CsvDocument.parse(`${named.join(delimiter)}${lineEnd}`);
  const lines = rows.flatMap((cells) => insertRow(head, 1, named.map((header) => cells[header] ?? '')));
  return head.text() + lines.map(({ text }) => text).join('');
}

/** The headers, and those that the rows need beside them: each behind the column that stands before it in the format. */
function withColumnsFor(rows: readonly Cells[], headers: readonly string[], schema: SheetSchema): readonly string[] {
  const all = [...headers];
  const needed = new Set(rows.flatMap((cells) => Object.keys(cells).filter((header) => (cells[header] ?? '') !== '' && !headers.includes(header))));
  for (const { name } of schema.fields) {
    if (!needed.has(name)) continue;
    const before = all.findLastIndex((header) => slotOf(schema, header) >= 0 && slotOf(schema, header) < slotOf(schema, name));
    all.splice(before + 1, 0, name);
  }
  return all;
}

/** A moment as the last row of the file writes it: with a blank between day and time instead of `T`. */
function asThere(file: SheetFile, header: string, text: string): string {
  const column = file.header.columnOf.get(header) as number;
  if (file.header.columns[column]?.field?.kind !== 'moment' || !/^~?\d{4}-\d\d-\d\dT/.test(text)) return text;
  for (let i = file.blocks.length - 1; i >= 0; i--) {
    const row = file.blocks[i]?.rows.findLast((some) => /\d[T ]\d/.test(file.cellText(some, column) ?? ''));
    if (row !== undefined) return /\d \d/.test(file.cellText(row, column) ?? '') ? text.replace('T', ' ') : text;
  }
  return text;
}
