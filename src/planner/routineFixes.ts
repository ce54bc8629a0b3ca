import { say } from '../base/messages';
import { formatDay, formatMoment, wholeMinute } from '../base/moment';
import type { Moment } from '../base/moment';
import { insertRow, setCell } from '../csv/edits';
import { quoteCell } from '../csv/quote';
import type { Occurrence } from '../domain/routines';
import type { About } from '../records/routines';
import type { Records } from '../records/records';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { Tank } from '../records/things';
import { Draft } from './draft';
import { isUnsaid } from './eventNeeds';
import { logRowEdit } from './logRow';
import type { Logged } from './logRow';
import { outcomesOf } from './outcomes';
import type { Fix } from './problem';
import type { ClutchState, PlanView } from './states';

/** Records what was asked for: now, or as about the moment at which it was due. */
export function recordFixes(state: ClutchState, occurrence: Occurrence, view: PlanView): readonly Fix[] {
  return recorded({ kind: 'clutch', id: state.clutch.clutch }, occurrence, view);
}

/** The same for a tank; what was measured is the keeper's to write. */
export function recordTankFixes({ tank }: Tank, occurrence: Occurrence, view: PlanView): readonly Fix[] {
  return recorded({ kind: 'tank', id: tank }, occurrence, view);
}

function recorded(thing: Logged, { routine, due }: Occurrence, { now, zone, records }: PlanView): readonly Fix[] {
  const event = routine.doneBy.find((name) => !isUnsaid(thing.kind, name));
  if (event === undefined) return [];
  const at = (time: Moment, which: 'now' | 'about'): Fix[] => {
    // A row that is later than now counts for nothing.
    const text = formatMoment(wholeMinute(time, zone), zone);
    const edit = logRowEdit(thing, { time: text, event }, records);
    const shown = text.replace('T', ' ');
    return edit === undefined ? [] : [{ title: say(`fix.record.${which}`, event, shown), safe: false, edits: [edit] }];
  };
  // Nobody saw it then, so it is about then and nothing is learned from it.
  return [...at(now, 'now'), ...at({ ...due, about: true }, 'about')];
}

/** Ends the clutch today with an outcome. */
export function endFixes(state: ClutchState, { records, now }: PlanView): readonly Fix[] {
  const hasOutcome = records.file(state.row.path)?.header.columnOf.has('outcome') === true;
  return outcomesOf(state).flatMap((outcome): readonly Fix[] => {
    const draft = new Draft(records);
    const refused = draft.set(state.row, { ended: formatDay(now.day), ...(hasOutcome ? { outcome } : {}) });
    return refused === undefined ? [{ title: say('fix.end', state.clutch.clutch, outcome), safe: false, edits: draft.edits() }] : [];
  });
}

/** Switches a routine off, for a species and for the whole fishroom, in routines.csv or a new one. */
export function switchOffFixes(
  { occurrence, about, species }: { readonly occurrence: Occurrence; readonly about: About; readonly species: string | undefined },
  { records }: PlanView,
): readonly Fix[] {
  const { routine, action } = occurrence.routine;
  const fix = (only: string | undefined): readonly Fix[] => {
    const cells: Readonly<Record<string, string>> = { routine, action, about, species: only ?? '', off: 'yes' };
    const edit = offRow(cells, records);
    return edit === undefined ? [] : [{ title: only === undefined ? say('fix.switch-off', routine) : say('fix.switch-off.species', routine, only), safe: false, edits: [edit] }];
  };
  return [...(species === undefined ? [] : fix(species)), ...fix(undefined)];
}

const HEADERS = ['routine', 'action', 'level', 'about', 'care', 'species', 'use', 'anchor', 'offset', 'until_anchor', 'until_offset', 'every', 'grace', 'lapse', 'done_by', 'off'];

function offRow(cells: Readonly<Record<string, string>>, records: Records): Fix['edits'][number] | undefined {
  const file = records.file('routines.csv');
  if (file === undefined) {
    const row = HEADERS.map((header) => quoteCell(cells[header] ?? '', ','));
    return { file: 'routines.csv', create: `${HEADERS.join(',')}\n${row.join(',')}\n` };
  }
  const { columnOf, columns } = file.header;
  if (file.blocked !== undefined || !Object.entries(cells).every(([header, text]) => text === '' || columnOf.has(header))) return undefined;
  // A second row of the same name and filters would be one too many.
  const same = [...file.rows()].find((row) => row.wellFormed && ['routine', 'about', 'species', 'care', 'use'].every((header) => textOf(file, row, header) === (cells[header] ?? '')));
  if (same !== undefined) return { file: file.path, edits: setCell(file.doc, file.recordOf(same), columnOf.get('off') as number, 'yes') };
  return { file: file.path, edits: insertRow(file.doc, file.doc.rowCount, columns.map(({ header }) => cells[header] ?? '')) };
}

function textOf(file: SheetFile, row: Row, header: string): string {
  const column = file.header.columnOf.get(header);
  return column === undefined ? '' : (file.cellText(row, column) ?? '');
}
