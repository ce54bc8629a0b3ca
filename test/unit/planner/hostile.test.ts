import assert from 'node:assert/strict';
import fc from 'fast-check';
import { textOf } from '../../../src/base/messages';
import { computedHeaders } from '../../../src/planner/columns/registry';
import { Plan } from '../../../src/planner/plan';
import { decode } from '../../../src/records/fileStore';
import type { FileText } from '../../../src/records/fileStore';
import { schemas } from '../../../src/schema/catalog';
import { berlin, moment } from '../../support/moments';
import { roomPaths } from '../../support/randomRoom';

const now = moment('2026-06-10T09:00').instant;

/** How long the text of `fishroom.json` is, which a plan doesn't keep. */
const configLengths = new WeakMap<Plan, number>();

/** Asks everything that can be asked of a plan, so that nothing lazy stays hidden. Returns the codes of its problems. */
function askAll(plan: Plan): ReadonlyMap<string, number> {
  const codes = new Map<string, number>();
  for (const path of [...plan.paths(), 'fishroom.json']) {
    const problems = plan.problems(path);
    const length = (path === 'fishroom.json' ? configLengths.get(plan) : plan.records.file(path)?.doc.length) ?? 0;
    for (const { code, message, span, related } of problems) {
      codes.set(code, (codes.get(code) ?? 0) + 1);
      assert.ok(span.start >= 0 && span.start <= span.end && span.end <= length, `${code} in ${path}`);
      assert.ok(textOf(message).length < 2000, 'a message does not repeat a whole file');
      assert.ok(related.length < 1_000_000);
    }
    for (const { fixes } of problems.slice(0, 5)) assert.ok(fixes.length < 100);
    plan.fills(path);
    plan.fills(path, { overwrite: true });
    plan.missingColumns(path);
    const file = plan.records.file(path);
    if (file !== undefined && file.doc.length > 0) plan.explain(path, file.doc.length >> 1);
    if (file !== undefined) for (const header of computedHeaders(file.schema.name)) for (const record of [0, 1, 2]) plan.explainCell(path, record, header);
  }
  assert.ok(plan.nextChange > plan.now.instant);
  return codes;
}

function planOf(files: Readonly<Record<string, string | FileText>>): Plan {
  const plan = new Plan({ machineZone: berlin, now });
  plan.apply(Object.entries(files).map(([path, file]) => ({ path, file: typeof file === 'string' ? { text: file } : file })));
  const config = files['fishroom.json'] ?? '';
  configLengths.set(plan, (typeof config === 'string' ? config : config.text).length);
  return plan;
}

const everyPath = [...new Set([...roomPaths, ...schemas.map(({ path }) => path.replace('**/*', 'X1'))])];

/** The text in every sheet at once. */
function everywhere(text: string | FileText): Plan {
  return planOf(Object.fromEntries(everyPath.map((path) => [path, text])));
}

/** A good room; one sheet of it is replaced. */
const good: Readonly<Record<string, string>> = {
  'rooms.csv': 'room\nR1\n',
  'tanks.csv': 'tank,room,fish\nT1,R1,\nT2,R1,\n',
  'pairs.csv': 'pair,species,tank,clutches\nP1,kribensis,T1,\n',
  'clutches.csv': 'clutch,pair,tank,spawned,age_days,stage,hatch_expected\nK1,P1,T1,2026-06-01T19:30,,,\n',
  'clutches/K1.csv': 'time,event,alive\n2026-06-05,checked,\n',
};

const lines = (count: number, line: (i: number) => string): string => Array.from({ length: count }, (_, i) => line(i)).join('\n');

describe('garbage', () => {
  const texts: readonly (readonly [about: string, text: string])[] = [
    ['nothing', ''],
    ['a byte order mark', '\uFEFF'],
    ['line ends alone', '\r\n\n\r\r\n'],
    ['NULs', '\0\0,\0\n\0'],
    ['lone surrogates', '\uD83D,\uDC1F\n\uDC1F\uD83D,"\uD83D'],
    ['one quotation mark', '"'],
    ['delimiters of every kind', ',;\t;,\n\t\t,;'],
    ['the names of objects’ own fields', '__proto__,constructor,toString\n__proto__,constructor,hasOwnProperty\nvalueOf,,'],
    ['a header of the same name over and over', `${'clutch,'.repeat(500)}\n${'K1,'.repeat(500)}\n`],
    ['control characters and directions', '\u202Eclutch,\u0007tank\n\u2028,\u2029\n\u000B,\u000C'],
    ['JSON', '{"clutch": ["K1", 1e999, null]}'],
    ['a page of the web', '<!doctype html>\n<html><body onload="alert(1)">\n</body></html>'],
  ];
  for (const [about, text] of texts) {
    it(`in every sheet is told, not thrown: ${about}`, () => {
      const plan = everywhere(text);
      askAll(plan);
      plan.setNow(now + 40 * 86_400_000);
      askAll(plan);
      plan.apply(everyPath.map((path) => ({ path, file: undefined })));
      assert.deepEqual(plan.paths(), []);
    });
  }

  it('of bytes in every sheet is told as what is no UTF-8', () => {
    const bytes = Uint8Array.from({ length: 4096 }, (_, i) => (i * 167 + 128) % 256);
    const codes = askAll(everywhere(decode(bytes)));
    assert.ok((codes.get('csv-encoding') ?? 0) >= schemas.length);
  });

  it('of random characters, headers and bytes never throws', () => {
    const headers = fc.constantFrom(...schemas.map(({ fields }) => fields.map(({ name }) => name).join(',')));
    const cell = fc.constantFrom('', '__proto__', 'K1', '"', '\n', '~', '~-1', '1e400', '99999999999999999999', '0000-01-01', '9999-12-31T23:59', '-P9999999D', 'PT999999999H', 'like', '\0', 'cave', '\uD83D', 'constructor', '2026-06-10', '-0', '+1', '0x10', 'Infinity', 'NaN');
    const sheet = fc.tuple(headers, fc.array(fc.array(cell, { maxLength: 30 }), { maxLength: 5 })).map(([header, rows]) => [header, ...rows.map((row) => row.join(','))].join('\n'));
    const bytes = fc.uint8Array({ maxLength: 60 }).map((array) => decode(array).text);
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...everyPath), fc.oneof(sheet, sheet, bytes, fc.string({ unit: 'binary', maxLength: 60 }))), { maxLength: 8 }), (files) => {
        askAll(planOf({ ...good, ...Object.fromEntries(files) }));
      }),
      { numRuns: 200 },
    );
  });

  it('of every type in every cell of every sheet is told cell by cell', () => {
    for (const value of ['x y', '-1', '1e5', '2026-13-45', '~', '__proto__', 'T'.repeat(10_000)]) {
      const files = Object.fromEntries(schemas.map(({ path, fields }) => [path.replace('**/*', 'X1'), `${fields.map(({ name }) => name).join(',')}\n${lines(3, () => fields.map(() => value).join(','))}\n`]));
      const codes = askAll(planOf(files));
      assert.ok([...codes.values()].reduce((sum, count) => sum + count, 0) > 20, value);
    }
  });
});

const many = 20_000;

/** Readings of one room, a minute after the other. */
const roomReadings = `time,room,temp_c\n${lines(300, (i) => `2026-06-01T${String(Math.floor(i / 60)).padStart(2, '0')}:${String(i % 60).padStart(2, '0')},R1,26`)}\n`;
const tanksOnOneSystem = (count: number): string => `tank,room,system,fish,last_reading\n${lines(count, (i) => `T${i},R1,S1,,2026-06-01T04:59`)}\n`;

interface Flood {
  readonly about: string;
  /** The sheet to edit comes first. */
  readonly files: () => Readonly<Record<string, string>>;
  readonly told: Readonly<Record<string, number>>;
}

const floods: readonly Flood[] = [
  { about: '1,000 tanks on one system with 300 readings', files: () => ({ 'tanks.csv': tanksOnOneSystem(1000), 'readings.csv': roomReadings }), told: { 'computed-stale': 5, 'ref-unknown': 0 } },
  {
    about: '20,000 tanks on one system with 300 readings, and a brood in each',
    files: () => ({
      'readings.csv': roomReadings,
      'tanks.csv': tanksOnOneSystem(many),
      'clutches.csv': `clutch,species,tank,spawned,stage\n${lines(many, (i) => `K${i},kribensis,T${i},2026-06-01T03:00,`)}\n`,
    }),
    told: { 'computed-stale': 2, 'ref-unknown': 0 },
  },
  { about: '20,000 rows of one tank', files: () => ({ 'tanks.csv': `tank,room,system,fish\n${lines(many, () => 'T1,R1,S1,')}\n` }), told: { 'id-duplicate': many - 1 } },
  { about: '20,000 rows of one clutch', files: () => ({ 'clutches.csv': `clutch,pair,tank,spawned,stage\n${lines(many, () => 'K1,P1,T1,2026-06-01,')}\n` }), told: { 'id-duplicate': many - 1 } },
  { about: '20,000 rows of one pair', files: () => ({ 'pairs.csv': `pair,species,tank,clutches\n${lines(many, () => 'P1,kribensis,T1,')}\n` }), told: { 'id-duplicate': many - 1 } },
  { about: '20,000 rows of one room', files: () => ({ 'rooms.csv': `room,tanks\n${lines(many, () => 'R1,')}\n` }), told: { 'id-duplicate': many - 1 } },
  { about: '20,000 rows of one species', files: () => ({ 'species.csv': `species,care\n${lines(many, () => 'kribensis,cave')}\n` }), told: { 'id-duplicate': many - 1 } },
  { about: '20,000 rows of one fish', files: () => ({ 'fish.csv': `fish,species\n${lines(many, () => 'F1,kribensis')}\n` }), told: { 'id-duplicate': many - 1 } },
  {
    about: '20,000 clutches of one pair',
    files: () => ({ 'clutches.csv': `clutch,pair,tank,spawned,stage,spawn_interval_days,hatched\n${lines(many, (i) => `K${i},P1,T1,20${10 + (i % 10)}-0${1 + (i % 9)}-1${i % 10},,,`)}\n` }),
    told: { 'spawn-late': 1, 'computed-stale': 4 },
  },
  { about: '100,000 unknown references', files: () => ({ 'clutches.csv': `clutch,pair,tank,spawned\n${lines(50_000, (i) => `K${i},X${i},Y${i},2026-06-01`)}\n` }), told: { 'ref-unknown': 100_000 } },
  {
    about: '50,000 rows in one log with something wrong in each',
    files: () => ({ 'clutches/K1.csv': `time,event,count,tank,alive\n${lines(50_000, (i) => `2026-06-0${2 + (i % 7)}T10:00,lost,,T9,`)}\n` }),
    told: { 'value-required': 50_000, 'ref-unknown': 50_000 },
  },
  {
    about: '50,000 rows that spread a brood over as many tanks',
    files: () => ({ 'clutches/K1.csv': `time,event,count,tank,to_tank,alive\n2026-06-02,counted,100000,,,\n${lines(50_000, (i) => `2026-06-03T10:00,moved,1,T1,T${3 + i},`)}\n` }),
    told: { 'ref-unknown': 50_000, 'count-impossible': 0, 'not-there': 0 },
  },
  {
    about: 'a ring of 20,000 species that are like each other',
    files: () => ({ 'species.csv': `species,like,care\n${lines(many, (i) => `s${i},s${(i + 1) % many},`)}\n`, 'pairs.csv': `pair,species,tank\n${lines(many, (i) => `P${i},s${i},T1`)}\n` }),
    told: { 'value-required': many, 'ref-unknown': 0 },
  },
  {
    about: 'a ring of 20,000 species of which one says how it tends its brood',
    files: () => ({ 'species.csv': `species,like,care\n${lines(many, (i) => `s${i},s${(i + 1) % many},${i === 7 ? 'cave' : ''}`)}\n`, 'pairs.csv': `pair,species,tank\n${lines(many, (i) => `P${i},s${i},T1`)}\n` }),
    told: { 'value-required': 0, 'ref-unknown': 0 },
  },
  { about: '300,000 rows with something wrong in each', files: () => ({ 'tanks.csv': `tank,volume_l\n${lines(300_000, (i) => `T${i},-1`)}\n` }), told: { 'value-range': 300_000 } },
];

describe('more than anybody writes', () => {
  for (const path of ['clutches.csv', 'fishroom.json']) {
    it(`is read in no long time: a line of 10 MB in ${path}`, () => {
      const row = 'x'.repeat(10_000_000);
      askAll(planOf({ ...good, [path]: row }));
      askAll(planOf({ ...good, [path]: `clutch,species,tank,spawned,time,event,stage\n${row},kribensis,T1,2026-06-01,2026-06-01,checked,\n` }));
    });

    it(`is read in no long time: a million commas in ${path}`, () => {
      askAll(planOf({ ...good, [path]: ','.repeat(1_000_000) }));
      askAll(planOf({ ...good, [path]: `clutch,species,tank,spawned,time,event\n${','.repeat(1_000_000)}\n` }));
    });
  }

  it('columns without a name, or of one name: the first are told one by one, the others with one word', () => {
    const told = (header: string): readonly string[] => planOf({ ...good, 'clutches.csv': header }).problems('clutches.csv').map(({ message }) => textOf(message));
    const known = 'clutch,species,tank,spawned';
    const unnamed = told(`${known}${','.repeat(100_000)}`);
    assert.equal(unnamed.length, 21);
    assert.match(unnamed[0] as string, /^This column has no name\./);
    assert.match(unnamed[20] as string, /^From here on, 99980 more columns have no name/);
    const same = told(`${known}${',clutch'.repeat(100_000)}`);
    assert.equal(same.length, 21);
    assert.match(same[20] as string, /^From here on, 99980 more columns repeat the name/);
    assert.equal(told(`${known}${','.repeat(20)}`).length, 20);
  });

  it('a million quotation marks', () => {
    askAll(planOf({ ...good, 'clutches.csv': `clutch,species,tank,spawned\n${'"'.repeat(1_000_001)}` }));
    askAll(planOf({ ...good, 'clutches.csv': `clutch,species,tank,spawned\n${'"a"b,'.repeat(200_000)}` }));
  });

  for (const { about, files, told } of floods) {
    it(`is read in no long time: ${about}`, () => {
      const sheets = files();
      const plan = planOf({ ...good, ...sheets });
      const codes = askAll(plan);
      assert.deepEqual(Object.fromEntries(Object.keys(told).map((code) => [code, codes.get(code) ?? 0])), told);
      plan.setNow(now + 40 * 86_400_000);
      const [[path, text] = ['', '']] = Object.entries(sheets);
      const at = text.indexOf('\n') + 1;
      plan.apply([{ path, edits: [{ start: at, end: at + 1, text: 'Z' }] }]);
      plan.problems(path);
      plan.apply(Object.keys(sheets).map((gone) => ({ path: gone, file: undefined })));
    });
  }

  it('rings of clutches that joined each other', () => {
    const plan = planOf({
      'clutches.csv': `clutch,species,tank,spawned,alive\n${lines(50, (i) => `K${i},kribensis,T1,2026-05-01,`)}\n`,
      'log.csv': `clutch,time,event,count,ref\n${lines(50, (i) => `K${i},2026-05-20,counted,9,`)}\n${lines(50, (i) => `K${i},2026-05-21,joined,,K${(i + 1) % 50}`)}\n`,
    });
    assert.ok(plan.fills('clutches.csv').changes.every(({ header, after }) => header !== 'alive' || after === '0'));
    askAll(plan);
  });

  it('the first and the last of years, and counts without end', () => {
    const plan = planOf({
      'species.csv': 'species,care,ref_temp_c,zero_temp_c,hatch_h,free_swim_h,juvenile_d,sale_d,interval_d\nslow,cave,26,15,9007199254740991,9007199254740991,9007199254740991,9007199254740991,9007199254740991\nfast,cave,26,25.9999999,0.000001,0.000001,0.000001,0.000001,0.000001\n',
      'pairs.csv': 'pair,species,tank,clutches,next_spawn_from,next_spawn_to\nP1,slow,T1,,,\nP2,fast,T1,,,\n',
      'clutches.csv': `clutch,pair,tank,spawned,eggs,hatched,age_days,stage,survival_pct,spawn_interval_days,hatch_expected,sale_expected\n${['0000-01-01', '0000-01-01T00:00', '0001-01-01', '1899-12-31', '2026-06-09', '9999-12-31T23:59', '9999-12-31', '2026-06-10T09:00:00.000+23:59', '0000-01-01T00:00+23:59', '9999-12-31T23:59-23:59'].flatMap((spawned, i) => [`A${i},P1,T1,${spawned},9007199254740991,,,,,,,`, `B${i},P2,T1,${spawned},0,,,,,,,`]).join('\n')}\n`,
      'log.csv': 'clutch,time,event,count\nA0,0000-01-02,counted,9007199254740991\nA0,0000-01-03,counted,9007199254740991\nB4,2026-06-09T23:00,counted,9007199254740991\nB4,2026-06-09T23:30,sold,9007199254740991\n',
      'maintenance.csv': 'job,what,tanks,from,to\nM1,scrub,T1,0000-01-01,9999-12-31\n',
      'tanks.csv': 'tank,room,temp_c\nT1,R1,26\n',
    });
    const codes = askAll(plan);
    assert.ok((codes.get('time-future') ?? 0) >= 4);
    for (const { after } of plan.fills('clutches.csv', { overwrite: true }).changes) assert.doesNotMatch(after, /NaN|Infinity|e\+/);
    for (const { after } of plan.fills('pairs.csv', { overwrite: true }).changes) assert.doesNotMatch(after, /NaN|Infinity|e\+/);
    for (const instant of [moment('0001-01-01T00:00Z').instant, moment('9999-12-31T23:59Z').instant, 0, -1, 8.64e15 - 1, -8.64e15 + 1]) {
      plan.setNow(instant);
      askAll(plan);
    }
  });
});
