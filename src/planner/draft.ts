import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { TextEdit } from '../base/textEdit';
import { CsvDocument } from '../csv/document';
import { insertColumn, insertRow, setCell } from '../csv/edits';
import type { Records } from '../records/records';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { Field, SheetSchema } from '../schema/descriptor';
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

/** What a file that is there gets. */
interface ChangedFile {
  readonly file: SheetFile;
  readonly rows: Cells[];
  /** By the number of the record. */
  readonly cells: Map<number, Cells>;
}

/**
 * Rows and cells that are to be written together, as one edit for each file. They are written as each file writes: its delimiter, its line ends, the order of
 * its columns. A column of the format that a file lacks is put into it, where the format has it, if something is to stand there. What can't be written is
 * refused with the reason, and leaves the draft as it was.
 */
export class Draft {
  readonly #records: Records;
  readonly #there = new Map<string, ChangedFile>();
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
    this.#changeOf(file).rows.push(cells);
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
      const column = file.header.columnOf.get(header);
      const before = column === undefined ? '' : (file.cellText(row, column) ?? '');
      if (before !== '' && before !== text) return say('act.refused.filled', file.path, file.recordOf(row) + 1, header, before);
    }
    const change = this.#changeOf(file).cells;
    change.set(file.recordOf(row), { ...change.get(file.recordOf(row)), ...cells });
    return undefined;
  }

  edits(): readonly FileEdit[] {
    const changed = [...this.#there.values()].map((change): FileEdit => ({ file: change.file.path, edits: inOrder(editsOf(change)) }));
    return [...changed, ...[...this.#new.values()].map(({ place, rows }): FileEdit => ({ file: place.path, create: newText(place, rows) }))];
  }

  /** Columns that files get which didn't have them. */
  newColumns(): readonly string[] {
    return [...new Set([...this.#there.values()].flatMap((change) => layoutOf(change).flatMap(({ header, column }) => (column === undefined ? [header] : []))))];
  }

  #changeOf(file: SheetFile): ChangedFile {
    let change = this.#there.get(file.path);
    if (change === undefined) this.#there.set(file.path, (change = { file, rows: [], cells: new Map() }));
    return change;
  }
}

function refusal(file: SheetFile, cells: Cells): Message | undefined {
  if (file.blocked !== undefined) return say('act.refused.unreadable', file.path);
  const lacking = Object.entries(cells).find(([header, text]) => text !== '' && text !== undefined && !file.header.columnOf.has(header) && !mayBeAdded(header, file))?.[0];
  return lacking === undefined ? undefined : say('act.refused.column', file.path, lacking);
}

/** A column without which no row can be read isn't put in: what stood in it, only the keeper knows. Nor is one that is there in another unit. */
function mayBeAdded(header: string, { schema, header: { columns } }: SheetFile): boolean {
  const field = schema.fieldNamed.get(header);
  return field !== undefined && !field.computed && field.constraints.required !== true && !columns.some((column) => column.field !== undefined && measureOf(column.field) === measureOf(field));
}

function measureOf({ name, unitOf }: Field): string {
  return unitOf?.field ?? name;
}

/** A column as it will stand. */
interface Placed {
  readonly header: string;
  /** Where it stands now; undefined for one that is to be put in. */
  readonly column: number | undefined;
}

function layoutOf({ file: { header, schema }, rows, cells }: ChangedFile): readonly Placed[] {
  const there = header.columns.map((column) => column.header);
  let column = 0;
  return withColumnsFor([...cells.values(), ...rows], there, schema).map((name) => (name === there[column] ? { header: name, column: column++ } : { header: name, column: undefined }));
}

/** The edits in the order in which those of one place follow each other: a column behind the last comes after what is set in the last, rows come after both. */
function editsOf(change: ChangedFile): readonly TextEdit[] {
  const { file, rows, cells } = change;
  const { doc, header: { columnOf } } = file;
  const layout = layoutOf(change);
  const edits: TextEdit[] = [];
  const behind: TextEdit[] = [];
  let next = 0;
  for (const { header, column } of layout) {
    if (column !== undefined) next = column + 1;
    else (next < doc.cellCount(0) ? edits : behind).push(...insertColumn(doc, next, (record) => (record === 0 ? header : (cells.get(record)?.[header] ?? ''))));
  }
  for (const [record, values] of cells) {
    for (const [header, text = ''] of Object.entries(values)) {
      const column = columnOf.get(header);
      if (column !== undefined) edits.push(...setCell(doc, record, column, asThere(file, header, text)));
    }
  }
  edits.push(...behind);
  for (const row of rows) {
    const values = layout.map(({ header, column }) => (column === undefined ? (row[header] ?? '') : columnOf.get(header) === column ? asThere(file, header, row[header] ?? '') : ''));
    edits.push(...insertRow(doc, doc.rowCount, values));
  }
  return edits;
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
