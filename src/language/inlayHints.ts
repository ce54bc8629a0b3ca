import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { hasCome } from '../base/moment';
import type { Span } from '../base/span';
import type { AbsentCells } from '../planner/absentCells';
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

/** `some`: of what is open, the few values that are asked for most; `all`: of every row all that it has no column for, and what each id stands for. */
export type HintLevel = 'some' | 'all';

/** Of each sheet, what `some` tells. */
const few: Readonly<Partial<Record<SheetName, ReadonlySet<string>>>> = {
  clutches: new Set(['stage', 'stage_basis', 'age_days', 'next_action', 'next_due', 'overdue']),
  pairs: new Set(['next_spawn_expected']),
  tanks: new Set(['next_action', 'next_due']),
};

/** The hints in a part of a file, in the order of the text: values at the ends of rows, names behind ids. */
export function inlayHintsIn(plan: Plan, path: string, { span, level }: { readonly span: Span; readonly level: HintLevel }): readonly InlayHint[] {
  const file = plan.records.file(path);
  if (file === undefined || file.blocked !== undefined || file.doc.rowCount < 2) return [];
  const at = (offset: number): number => file.doc.at(Math.min(Math.max(offset, 0), file.doc.length)).row;
  const records = { first: Math.max(1, at(span.start)), last: Math.min(at(span.end), file.doc.rowCount - 1) };
  const hints = [...valueHints(plan, file, { records, level }), ...nameHints(plan, file, { records, level })];
  return hints.sort((a, b) => a.offset - b.offset);
}

interface Shown {
  readonly records: { readonly first: number; readonly last: number };
  readonly level: HintLevel;
}

function valueHints(plan: Plan, file: SheetFile, { records, level }: Shown): readonly InlayHint[] {
  const wanted = level === 'all' ? undefined : few[file.schema.name];
  if (level === 'some' && wanted === undefined) return [];
  return plan.absentCells(file.path, records, wanted).flatMap((absent): readonly InlayHint[] => {
    if (level === 'some' && isOver(plan, file.schema.name, absent.row)) return [];
    const { parts, cells } = level === 'some' ? fewTold(absent) : { parts: told(absent.cells), cells: absent.cells };
    return parts.length === 0 ? [] : [{ offset: file.doc.rowSpan(absent.record).end, parts, cells }];
  });
}

/** Whether a row's thing has ended, or is retired. */
function isOver({ view }: Plan, sheet: SheetName, row: Row): boolean {
  if (sheet === 'clutches') return view.clutch(keyText(row))?.timeline.ended !== undefined;
  const retired = sheet === 'pairs' ? pairOf(row).retired : sheet === 'tanks' ? tankOf(row).retired : undefined;
  return hasCome(retired, view.now);
}

/** That somebody should look stands before all else; that a stage is only expected goes without saying. */
function fewTold({ cells }: AbsentCells): Pick<InlayHint, 'parts' | 'cells'> {
  const shown = new Map(cells);
  if (shown.get('stage_basis') !== 'unanswered') shown.delete('stage_basis');
  if (shown.get('overdue') === '0') shown.delete('overdue');
  return { parts: told(shown), cells: shown };
}

const order = ['overdue', 'stage', 'stage_basis', 'age_days'];

function told(cells: ReadonlyMap<string, string>): readonly (string | Message)[] {
  const rank = (header: string): number => (order.includes(header) ? order.indexOf(header) : order.length);
  return [...cells.keys()].sort((a, b) => rank(a) - rank(b)).flatMap((header) => partOf(header, cells) ?? []);
}

function partOf(header: string, cells: ReadonlyMap<string, string>): string | Message | undefined {
  const value = cells.get(header) as string;
  switch (header) {
    case 'stage':
    case 'stage_basis':
      return value;
    case 'age_days':
      return value === '1' ? say('hint.age.one') : say('hint.age', value);
    case 'overdue':
      return say('hint.overdue', value);
    case 'next_action': {
      const due = cells.get('next_due');
      return due === undefined ? value : say('hint.next', value, due.replace('T', ' '));
    }
    case 'next_due':
      return cells.has('next_action') ? undefined : say('hint.due', value.replace('T', ' '));
    case 'next_spawn_expected':
      return say('hint.next-spawn', value);
    default:
      return say('hint.value', header, value.replace('T', ' '));
  }
}

/** Names of what ids stand for, where the id doesn't say it. */
function nameHints(plan: Plan, file: SheetFile, { records, level }: Shown): readonly InlayHint[] {
  const hints: InlayHint[] = [];
  const names = new Map<string, readonly string[]>();
  for (let record = records.first; record <= records.last; record++) {
    const row = file.rowAt(record);
    if (row?.wellFormed !== true) continue;
    for (const { sheet, id, column } of referencesOf(file, row)) {
      if ((level === 'some' && sheet !== 'species') || file.header.columns[column]?.field?.kind === 'ids') continue;
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
    default:
      return [];
  }
}

/** Whether all words of an id stand in the name too: who reads one knows the other. */
function saysTheSame(id: string, name: string): boolean {
  const words = new Set(name.toLowerCase().split(/[^\p{L}\p{Nd}]+/u));
  return id.toLowerCase().split(/[._-]+/).every((word) => words.has(word));
}
