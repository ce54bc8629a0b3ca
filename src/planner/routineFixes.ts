import { say } from '../base/messages';
import { formatDay, formatMoment } from '../base/moment';
import type { Moment } from '../base/moment';
import { insertRow, setCell } from '../csv/edits';
import { quoteCell } from '../csv/quote';
import type { Occurrence } from '../domain/routines';
import type { About } from '../records/routines';
import type { Records } from '../records/records';
import type { Row } from '../records/row';
import type { SheetFile } from '../records/sheetFile';
import type { Tank } from '../records/things';
import { logRowEdit } from './logRow';
import type { Logged } from './logRow';
import type { Fix } from './problem';
import type { ClutchState, PlanView } from './states';

/** Events that say nothing without a count or another tank: they can't be written for the keeper. */
const INCOMPLETE: ReadonlySet<string> = new Set(['counted', 'measured', 'sold', 'lost', 'culled', 'kept', 'moved', 'joined', 'ended', 'spawned']);

/** Records what was asked for: now, or as about the moment at which it was due. */
export function recordFixes(state: ClutchState, occurrence: Occurrence, view: PlanView): readonly Fix[] {
  return recorded({ kind: 'clutch', id: state.clutch.clutch }, occurrence, view);
}

/** The same for a tank; what was measured is the keeper's to write. */
export function recordTankFixes({ tank }: Tank, occurrence: Occurrence, view: PlanView): readonly Fix[] {
  return recorded({ kind: 'tank', id: tank }, occurrence, view);
}

function recorded(thing: Logged, { routine, due }: Occurrence, { now, zone, records }: PlanView): readonly Fix[] {
  const event = routine.doneBy.find((name) => !INCOMPLETE.has(name));
  if (event === undefined) return [];
  const at = (time: Moment): Fix[] => {
    const text = formatMoment(time, zone);
    const edit = logRowEdit(thing, { time: text, event }, records);
    const shown = text.replace('T', ' ');
    return edit === undefined ? [] : [{ title: time === now ? say('fix.record.now', event, shown) : say('fix.record.about', event, shown), safe: false, edits: [edit] }];
  };
  // Nobody saw it then, so it is about then and nothing is learned from it.
  return [...at(now), ...at({ ...due, about: true })];
}

/** How a brood that was asked about may have gone, by whether its fry were ever seen. */
const GONE = { unborn: ['eaten', 'fungus', 'infertile', 'unknown'], born: ['sold', 'eaten', 'lost', 'unknown'] } as const;

/** Ends the clutch today with an outcome. */
export function endFixes({ row, timeline, study, clutch }: ClutchState, { records, now }: PlanView): readonly Fix[] {
  const file = records.file(row.path);
  const [ended, outcome] = ['ended', 'outcome'].map((header) => file?.header.columnOf.get(header));
  if (file === undefined || ended === undefined || file.blocked !== undefined || !row.wellFormed) return [];
  const question = study.ladder?.question;
  const asked = question === undefined ? undefined : timeline.of(question);
  const isBorn = question === undefined || asked?.basis === 'recorded' || asked?.evidence !== undefined;
  const record = file.recordOf(row);
  return GONE[isBorn ? 'born' : 'unborn'].flatMap((how) => {
    const edits = [...setCell(file.doc, record, ended, formatDay(now.day)), ...(outcome === undefined ? [] : setCell(file.doc, record, outcome, how))];
    return { title: say('fix.end', clutch.clutch, how), safe: false, edits: [{ file: file.path, edits: edits.sort((a, b) => a.start - b.start) }] };
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
