import type { Span } from '../base/span';
import type { Plan } from '../planner/plan';
import type { Place } from '../planner/problem';
import { mayRefer, referencesOf, refersTo } from '../records/references';
import type { Reference } from '../records/references';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { SheetName } from '../schema/descriptor';
import { cellAt, insideOf } from './cells';
import type { Cell } from './cells';

/** A thing by the register that it stands in and its id. */
export interface Named {
  readonly sheet: SheetName;
  readonly id: string;
}

/** A place where a thing is named: the id alone, without quotation marks and neighbours. */
export interface Naming extends Named, Place {
  /** `row` is the thing's own row of its register, `reference` a cell of another, `log` the whole of its own log file, named after it. */
  readonly kind: 'row' | 'reference' | 'log';
}

/** What is named at an offset; undefined where no id stands there. */
export function idAt(plan: Plan, path: string, offset: number): Naming | undefined {
  const cell = cellAt(plan, path, offset);
  return cell === undefined ? undefined : namingsIn(cell).find(({ span }) => span.start <= offset && offset <= span.end);
}

/** The ids in a cell, in order; those of a cell that can't be read as what its column holds are none. */
function namingsIn(cell: Cell): readonly Naming[] {
  const { file, row, column, field } = cell;
  if (row === undefined || field === undefined) return [];
  if (isKey(file, column)) return keyText(row) === '' ? [] : [{ sheet: file.schema.name, id: keyText(row), kind: 'row', file: file.path, span: keySpan(file, row) }];
  const named = referencesOf(file, row).filter((reference) => reference.column === column);
  return named.length === 0 ? [] : placed(file, row, named);
}

/** What one cell refers to, at its places: it may hold several ids, separated by blanks. */
function placed(file: SheetFile, row: Row, references: readonly Reference[]): readonly Naming[] {
  const { source, span } = insideOf(file, file.recordOf(row), (references[0] as Reference).column);
  const words = [...source.matchAll(/\S+/g)];
  return references.flatMap(({ sheet, id }, i): readonly Naming[] => {
    const word = words[i];
    if (word?.[0].normalize('NFC') !== id.normalize('NFC')) return [];
    const start = span.start + word.index;
    return [{ sheet, id, kind: 'reference', file: file.path, span: { start, end: start + word[0].length } }];
  });
}

function isKey({ schema, header }: SheetFile, column: number): boolean {
  return schema.role === 'register' && schema.key !== undefined && header.columnOf.get(schema.key) === column;
}

/** The row of a thing's register that holds for it; undefined where there is none, or the sheet can't be read. */
export function rowNamed(plan: Plan, { sheet, id }: Named): Row | undefined {
  const row = plan.records.index(sheet).row(id);
  return row === undefined || plan.records.file(row.path)?.blocked !== undefined ? undefined : row;
}

/** Where a thing's own row has its id; undefined where it has none. */
export function keyPlace(plan: Plan, named: Named): Place | undefined {
  const row = rowNamed(plan, named);
  const file = row === undefined ? undefined : plan.records.file(row.path);
  return row === undefined || file === undefined ? undefined : { file: file.path, span: keySpan(file, row) };
}

function keySpan(file: SheetFile, row: Row): Span {
  return insideOf(file, file.recordOf(row), file.header.columnOf.get(file.schema.key ?? '') ?? 0).span;
}

/** Everywhere that a thing is named, in files that can be read, file by file as they are held: its rows, cells that refer to it, and log files named after it. */
export function* namingsOf(plan: Plan, { sheet, id }: Named): Generator<Naming> {
  for (const file of plan.records.files()) yield* namingsInFile(file, { sheet, id });
}

/** The same in one file, row by row. */
export function* namingsInFile(file: SheetFile, { sheet, id }: Named): Generator<Naming> {
  if (file.blocked !== undefined) return;
  const { schema, thing } = file;
  if (thing === id && (sheet === 'clutches' ? schema.thing === 'clutch' : sheet === 'tanks' && schema.thing === 'tank')) yield { sheet, id, kind: 'log', file: file.path, span: { start: 0, end: 0 } };
  const isOwn = schema.role === 'register' && schema.name === sheet;
  if (!isOwn && !mayRefer(file)) return;
  for (const row of file.rows()) {
    if (isOwn && keyText(row) === id) yield { sheet, id, kind: 'row', file: file.path, span: keySpan(file, row) };
    if (!refersTo(file, row, { sheet, id })) continue;
    const references = referencesOf(file, row);
    for (const column of new Set(references.map((reference) => reference.column))) {
      const here = references.filter((reference) => reference.column === column);
      for (const naming of placed(file, row, here)) if (naming.sheet === sheet && naming.id === id) yield naming;
    }
  }
}
