import type { Span } from '../base/span';
import { stageAt } from '../domain/timeline';
import type { Plan } from '../planner/plan';
import type { Row } from '../records/row';
import { keyText } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { SheetName } from '../schema/descriptor';
import { clutchSpecies } from './clutchSpecies';

/** A row of a sheet as its outline shows it: its thing, or of a log its time and event. */
export interface OutlineRow {
  /** One line, never empty. */
  readonly name: string;
  /** What helps to tell it from the others, '' where nothing does. */
  readonly detail: string;
  readonly span: Span;
}

export interface Outline {
  /** Where the header stands. */
  readonly header: Span;
  readonly role: 'register' | 'log';
  /** In the order of the text: all of them, or the last ones. */
  readonly rows: readonly OutlineRow[];
  /** How many rows the sheet has. */
  readonly total: number;
  /** How many above those of `rows` are left out. */
  readonly left: number;
}

/** New rows are written below the others, so of a long sheet the last ones are those that are asked for. */
const MOST = 5_000;
const BETWEEN = ' · ';

/** The rows of a sheet with what they are about, no more than the last 5,000; undefined where the file isn't there or can't be read. */
export function outlineOf(plan: Plan, path: string): Outline | undefined {
  const file = plan.records.file(path);
  if (file === undefined || file.blocked !== undefined || file.doc.rowCount === 0) return undefined;
  const rows = lastRows(file).flatMap((row) => outlineRow(plan, file, row) ?? []);
  return { header: file.doc.rowSpan(0), role: file.schema.role, rows, total: file.rowCount, left: Math.max(0, file.rowCount - MOST) };
}

function lastRows(file: SheetFile): readonly Row[] {
  let left = MOST;
  let first = file.blocks.length;
  while (first > 0 && left > 0) left -= (file.blocks[--first] as SheetFile['blocks'][number]).rows.length;
  return file.blocks.slice(first).flatMap(({ rows }) => rows).slice(-MOST);
}

function outlineRow(plan: Plan, file: SheetFile, row: Row): OutlineRow | undefined {
  const { name: sheet, key, role } = file.schema;
  const names = role === 'log' ? ['time', 'event'] : key === undefined ? (headers[sheet] ?? []).slice(0, 1) : [key];
  const name = joined(file, row, names);
  if (name === '') return undefined;
  const detail = sheet === 'clutches' ? ofClutch(plan, row) : joined(file, row, (headers[sheet] ?? []).filter((header) => !names.includes(header)));
  return { name, detail, span: file.doc.rowSpan(file.recordOf(row)) };
}

/** Columns that say what a row is about, in the order in which they are shown. */
const headers: Readonly<Partial<Record<SheetName, readonly string[]>>> = {
  rooms: ['name'],
  tanks: ['room', 'position', 'use'],
  species: ['common_name', 'scientific_name'],
  pairs: ['species', 'tank'],
  fish: ['species', 'sex'],
  'clutch-log': ['tank', 'count', 'to_tank'],
  log: ['clutch', 'tank', 'count', 'to_tank'],
  'tank-log': ['change_pct'],
  readings: ['tank', 'room'],
  routines: ['about', 'care', 'species', 'use', 'off'],
  maintenance: ['what', 'from'],
  cultures: ['food', 'started'],
  orders: ['buyer', 'species', 'due'],
  prices: ['species', 'min_mm'],
};

function ofClutch(plan: Plan, row: Row): string {
  const id = keyText(row);
  // Of two rows with one name the first holds, and nothing is known of the other.
  const state = plan.records.index('clutches').row(id) === row ? plan.view.clutch(id) : undefined;
  const stage = state === undefined ? undefined : stageAt(state.timeline, plan.now)?.stage;
  return [clutchSpecies(plan, row), stage].filter((part) => part !== undefined).join(BETWEEN);
}

/** What stands under the headers, as it is written, on one line. */
function joined(file: SheetFile, row: Row, names: readonly string[]): string {
  const texts = names.flatMap((name) => {
    const column = file.header.columnOf.get(name);
    return column === undefined ? [] : (file.cellText(row, column) ?? '');
  });
  return texts.map((text) => text.trim().replaceAll(/\s+/g, ' ')).filter((text) => text !== '').join(BETWEEN);
}
