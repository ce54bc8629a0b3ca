import fc from 'fast-check';
import { quoteCell } from '../../src/csv/quote';

/** How one column's cells come about: the first word is what a cell shrinks to; a word written twice comes twice as often. */
interface ColumnWords {
  readonly name: string;
  readonly words: readonly string[];
  /** Of a key: ids are mostly this with the row's number, so that most rows have their own. */
  readonly stem?: string;
}

/** The good words four times, so that most of a room is read; the first is what cells shrink to. */
const mostly = (good: readonly string[], ...bad: readonly string[]): readonly string[] => [...good, ...good, ...good, ...good, ...bad];
const tanks = mostly(['T1', 'T1', 'T1', 'T2', 'T3'], '', 't1', 'T9');
const clutches = mostly(['C1', 'C1', 'C1', 'C2', 'C3'], '', 'c1', 'C9');
const pairs = mostly(['P1', 'P1', 'P1', 'P2', ''], 'P3', 'p1');
const species = mostly(['kribensis', 'kribensis', 'red', 'blue'], '', 'kribenss', 'guppy', 'green');
const counts = mostly(['12', '40', '', '~30', '5', '40'], '1', '0', '100', '-3', 'many');
const degrees = mostly(['', '26', '24.5', '27'], '29', '14', '26,5', '40');
const past = ['2026-05-01T19:30', '2026-05-12', '2026-04-02', '2026-06-08T07:00', '2026-06-07T20:00', '2026-06-01', '2026-05-20T06:15', '2026-03-29T02:30', '~2026-05-14T10:00', '~2026-05-04', '2026-06-09T22:30Z'];
const now = ['2026-06-09T21:00', '2026-06-10', '2026-06-10T08:59', '2026-06-10T12:00', '2026-06-11', '2026-06-11T10:00', '2026-06-10 18:00'];
const moments = [...mostly(past), ...now, '2025-12-24', '', '04/05/2026', 'soon', '2026-02-30'];
const seldom = (words: readonly string[]): readonly string[] => [...new Array<string>(words.length * 8).fill(''), ...words];
const rarely = (...words: readonly string[]): readonly string[] => [...new Array<string>(words.length * 2).fill(''), ...words];
const accept = rarely('milestone-missing', 'older-fry spawn-late', 'count-doubtful', 'no-such-code');
const stale = rarely('39', 'egg', '12', '0', 'T1', '2026-06-12', '~12');
const note = rarely('x', 'he said "no"', 'a,b', 'two\nlines', '<<<<<<< mine');
const events = [...mostly(['counted', 'counted', 'moved', 'lost', 'sold', 'hatched', 'free_swimming', 'measured', 'fed']), 'stripped', 'checked', 'joined', 'ended', 'released', 'kept', 'culled', 'spawned', 'fungus', 'hatchd', ''];
const logColumns: readonly ColumnWords[] = [
  { name: 'time', words: moments },
  { name: 'event', words: events },
  { name: 'tank', words: [...tanks, ...tanks.map(() => '')] },
  { name: 'count', words: counts },
  { name: 'to_tank', words: ['T2', '', 'T3', 'T1', 'T2'] },
  { name: 'length_mm', words: mostly(['9.5', '14', '', '22.5'], '1 cm', '3', '200') },
  { name: 'ref', words: rarely('C2', 'O1', 'C1') },
  { name: 'alive', words: stale },
  { name: 'stage', words: stale },
  { name: 'age_days', words: stale },
];
const waterColumns: readonly ColumnWords[] = [
  { name: 'time', words: moments },
  { name: 'temp_c', words: degrees },
  { name: 'event', words: ['', 'tested', 'water_change', 'flood'] },
  { name: 'ph', words: rarely('7', '15', '8.2') },
  { name: 'tan_mg_l', words: rarely('0.5', '1', 'much') },
  { name: 'no3_mg_l', words: rarely('20', '60', '90') },
  { name: 'change_pct', words: rarely('25', '50', '101') },
  { name: 'nh3_mg_l', words: stale },
];

const sheets: Readonly<Record<string, readonly ColumnWords[]>> = {
  'clutches.csv': [
    { name: 'clutch', words: ['C1', 'C2', 'C3', 'c1', '', 'bad id', 'CON'], stem: 'C' },
    { name: 'pair', words: pairs },
    { name: 'tank', words: tanks },
    { name: 'spawned', words: moments },
    { name: 'species', words: rarely(...species) },
    { name: 'eggs', words: counts },
    { name: 'hatched', words: rarely(...moments) },
    { name: 'free_swimming', words: rarely(...moments) },
    { name: 'ended', words: seldom(moments) },
    { name: 'accept', words: accept },
    { name: 'note', words: note },
    ...['age_days', 'stage', 'stage_basis', 'tanks_now', 'alive', 'survival_pct', 'spawn_interval_days', 'hatch_expected', 'sale_expected', 'next_action', 'next_due', 'overdue'].map((name) => ({ name, words: stale })),
  ],
  'pairs.csv': [
    { name: 'pair', words: ['P1', 'P2', 'p1', ''], stem: 'P' },
    { name: 'species', words: species },
    { name: 'tank', words: tanks },
    { name: 'kind', words: mostly(['', 'pair'], 'trio', 'couple') },
    { name: 'male', words: rarely('F1', 'F2', 'F9') },
    { name: 'female', words: rarely('F2', 'F3', 'F1') },
    { name: 'retired', words: seldom(moments) },
    { name: 'accept', words: accept },
    ...['clutches', 'last_spawned', 'interval_median_days', 'next_spawn_from', 'next_spawn_expected', 'next_spawn_to', 'kinship'].map((name) => ({ name, words: stale })),
  ],
  'tanks.csv': [
    { name: 'tank', words: ['T1', 'T2', 't1', ''], stem: 'T' },
    { name: 'room', words: mostly(['R1', 'R1', 'R2'], '', 'R9') },
    { name: 'system', words: rarely('S1', 'S1', 'S2') },
    { name: 'temp_c', words: degrees },
    { name: 'use', words: rarely('breeding', 'grow-out', 'holding') },
    { name: 'position', words: rarely('2', '10', 'top left') },
    { name: 'retired', words: seldom(moments) },
    ...['fish', 'last_reading', 'nh3_mg_l', 'next_action', 'next_due'].map((name) => ({ name, words: stale })),
  ],
  'rooms.csv': [{ name: 'room', words: ['R1', 'r1', ''], stem: 'R' }, { name: 'name', words: note }, ...['tanks', 'open_clutches', 'overdue'].map((name) => ({ name, words: stale }))],
  'species.csv': [
    { name: 'species', words: ['red', 'red', 'blue', 'blue', 'kribensis', 'green', ''] },
    { name: 'like', words: ['', 'kribensis', 'red', 'blue', 'green', 'nothing'] },
    { name: 'care', words: mostly(['cave', '', 'mouthbrooder', 'livebearer'], 'mop', 'nest') },
    { name: 'ref_temp_c', words: mostly(['26', '', '25'], '26,5') },
    { name: 'zero_temp_c', words: mostly(['15', ''], '27') },
    { name: 'hatch_h', words: mostly(['72', '', '60'], '0') },
    { name: 'first_feed_h', words: ['100', ''] },
    { name: 'free_swim_h', words: ['200', '', '100'] },
    { name: 'release_d', words: ['20', ''] },
    { name: 'juvenile_d', words: ['30', ''] },
    { name: 'sale_d', words: ['90', '', '20'] },
    { name: 'interval_d', words: ['30', '', '12', '900'] },
    { name: 'hatch_mm', words: ['4', '', '5', '60'] },
    { name: 'sale_mm', words: ['20', '', '40'] },
    { name: 'max_mm', words: ['60', '', '100'] },
    { name: 'temp_min_c', words: rarely('22') },
    { name: 'source', words: rarely('own notes') },
  ],
  'routines.csv': [
    { name: 'routine', words: ['test-water', 'shrimp', 'change-water', 'hatch', 'count', 'look-at-eggs', 'look', 'clear-tank', 'first-feed', ''] },
    { name: 'action', words: ['Do it', 'Look', ''] },
    { name: 'level', words: mostly(['', 'warn', 'habit', 'remind'], 'round', 'shout') },
    { name: 'about', words: mostly(['tank', 'clutch', 'clutch', 'pair'], 'order', '') },
    { name: 'care', words: rarely('cave', 'mouthbrooder') },
    { name: 'species', words: rarely('kribensis', 'red') },
    { name: 'use', words: rarely('breeding', 'holding') },
    { name: 'anchor', words: mostly(['', '', 'spawned', 'hatched', 'next_spawn_from', 'first_feed', 'free_swimming', 'change', 'reading'], 'moon') },
    { name: 'offset', words: mostly(['', 'P1D', 'PT6H', '-P2D', '2026-06-01'], 'later') },
    { name: 'until_anchor', words: rarely('hatched_from', 'sale_size') },
    { name: 'every', words: rarely('P3D', 'PT8H', 'feeds_per_day') },
    { name: 'grace', words: rarely('PT1H', 'P2D') },
    { name: 'lapse', words: rarely('P3D', 'P90D') },
    { name: 'done_by', words: mostly(['', 'checked', 'hatched fed', 'counted', 'tested'], 'sung') },
    { name: 'off', words: mostly(['', 'no', 'no'], 'yes', 'perhaps') },
  ],
  'fish.csv': [{ name: 'fish', words: ['F1', 'F2', 'f1'], stem: 'F' }, { name: 'species', words: species }, { name: 'sire', words: rarely('F1', 'F9', 'F2') }, { name: 'dam', words: rarely('F3', 'F1') }, { name: 'origin', words: rarely('lake', 'lake', 'river') }, { name: 'tank', words: tanks }, { name: 'clutch', words: rarely(...clutches) }, { name: 'inbreeding_f', words: stale }],
  'log.csv': [{ name: 'clutch', words: clutches }, ...logColumns],
  'readings.csv': [{ name: 'tank', words: ['T1', 'T2', '', ''] }, { name: 'room', words: ['', 'R1', 'R2', 'R9'] }, ...waterColumns],
  'maintenance.csv': [
    { name: 'job', words: ['M1', 'M2'], stem: 'M' },
    { name: 'what', words: ['scrub', ''] },
    { name: 'tanks', words: mostly(['T1 T2', 'T1', 'T3'], '', 'T3 T9') },
    { name: 'room', words: ['', 'R1', 'R2'] },
    { name: 'from', words: mostly(['2026-06-10', '2026-06-01', '2026-06-20'], 'soon') },
    { name: 'to', words: mostly(['2026-06-12', '2026-07-20', '2026-06-22'], '') },
    { name: 'accept', words: rarely('maintenance-clash') },
  ],
  'cultures.csv': [
    { name: 'culture', words: ['B1', 'B2', 'b1', ''], stem: 'B' },
    { name: 'food', words: mostly(['brine_shrimp', 'brine_shrimp', 'microworm', 'infusoria'], 'other', '', 'worms') },
    { name: 'started', words: moments },
    { name: 'grams', words: ['', '0.05', '2', '2,5'] },
    { name: 'temp_c', words: degrees },
    { name: 'yield_per_g', words: rarely('250000', 'many') },
    { name: 'renew_every', words: mostly(['', 'P18D', 'PT36H'], 'P999999999D', '18 days') },
    { name: 'ended', words: rarely(...moments) },
    ...['ready', 'renew_due'].map((name) => ({ name, words: stale })),
  ],
  'orders.csv': [{ name: 'order', words: ['O1', 'O2', 'o1'], stem: 'O' }, { name: 'species', words: species }, { name: 'quantity', words: ['5', 'x'] }, { name: 'due', words: ['2026-08-01', ''] }],
  ...Object.fromEntries(['clutches/C1.csv', 'clutches/old/C1.csv', 'clutches/C2.csv', 'clutches/C9.csv'].map((path) => [path, logColumns])),
  ...Object.fromEntries(['tanks/T1.csv', 'tanks/more/T2.csv'].map((path) => [path, waterColumns])),
};

const config = [
  '{"timezone": "Europe/Berlin"}',
  '{"timezone": "Pacific/Auckland"}',
  '{"timezone": "America/St_Johns", "extra_columns": ["colour"]}',
  '{"extra_columns": ["colour", "clutchs"]}',
  '{"timezone": "Europe/Berlin", "name": "Cellar", "rounds": ["19:00", "08:00"]}',
  '{"timezone": "Nowhere/Else"}',
  '{"timezone": 5}',
  '{oops',
  '',
];

/** The files that a random room may hold. */
export const roomPaths: readonly string[] = ['fishroom.json', ...Object.keys(sheets)];

/** What a sheet is written from: numbers that pick words, so that shrinking leads to plain rows. */
export interface SheetPlan {
  readonly dropped: readonly number[];
  readonly turned: number;
  readonly extra: number;
  readonly rows: readonly (readonly number[])[];
  readonly style: number;
}

const widest = Math.max(...Object.values(sheets).map(({ length }) => length)) + 1;

export const anySheetPlan: fc.Arbitrary<SheetPlan> = fc.record({
  dropped: fc.oneof({ weight: 3, arbitrary: fc.constant([]) }, { weight: 1, arbitrary: fc.array(fc.nat(30), { maxLength: 2 }) }),
  turned: fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 1, arbitrary: fc.nat(30) }),
  extra: fc.nat(23),
  rows: fc.array(fc.array(fc.nat(999), { minLength: widest, maxLength: widest }), { maxLength: 6 }),
  style: fc.nat(15),
});

const extraHeaders = ['colour', 'clutchs', 'temp_f', 'tank', 'alive', 'note'];

/** The text of a sheet; of `fishroom.json` one of a few. */
export function sheetText(path: string, plan: SheetPlan): string {
  const all = sheets[path];
  if (all === undefined) return config[plan.extra % config.length] as string;
  const kept = all.filter((_, i) => !plan.dropped.includes(i));
  const at = plan.turned % kept.length;
  const columns: readonly ColumnWords[] = [...kept.slice(at), ...kept.slice(0, at), ...(plan.extra > 0 && plan.extra <= extraHeaders.length ? [{ name: extraHeaders[plan.extra - 1] as string, words: note }] : [])];
  const delimiter = plan.style === 14 ? ';' : ',';
  const end = plan.style === 15 ? '\r\n' : '\n';
  // Now and then a file of several blocks of rows.
  const times = plan.style === 12 ? 40 : 1;
  const rows = Array.from({ length: plan.rows.length * times }, (_, row) => plan.rows[row % plan.rows.length] as readonly number[]);
  const lines = rows.map((picks, row) => {
    const odd = picks[widest - 1] as number;
    if (odd === 990) return '';
    const cells = columns.map((column, i) => quoteCell(wordOf(column, picks[i] as number, row), delimiter));
    if (odd > 985) cells.pop();
    if (odd > 980 && odd < 984) cells.push('more');
    return cells.join(delimiter);
  });
  return [columns.map(({ name }) => name).join(delimiter), ...lines].join(end) + (plan.style === 13 ? '' : end);
}

function wordOf({ words, stem }: ColumnWords, pick: number, row: number): string {
  if (stem !== undefined && pick < 930) return `${stem}${row + 1}`;
  return words[pick % words.length] as string;
}

/** Another word for a cell of a column: one that belongs there, or now and then anything. */
export function otherWord(path: string, header: string, pick: number): string {
  const column = sheets[path]?.find(({ name }) => name === header);
  if (column === undefined || pick % 10 === 9) return anything[pick % anything.length] as string;
  return pick % 7 === 6 && column.stem !== undefined ? `${column.stem}${pick % 5}` : (column.words[pick % column.words.length] as string);
}

const anything = ['', 'x', '"', ',', '12', '2026-06-10T08:00', 'T1', '__proto__', '\u00e9', ' '];

/** Headers of a sheet, for writing them over another. */
export function otherHeader(path: string, pick: number): string {
  const names = [...(sheets[path] ?? []).map(({ name }) => name), ...extraHeaders, ''];
  return names[pick % names.length] as string;
}

/** Whole rooms: some files are missing. */
export const anyRoom: fc.Arbitrary<ReadonlyMap<string, string>> = fc
  .array(fc.record({ there: fc.integer({ min: 0, max: 9 }), plan: anySheetPlan }), { minLength: roomPaths.length, maxLength: roomPaths.length })
  .map((plans) => new Map(plans.flatMap(({ there, plan }, i) => (there < 3 ? [] : [[roomPaths[i] as string, sheetText(roomPaths[i] as string, plan)] as const]))));
