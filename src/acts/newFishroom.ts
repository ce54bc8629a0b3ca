import { applyEdits } from '../base/textEdit';
import { zoneOf } from '../base/zone';
import type { Zone } from '../base/zone';
import { CsvDocument } from '../csv/document';
import { quoteCell } from '../csv/quote';
import type { Care } from '../domain/things';
import { computedHeaders } from '../planner/columns/registry';
import { Plan } from '../planner/plan';
import { schemaNamed } from '../schema/catalog';
import { defaultRoutinesText } from '../schema/defaults';
import type { SheetName } from '../schema/descriptor';
import type { NamedThing } from './typedNames';

/** A species of a new fishroom; `care` of one that doesn't come with the tool. */
export interface NewSpecies extends NamedThing {
  readonly care?: Care;
}

/** What a keeper says about a fishroom that is to be begun. */
export interface FishroomAnswers {
  readonly name: string;
  /** An IANA name. */
  readonly timezone: string;
  readonly rooms: readonly NamedThing[];
  readonly species: readonly NewSpecies[];
  readonly waterTests: 'remind' | 'leave';
}

/** The sheets to begin with and the columns that the keeper fills in them; computed ones follow. */
const sheets: readonly (readonly [sheet: SheetName, columns: readonly string[]])[] = [
  ['clutches', ['clutch', 'pair', 'species', 'tank', 'spawned', 'eggs', 'hatched', 'free_swimming', 'ended', 'outcome', 'accept', 'note']],
  ['log', ['time', 'clutch', 'event', 'tank', 'count', 'length_mm', 'to_tank', 'ref', 'note']],
  ['pairs', ['pair', 'species', 'tank', 'formed', 'retired', 'accept', 'note']],
  ['tanks', ['tank', 'room', 'position', 'volume_l', 'use', 'temp_c', 'retired', 'accept', 'note']],
  ['readings', ['time', 'tank', 'room', 'event', 'temp_c', 'ph', 'tan_mg_l', 'no2_mg_l', 'no3_mg_l', 'change_pct', 'note']],
  ['rooms', ['room', 'name', 'note']],
  ['species', ['species', 'like', 'common_name', 'care', 'hatch_h', 'first_feed_h', 'free_swim_h', 'sale_d', 'sale_mm', 'interval_d', 'feeds_per_day', 'source']],
  ['routines', ['routine', 'action', 'about', 'every', 'off']],
];

/** The routine that the answer about water tests switches. */
const WATER_TESTS = 'test-water';

/** The register that a fishroom begins with. */
export const FIRST_SHEET = 'clutches.csv';

/** Every path at which a new fishroom may have a file. */
export const newFishroomPaths: readonly string[] = ['fishroom.json', '.gitattributes', ...sheets.map(([sheet]) => schemaNamed(sheet).path)];

/**
 * The texts of the files of a new fishroom by their paths, with `\n` at the end of each line: settings, sheets with their headers and what is known so far,
 * and a `.gitattributes` so that git changes no line ends. The computed cells are filled as of `now`, an instant in ms. Throws for a zone that there isn't.
 */
export function newFishroom(answers: FishroomAnswers, now: number): ReadonlyMap<string, string> {
  const zone = zoneOf(answers.timezone);
  if (zone === undefined) throw new Error(`there is no time zone ${answers.timezone}`);
  const known = rowsOf(answers);
  const files = new Map<string, string>([['fishroom.json', settingsOf(answers)]]);
  for (const [sheet, columns] of sheets) {
    const rows = known[sheet] ?? [];
    // An empty list of rooms or species would say that every name is wrong.
    if (rows.length === 0 && sheet in known) continue;
    files.set(schemaNamed(sheet).path, textOfSheet([...columns, ...computedHeaders(sheet)], rows));
  }
  for (const [path, text] of filled(files, { zone, now })) files.set(path, text);
  files.set('.gitattributes', '*.csv -text\n');
  return files;
}

function settingsOf({ name, timezone }: FishroomAnswers): string {
  return `${JSON.stringify({ name, timezone }, null, 2)}\n`;
}

type Cells = Readonly<Record<string, string>>;

function rowsOf({ rooms, species, waterTests }: FishroomAnswers): Partial<Record<SheetName, readonly Cells[]>> {
  return {
    rooms: rooms.map(({ id, name }) => ({ room: id, name: name ?? '' })),
    species: species.map(({ id, name, care }) => ({ species: id, common_name: name ?? '', care: care ?? '' })),
    routines: [{ routine: WATER_TESTS, action: actionOf(WATER_TESTS), about: 'tank', off: waterTests === 'remind' ? 'no' : 'yes' }],
  };
}

/** What a routine that comes with the tool says is to be done. */
function actionOf(routine: string): string {
  const list = CsvDocument.parse(defaultRoutinesText);
  for (let record = 1; record < list.rowCount; record++) if (list.value(record, 0) === routine) return list.value(record, 1);
  throw new Error(`no routine is named ${routine}`);
}

function textOfSheet(headers: readonly string[], rows: readonly Cells[]): string {
  const lines = [headers, ...rows.map((row) => headers.map((header) => quoteCell(row[header] ?? '', ',')))];
  return lines.map((cells) => `${cells.join(',')}\n`).join('');
}

function filled(files: ReadonlyMap<string, string>, { zone, now }: { readonly zone: Zone; readonly now: number }): ReadonlyMap<string, string> {
  const plan = new Plan({ machineZone: zone, now });
  plan.apply([...files].map(([path, text]) => ({ path, file: { text } })));
  return new Map([...files].map(([path, text]) => [path, applyEdits(text, plan.fills(path).changes.flatMap(({ edits }) => edits))]));
}
