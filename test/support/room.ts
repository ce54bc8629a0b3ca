import { textOf } from '../../src/base/messages';
import { zoneOf } from '../../src/base/zone';
import { Plan } from '../../src/planner/plan';
import type { Place, Problem } from '../../src/planner/problem';
import { applyEdits } from '../../src/base/textEdit';
import type { FileChange } from '../../src/records/records';
import { berlin, moment } from './moments';

/** Files by their paths: the text, or its lines. */
export type RoomFiles = Readonly<Record<string, string | readonly string[]>>;

/** The plan of a fishroom, read from its files' texts, at a moment in its own zone (Berlin where it names none). */
export function roomOf(files: RoomFiles, now: string): Plan {
  const batch: readonly FileChange[] = Object.entries(files).map(([path, text]) => ({ path, file: { text: typeof text === 'string' ? text : `${text.join('\n')}\n` } }));
  const settings = batch.find(({ path }) => path === 'fishroom.json');
  const { timezone = 'Europe/Berlin' } = JSON.parse(settings !== undefined && 'file' in settings ? (settings.file?.text ?? '{}') : '{}') as { readonly timezone?: string };
  const plan = new Plan({ machineZone: berlin, now: moment(now, zoneOf(timezone)).instant });
  plan.apply(batch);
  return plan;
}

/** The same with every computed column added to every file, and filled. */
export function filledRoom(files: RoomFiles, now: string): Plan {
  const plan = roomOf(files, now);
  for (const path of plan.paths()) {
    plan.apply([{ path, edits: plan.missingColumns(path) }]);
    plan.apply([{ path, edits: plan.fills(path, { overwrite: true }).changes.flatMap(({ edits }) => edits) }]);
  }
  return plan;
}

/** The cells of a column, row by row below the header. */
export function column(plan: Plan, path: string, header: string): readonly string[] {
  const { doc, at } = headerOf(plan, path, header);
  return Array.from({ length: doc.rowCount - 1 }, (_, i) => doc.value(i + 1, at));
}

/** The cell of a thing, or of the row of a log with that time. */
export function cell(plan: Plan, path: string, id: string, header: string): string {
  return headerOf(plan, path, header).doc.value(recordOf(plan, path, id), headerOf(plan, path, header).at);
}

/** A text under each header of a row, `age_days 3`; only of the headers asked for. */
export function cells(plan: Plan, path: string, id: string, ...headers: readonly string[]): readonly string[] {
  return headers.map((header) => `${header} ${cell(plan, path, id, header)}`.trimEnd());
}

function headerOf(plan: Plan, path: string, header: string): { readonly doc: NonNullable<ReturnType<Plan['records']['file']>>['doc']; readonly at: number } {
  const doc = plan.records.file(path)?.doc;
  const at = doc === undefined ? -1 : Array.from({ length: doc.cellCount(0) }, (_, i) => doc.value(0, i)).indexOf(header);
  if (doc === undefined || at < 0) throw new Error(`${path} has no column ${header}`);
  return { doc, at };
}

function recordOf(plan: Plan, path: string, id: string): number {
  const doc = plan.records.file(path)?.doc;
  for (let record = 1; record < (doc?.rowCount ?? 0); record++) if (doc?.value(record, 0) === id) return record;
  throw new Error(`${path} has no row ${id}`);
}

/** How a computed cell came about, as texts; `inputs` with the text that they point to: `spawned of K1: 2026-03-01 <clutches.csv: 2026-03-01>`. */
export interface WhyTexts {
  readonly value: string;
  readonly formula: string;
  readonly notes: readonly string[];
  readonly inputs: readonly string[];
  readonly constants: readonly string[];
  readonly window: string | undefined;
}

export function why(plan: Plan, path: string, id: string, header: string): WhyTexts {
  const told = plan.explainCell(path, recordOf(plan, path, id), header);
  if (told === undefined) throw new Error(`${header} of ${id} is not explained`);
  const { window } = told;
  return {
    value: told.value,
    formula: textOf(told.formula),
    notes: told.notes.map(textOf),
    inputs: told.inputs.map(({ name, value, place }) => `${textOf(name)}: ${value}${pointsTo(plan, place)}`),
    constants: told.constants.map(({ name, value, unit, source, place }) => `${textOf(name)}: ${value}${unit === undefined ? '' : ` ${unit}`} (${textOf(source)})${pointsTo(plan, place)}`),
    window: window === undefined ? undefined : `${window.from} to ${window.to}, ${window.expected} expected, from ${window.observations}`,
  };
}

function pointsTo(plan: Plan, place: Place | undefined): string {
  return place === undefined ? '' : ` <${place.file}: ${textAt(plan, place)}>`;
}

/** The text that a place covers. */
function textAt(plan: Plan, { file, span }: Place): string {
  return plan.records.file(file)?.doc.text().slice(span.start, span.end) ?? '';
}

/** A problem as texts: where it stands, what it says, and what else belongs to it. */
export interface ProblemTexts {
  readonly at: string;
  readonly says: string;
  readonly related: readonly string[];
}

/** The problems with a code in all files of a room. */
export function problemsOf(plan: Plan, code: Problem['code']): readonly ProblemTexts[] {
  return plan
    .paths()
    .flatMap((path) => plan.problems(path))
    .filter((problem) => problem.code === code)
    .map((problem) => ({
      at: `${problem.file}: ${textAt(plan, problem)}`,
      says: textOf(problem.message),
      related: problem.related.map((related) => `${related.file}: ${textAt(plan, related)}: ${textOf(related.message)}`),
    }));
}

/** A file's text after a fix of a problem. */
export function fixed(plan: Plan, problem: { readonly code: Problem['code']; readonly path: string; readonly fix: string }): string {
  const fixes = plan.problems(problem.path).filter(({ code }) => code === problem.code).flatMap(({ fixes }) => fixes);
  const found = fixes.find(({ title }) => textOf(title) === problem.fix);
  const edits = found?.edits[0];
  if (edits === undefined || !('edits' in edits)) throw new Error(`no fix "${problem.fix}" among ${fixes.map(({ title }) => textOf(title)).join(', ')}`);
  return applyEdits(plan.records.file(edits.file)?.doc.text() ?? '', edits.edits);
}
