import type { Span } from '../../base/span';
import type { Plan } from '../../planner/plan';
import type { ClutchState } from '../../planner/states';
import { keyText } from '../../records/row';
import type { SheetName } from '../../schema/descriptor';
import { slotOf } from '../../schema/slots';
import type { Value } from '../../schema/value';
import { insideOf } from '../cells';
import type { Cell } from '../cells';

/** A cell, or one word of a cell that holds several, for which somebody wants to know what may stand there. */
export interface Asked {
  readonly plan: Plan;
  readonly cell: Cell;
  /** What a suggestion takes the place of. */
  readonly span: Span;
  /** What stands there before the cursor. */
  readonly typed: string;
  /** The other words of the cell. */
  readonly others: ReadonlySet<string>;
  readonly isQuoted: boolean;
}

/** Undefined where the cell goes over several lines, so that nothing can be put in its place. */
export function askedAt(plan: Plan, cell: Cell, offset: number): Asked | undefined {
  const isWritten = cell.record < cell.file.doc.rowCount;
  const { source, span } = isWritten ? insideOf(cell.file, cell.record, cell.column) : { source: '', span: cell.span };
  if (/[\r\n]/.test(source)) return undefined;
  const at = Math.min(Math.max(offset, span.start), span.end) - span.start;
  const isQuoted = span.start > cell.span.start;
  const kind = cell.record === 0 ? undefined : cell.field?.kind;
  if (kind !== 'ids' && kind !== 'codes') return { plan, cell, span, typed: source.slice(0, at), others: new Set(), isQuoted };
  const words = [...source.matchAll(/\S+/g)].map((match) => ({ word: match[0], start: match.index, end: match.index + match[0].length }));
  const here = words.find(({ start, end }) => start <= at && at <= end) ?? { word: '', start: at, end: at };
  const others = new Set(words.filter(({ start }) => start !== here.start).map(({ word }) => word));
  return { plan, cell, span: { start: span.start + here.start, end: span.start + here.end }, typed: here.word.slice(0, at - here.start), others, isQuoted };
}

/** What the row says of a field. */
export function valueIn({ cell: { file, row } }: Asked, name: string): Value {
  return row?.value(slotOf(file.schema, name));
}

/** The same of a field that holds an id, a word or text. */
export function textIn(asked: Asked, name: string): string | undefined {
  const value = valueIn(asked, name);
  return typeof value === 'string' ? value : undefined;
}

/** The id of the row's own thing, in a register. */
export function ownId({ cell: { file, row } }: Asked): string | undefined {
  return file.schema.role === 'register' && row !== undefined ? keyText(row) : undefined;
}

/** The clutch that the row is about, by its id. */
export function clutchIdIn(asked: Asked): string | undefined {
  const { schema, thing } = asked.cell.file;
  return schema.name === 'clutch-log' ? thing : textIn(asked, 'clutch');
}

/** The clutch that the row is about. */
export function clutchIn(asked: Asked): ClutchState | undefined {
  const id = clutchIdIn(asked);
  return id === undefined ? undefined : asked.plan.view.clutch(id);
}

/** The species that the row is about, by its own cell, its pair or its clutch. */
export function speciesIn(asked: Asked): string | undefined {
  const { records } = asked.plan;
  const pair = textIn(asked, 'pair');
  return textIn(asked, 'species') ?? (pair === undefined ? undefined : records.pair(pair)?.species) ?? clutchIn(asked)?.species;
}

/** The tanks in which what the row is about stands, its pair's or its brood's. */
export function tanksOf(asked: Asked): readonly string[] {
  const { file } = asked.cell;
  const state = file.schema.name === 'clutches' ? undefined : clutchIn(asked);
  if (state !== undefined) return [...state.study.heads.stands.keys()].filter((tank) => tank !== '');
  const pair = textIn(asked, 'pair');
  const tank = file.schema.name === 'clutches' && pair !== undefined ? asked.plan.records.pair(pair)?.tank : undefined;
  return tank === undefined ? [] : [tank];
}

/** Whether a sheet is the one that the asked cell's row belongs to. */
export function isOwnSheet({ cell }: Asked, sheet: SheetName): boolean {
  return cell.file.schema.role === 'register' && cell.file.schema.name === sheet;
}
