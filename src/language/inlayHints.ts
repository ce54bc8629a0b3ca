import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { hasCome } from '../base/moment';
import type { Span } from '../base/span';
import type { RecordRange } from '../planner/absentCells';
import type { Agenda } from '../planner/agenda';
import type { Plan } from '../planner/plan';
import { profileCell } from '../records/profiles';
import { referencesOf } from '../records/references';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import { pairOf, tankOf, valueOf } from '../records/things';
import type { SheetName } from '../schema/descriptor';
import { insideOf } from './cells';

/** What is shown within a text that doesn't stand in it. */
export interface InlayHint {
  /** Behind which it is shown. */
  readonly offset: number;
  /** In the order in which they are read. */
  readonly parts: readonly (string | Message)[];
  /** Computed cells without a column, by header, that it tells; undefined for the name of what an id stands for. */
  readonly cells: ReadonlyMap<string, string> | undefined;
}

/**
 * `some`: of what is open, the few values that are asked for most, short enough for what an editor shows in a line; where fish
 * went, in logs. `all`: of every row all that it has no column for, and what each id stands for.
 */
export type HintLevel = 'some' | 'all';

/** Of each sheet, what `some` may tell. */
const few: Readonly<Partial<Record<SheetName, ReadonlySet<string>>>> = {
  clutches: new Set(['stage', 'stage_basis', 'age_days', 'next_action']),
  pairs: new Set(['next_spawn_expected']),
  tanks: new Set(['next_action']),
};

/** The hints in a part of a file, in the order of the text: values at the ends of rows, names behind ids. */
export function inlayHintsIn(plan: Plan, path: string, { span, level }: { readonly span: Span; readonly level: HintLevel }): readonly InlayHint[] {
  const file = plan.records.file(path);
  if (file === undefined || file.blocked !== undefined || file.doc.rowCount < 2) return [];
  const at = (offset: number): number => file.doc.at(Math.min(Math.max(offset, 0), file.doc.length)).row;
  const records = { first: Math.max(1, at(span.start)), last: Math.min(at(span.end), file.doc.rowCount - 1) };
  const hints = [...(level === 'all' ? allValues(plan, file, records) : fewValues(plan, file, records)), ...nameHints(plan, file, { records, level })];
  return hints.sort((a, b) => a.offset - b.offset);
}

function allValues(plan: Plan, file: SheetFile, records: RecordRange): readonly InlayHint[] {
  return plan.absentCells(file.path, records).map(({ record, cells }) => ({ offset: file.doc.rowSpan(record).end, parts: inOrder(cells).map(([header, value]) => partOf(header, value)), cells }));
}

function fewValues(plan: Plan, file: SheetFile, records: RecordRange): readonly InlayHint[] {
  const sheet = file.schema.name;
  const wanted = few[sheet];
  if (wanted === undefined) return [];
  return plan.absentCells(file.path, records, wanted).flatMap(({ row, record, cells }): readonly InlayHint[] => {
    if (isOver(plan, sheet, row)) return [];
    const shown = new Map(cells);
    // That a stage is only expected goes without saying, and what is to be done later can wait.
    if (shown.get('stage_basis') !== 'unanswered') shown.delete('stage_basis');
    const next = shown.has('next_action') ? agendaOf(plan, sheet, row)?.next : undefined;
    if (next?.state === 'upcoming' && next.due.day > plan.now.day + 1) shown.delete('next_action');
    const parts = inOrder(shown).map(([header, value]) => (header !== 'next_action' ? partOf(header, value) : next?.state === 'overdue' ? say('hint.overdue', briefly(value)) : briefly(value)));
    return parts.length === 0 ? [] : [{ offset: file.doc.rowSpan(record).end, parts, cells: shown }];
  });
}

/** Whether a row's thing has ended, or is retired. */
function isOver({ view }: Plan, sheet: SheetName, row: Row): boolean {
  if (sheet === 'clutches') return view.clutch(keyText(row))?.timeline.ended !== undefined;
  const retired = sheet === 'pairs' ? pairOf(row).retired : sheet === 'tanks' ? tankOf(row).retired : undefined;
  return hasCome(retired, view.now);
}

function agendaOf({ view }: Plan, sheet: SheetName, row: Row): Agenda | undefined {
  return sheet === 'tanks' ? view.tankAgenda(keyText(row)) : view.clutch(keyText(row))?.agenda;
}

/** What is asked for most stands first: an editor cuts off what is too long for a line. */
const order = ['stage', 'stage_basis', 'age_days', 'alive', 'fish', 'next_action', 'next_due'];

function inOrder(cells: ReadonlyMap<string, string>): readonly (readonly [header: string, value: string])[] {
  const rank = (header: string): number => (order.includes(header) ? order.indexOf(header) : order.length);
  return [...cells].sort(([a], [b]) => rank(a) - rank(b));
}

/** What to do without the details, since an editor cuts off what is longer than 43 characters (VS Code, `editor.inlayHints.maximumLength`); all of it is told to who points there. */
function briefly(action: string): string {
  const question = /^([^,]+),.*\?$/.exec(action)?.[1];
  return question === undefined ? (/^[^:;(]*[^:;(\s]/.exec(action)?.[0] ?? action) : `${question}?`;
}

function partOf(header: string, value: string): string | Message {
  switch (header) {
    case 'stage':
    case 'stage_basis':
    case 'next_action':
      return value;
    case 'age_days':
      return say('hint.age', value);
    case 'next_spawn_expected':
      return say('hint.next-spawn', value);
    default:
      return say('hint.value', header, value.replace(/(?<=^~?\d{4}-\d\d-\d\d)T/, ' '));
  }
}

/** Names of what ids stand for, where the id doesn't say it. */
function nameHints(plan: Plan, file: SheetFile, { records, level }: { readonly records: RecordRange; readonly level: HintLevel }): readonly InlayHint[] {
  const hints: InlayHint[] = [];
  const names = new Map<string, readonly string[]>();
  for (let record = records.first; record <= records.last; record++) {
    const row = file.rowAt(record);
    if (row?.wellFormed !== true) continue;
    for (const { sheet, id, column } of referencesOf(file, row)) {
      const field = file.header.columns[column]?.field;
      if (field?.kind === 'ids' || (level === 'some' && (file.schema.role !== 'log' || (field?.name !== 'to_tank' && field?.name !== 'ref')))) continue;
      const key = `${sheet} ${id}`;
      let parts = names.get(key);
      if (parts === undefined) names.set(key, (parts = nameOf(plan, sheet, id)));
      if (parts.length > 0) hints.push({ offset: insideOf(file, record, column).span.end, parts, cells: undefined });
    }
  }
  return hints;
}

function nameOf({ records }: Plan, sheet: SheetName, id: string): readonly string[] {
  const all = (...texts: readonly (string | undefined)[]): readonly string[] => texts.filter((text) => text !== undefined && text !== '') as readonly string[];
  switch (sheet) {
    case 'species': {
      const name = profileCell(id, 'common_name', (species) => records.index('species').row(species))?.value as string | undefined;
      return name === undefined || saysTheSame(id, name) ? [] : [name];
    }
    case 'rooms': {
      const row = records.index('rooms').row(id);
      return row === undefined ? [] : all(valueOf(row, 'rooms', 'name') as string | undefined);
    }
    case 'tanks': {
      const tank = records.tank(id);
      return all([tank?.room, tank?.position].filter((part) => part !== undefined).join(' '));
    }
    case 'pairs':
      return all(records.pair(id)?.species);
    case 'clutches': {
      const clutch = records.clutch(id);
      return clutch === undefined ? [] : all(records.speciesOf(clutch));
    }
    case 'orders': {
      const row = records.index('orders').row(id);
      return row === undefined ? [] : all(valueOf(row, 'orders', 'buyer') as string | undefined);
    }
    default:
      return [];
  }
}

/** Whether all words of an id stand in the name too: who reads one knows the other. */
function saysTheSame(id: string, name: string): boolean {
  const words = new Set(name.toLowerCase().split(/[^\p{L}\p{Nd}]+/u));
  return id.toLowerCase().split(/[._-]+/).every((word) => words.has(word));
}
