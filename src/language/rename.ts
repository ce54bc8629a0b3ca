import { say } from '../base/messages';
import type { Message } from '../base/messages';
import type { TextEdit } from '../base/textEdit';
import type { Plan } from '../planner/plan';
import type { FileEdit } from '../planner/problem';
import { keyText } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { schemaForPath } from '../schema/catalog';
import type { SheetName, SheetSchema } from '../schema/descriptor';
import { castId } from '../schema/id';
import { CastFailure } from '../schema/value';
import { idAt, keyPlace, namingsInFile } from './ids';
import type { Named, Naming } from './ids';

/** Why something isn't renamed, for the keeper. */
export interface Refused {
  readonly kind: 'refused';
  readonly reason: Message;
}

/** A file of the fishroom that gets another name, in the folder in which it is. */
export interface FileMove {
  readonly file: string;
  readonly to: string;
}

/** All that renaming a thing changes, to be done as one: first the texts of files under the names that they have, then the names. */
export interface Renaming {
  readonly kind: 'renaming';
  readonly edits: readonly FileEdit[];
  readonly moves: readonly FileMove[];
}

/** What would be renamed at an offset: the id alone, at its exact place. */
export function renameableAt(plan: Plan, path: string, offset: number): Naming | Refused {
  const naming = idAt(plan, path, offset);
  if (naming === undefined) return refused(say('rename.nothing'));
  return isBuiltInAlone(plan, naming) ? refused(say('rename.built-in', naming.id)) : naming;
}

/**
 * Gives a thing another id: in its row, everywhere it is named, and in the names of its log files. Refused where that could not be taken back by renaming
 * again, or where a file may name it that can't be read.
 * @param unread paths of files that are there, but that nobody could read
 */
export function renaming(plan: Plan, named: Named, { to, unread = [] }: { readonly to: string; readonly unread?: readonly string[] }): Renaming | Refused {
  if (to === named.id) return { kind: 'renaming', edits: [], moves: [] };
  const reason = reasonAgainst(plan, named, { to, unread });
  if (reason !== undefined) return refused(reason);
  const edits: FileEdit[] = [];
  const moves: FileMove[] = [];
  for (const file of plan.records.files()) {
    if (isLogOf(file, named)) moves.push({ file: file.path, to: `${file.path.slice(0, file.path.lastIndexOf('/') + 1)}${to}.csv` });
    const changes = editsIn(file, named, to);
    if (changes.length > 0) edits.push({ file: file.path, edits: changes });
  }
  return { kind: 'renaming', edits, moves };
}

function editsIn(file: SheetFile, named: Named, to: string): readonly TextEdit[] {
  const edits: TextEdit[] = [];
  for (const { kind, span } of namingsInFile(file, named)) if (kind !== 'log') edits.push({ ...span, text: to });
  return edits.sort((a, b) => a.start - b.start);
}

function reasonAgainst(plan: Plan, named: Named, { to, unread }: { readonly to: string; readonly unread: readonly string[] }): Message | undefined {
  if (isBuiltInAlone(plan, named)) return say('rename.built-in', named.id);
  const cast = to === '' ? new CastFailure('value-pattern', say('value-pattern.id', to)) : castId(to);
  if (cast instanceof CastFailure) return cast.message;
  for (const path of unread) if (mayName(schemaForPath(path)?.schema, named.sheet)) return say('rename.unreadable', path, named.id);
  for (const file of plan.records.files()) {
    if (file.blocked !== undefined && mayName(file.schema, named.sheet)) return say('rename.unreadable', file.path, named.id);
  }
  for (const file of plan.records.files()) {
    const reason = reasonIn(file, named, to);
    if (reason !== undefined) return reason;
  }
  return undefined;
}

/** What stands against the new id in one file. */
function reasonIn(file: SheetFile, { sheet, id }: Named, to: string): Message | undefined {
  const folded = to.toLowerCase();
  if (file.schema.name === sheet) {
    for (const row of file.rows()) {
      const other = keyText(row);
      // Most ids are told from the new one by their length.
      if (other === id || other.length !== to.length || other.toLowerCase() !== folded) continue;
      return other === to ? say('rename.taken', to, file.path) : say('rename.taken.case', to, other, file.path);
    }
  }
  const { thing } = file;
  if (thing !== undefined && thing !== id && thing.toLowerCase() === folded && isLogOf(file, { sheet, id: thing })) return say('rename.log-there', file.path, to);
  for (const { span } of namingsInFile(file, { sheet, id: to })) return say('rename.named', to, file.path, lineOf(file, span.start));
  return undefined;
}

function lineOf({ doc }: SheetFile, offset: number): number {
  return (doc.text().slice(0, offset).match(/\r\n|\r|\n/g)?.length ?? 0) + 1;
}

function isLogOf({ schema, thing }: SheetFile, { sheet, id }: Named): boolean {
  return thing === id && ((sheet === 'clutches' && schema.thing === 'clutch') || (sheet === 'tanks' && schema.thing === 'tank'));
}

function isBuiltInAlone(plan: Plan, named: Named): boolean {
  return plan.records.targets.isBuiltIn(named.sheet, named.id) && keyPlace(plan, named) === undefined;
}

/** Whether any cell of a sheet may hold an id of another, or its own. */
function mayName(schema: SheetSchema | undefined, sheet: SheetName): boolean {
  if (schema === undefined) return false;
  return schema.name === sheet || schema.fields.some(({ references, referencesBy }) => references === sheet || Object.values(referencesBy?.sheets ?? {}).includes(sheet));
}

function refused(reason: Message): Refused {
  return { kind: 'refused', reason };
}
