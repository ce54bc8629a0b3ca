import { say, translated } from '../../base/messages';
import type { Message } from '../../base/messages';
import type { Explanation } from '../../planner/explanation';
import { spanOf } from '../../planner/places';
import type { Plan } from '../../planner/plan';
import type { Row } from '../../records/row';
import type { SheetFile } from '../../records/sheetFile';
import { schemaNamed } from '../../schema/catalog';
import type { SheetName } from '../../schema/descriptor';
import type { Fact, Part, Piece } from '../hoverText';
import { keyPlace } from '../ids';

/** What is told of one thing below its title. */
export type Card = (id: string, plan: Plan) => readonly Part[];

/** A line of facts, without those that aren't known; nothing where none is. */
export function factLine(...facts: readonly (Fact | undefined)[]): readonly Part[] {
  const known = facts.filter((fact) => fact !== undefined);
  return known.length === 0 ? [] : [{ kind: 'facts', facts: known }];
}

/** A fact about what a column holds, under the column's name; undefined where nothing is known. */
export function factOf(sheet: SheetName, header: string, value: string | undefined): Fact | undefined {
  if (value === undefined || value === '') return undefined;
  const field = schemaNamed(sheet).fieldNamed.get(header);
  return { name: field === undefined ? header : translated(field.title), pieces: [{ text: withUnit(value, field?.unit) }] };
}

function withUnit(value: string, unit: string | undefined): string | Message {
  if (unit === undefined) return value;
  return unit === 'd' ? say(value === '1' ? 'hover.day' : 'hover.days', value) : `${value} ${unit}`;
}

/** What a row says in a column, as written. */
export function cellFact(plan: Plan, row: Row, header: string): Fact | undefined {
  const file = fileOf(plan, row);
  const column = file?.header.columnOf.get(header);
  return file === undefined || column === undefined ? undefined : factOf(file.schema.name, header, file.cellText(row, column));
}

/** What a computed column says of a row, whether the sheet has the column or not. */
export function computedFact(plan: Plan, row: Row, header: string): Fact | undefined {
  return factOf(row.block.file.schema.name, header, explained(plan, row, header)?.value);
}

export function explained(plan: Plan, row: Row, header: string): Explanation | undefined {
  const file = fileOf(plan, row);
  return file === undefined ? undefined : plan.explainCell(file.path, file.recordOf(row), header);
}

function fileOf(plan: Plan, row: Row): SheetFile | undefined {
  const file = plan.records.file(row.path);
  return file === undefined || file.blocked !== undefined ? undefined : file;
}

/** An id that leads to its row, where it has one. */
export function idPiece(plan: Plan, sheet: SheetName, id: string): Piece {
  return { text: id, to: keyPlace(plan, { sheet, id }) };
}

/** Names something of another sheet; undefined without an id. */
export function idFact(plan: Plan, { name, sheet, id }: { readonly name: string | Message; readonly sheet: SheetName; readonly id: string | undefined }): Fact | undefined {
  return id === undefined ? undefined : { name, pieces: [idPiece(plan, sheet, id)] };
}

/** Several runs of pieces with a comma between them. */
export function joined(runs: readonly (readonly Piece[])[]): readonly Piece[] {
  return runs.flatMap((run, i) => (i === 0 ? run : [{ text: ', ' }, ...run]));
}

/** Links to a thing's row and to its logs. */
export function linksTo(row: Row | undefined, plan: Plan, logs: readonly SheetFile[] = []): readonly Part[] {
  const file = row === undefined ? undefined : fileOf(plan, row);
  const own: readonly Piece[] = row === undefined || file === undefined ? [] : [{ text: file.path, to: { file: file.path, span: spanOf(file, row, undefined) } }];
  const links = [...own, ...logs.map(({ path }): Piece => ({ text: path, to: { file: path, span: { start: 0, end: 0 } } }))];
  return links.length === 0 ? [] : [{ kind: 'links', links }];
}

/** What is to be done next, when, and how much is overdue, from the thing's own columns. */
export function actionFacts(plan: Plan, row: Row): readonly Part[] {
  const action = computedFact(plan, row, 'next_action');
  if (action === undefined) return [];
  return factLine(action, computedFact(plan, row, 'next_due'), explained(plan, row, 'overdue')?.value === '0' ? undefined : computedFact(plan, row, 'overdue'));
}
