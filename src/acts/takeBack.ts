import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { applyEdits } from '../base/textEdit';
import type { TextEdit } from '../base/textEdit';
import { difference } from '../csv/difference';
import { CsvDocument } from '../csv/document';
import { deleteRow } from '../csv/edits';
import type { FileEdit } from '../planner/problem';
import { schemaForPath } from '../schema/catalog';

/** A file that an act has changed: its text before, undefined where it was made, and after. */
export interface ActedFile {
  readonly file: string;
  readonly before: string | undefined;
  readonly after: string;
}

/** What takes an act back: edits, and files to delete; or why it is left as it is. */
export type TakeBack =
  | { readonly kind: 'edits'; readonly edits: readonly FileEdit[]; readonly remove: readonly string[] }
  | { readonly kind: 'refused'; readonly why: Message };

/** What an act does to the files, for taking it back later. `textOf` gives a file's text before it. */
export function actedFiles(edits: readonly FileEdit[], textOf: (path: string) => string): readonly ActedFile[] {
  return edits.map((edit) => {
    if ('create' in edit) return { file: edit.file, before: undefined, after: edit.create };
    const before = textOf(edit.file);
    return { file: edit.file, before, after: applyEdits(before, edit.edits) };
  });
}

/**
 * The inverse of an act, all of it or nothing. A row counts as still as it was written when the keeper's cells are: computed ones may have been filled since,
 * and it may stand elsewhere by now. `textOf` gives the text as it is now, undefined for a file that isn't there.
 */
export function takeBack(acted: readonly ActedFile[], textOf: (path: string) => string | undefined): TakeBack {
  const edits: FileEdit[] = [];
  const remove: string[] = [];
  for (const { file, before, after } of acted) {
    const now = textOf(file);
    if (now === undefined) return { kind: 'refused', why: say('act.take-back.gone', file) };
    if (now === after) {
      if (before === undefined) remove.push(file);
      else edits.push({ file, edits: changes(after, before) });
      continue;
    }
    const inverse = inverseEdits({ file, before: before ?? headerOf(after), after }, now);
    if (inverse === undefined) return { kind: 'refused', why: say('act.take-back.refused', file) };
    edits.push({ file, edits: inverse });
  }
  return { kind: 'edits', edits, remove };
}

function changes(from: string, to: string): readonly TextEdit[] {
  return from === to ? [] : [difference(0, from, to)];
}

/** A new file that has changed since loses its rows and keeps its header. */
function headerOf(text: string): string {
  const doc = CsvDocument.parse(text);
  return text.slice(0, doc.rowSpan(0).end) + doc.lineEnd(0);
}

/** An act puts rows at the end of a file and fills cells of others; undefined where one of them isn't found as it was written. */
function inverseEdits({ file, before, after }: { readonly file: string; readonly before: string; readonly after: string }, now: string): readonly TextEdit[] | undefined {
  const [was, acted] = [before, after].map((text) => CsvDocument.parse(text)) as [CsvDocument, CsvDocument];
  let doc = CsvDocument.parse(now);
  const columns = keeperColumns(file, acted);
  const rows = { acted: rowTexts(acted, columns), now: rowTexts(doc, keeperColumns(file, doc)) };
  if (rows.acted[0] !== rows.now[0]) return undefined;
  const written: { readonly record: number; readonly found: number }[] = [];
  for (let record = 1; record < acted.rowCount; record++) {
    if (record < was.rowCount && recordText(acted, record) === recordText(was, record)) continue;
    const found = sameRow(rows, record);
    if (found === undefined) return undefined;
    written.push({ record, found });
  }
  const columnsNow = keeperColumns(file, doc);
  // From the end, so that the rows before stay where they are.
  for (const { record, found } of written.sort((a, b) => b.found - a.found)) {
    doc = doc.edit(record >= was.rowCount ? deleteRow(doc, found) : cellsBefore(doc, { found, columnsNow }, { was, acted, record, columns }));
  }
  return changes(now, doc.text());
}

interface Rewritten {
  readonly was: CsvDocument;
  readonly acted: CsvDocument;
  readonly record: number;
  readonly columns: readonly number[];
}

/** Puts the cells that an act wrote back as they were. */
function cellsBefore(doc: CsvDocument, { found, columnsNow }: { readonly found: number; readonly columnsNow: readonly number[] }, { was, acted, record, columns }: Rewritten): readonly TextEdit[] {
  return columns
    .flatMap((column, i): readonly TextEdit[] => {
      const source = was.source(record, column);
      return source === acted.source(record, column) ? [] : [{ ...doc.span(found, columnsNow[i] as number), text: source }];
    })
    .sort((a, b) => a.start - b.start);
}

/** Where the row that an act wrote stands now: there must be as many like it as there were after the act. */
function sameRow({ acted, now }: { readonly acted: readonly string[]; readonly now: readonly string[] }, record: number): number | undefined {
  const placesIn = (rows: readonly string[]): readonly number[] => rows.flatMap((text, place) => (place > 0 && text === acted[record] ? [place] : []));
  const [then, here] = [placesIn(acted), placesIn(now)];
  return then.length === here.length ? here[then.indexOf(record)] : undefined;
}

/** Columns that the tool doesn't fill. */
function keeperColumns(file: string, doc: CsvDocument): readonly number[] {
  const schema = schemaForPath(file)?.schema;
  return Array.from({ length: doc.cellCount(0) }, (_, column) => column).filter((column) => schema?.fieldNamed.get(doc.value(0, column))?.computed !== true);
}

/** The keeper's cells of each record as they are written. A record of another length is told by its whole text. */
function rowTexts(doc: CsvDocument, columns: readonly number[]): readonly string[] {
  const headers = doc.rowCount === 0 ? 0 : doc.cellCount(0);
  return Array.from({ length: doc.rowCount }, (_, record) => (doc.cellCount(record) === headers ? JSON.stringify(columns.map((column) => (record === 0 ? doc.value(0, column) : doc.source(record, column)))) : recordText(doc, record)));
}

function recordText(doc: CsvDocument, record: number): string {
  const { start, end } = doc.rowSpan(record);
  return doc.text().slice(start, end);
}
