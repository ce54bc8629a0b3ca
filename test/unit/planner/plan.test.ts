import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { parseMoment } from '../../../src/base/moment';
import { zoneOf } from '../../../src/base/zone';
import { Plan } from '../../../src/planner/plan';
import type { FileChange } from '../../../src/records/records';
import { berlin, moment } from '../../support/moments';
import { fixesOf, shownOf, textsOf } from '../../support/plans';
import { anyRoom } from '../../support/randomRoom';
import { cell, cells, roomOf } from '../../support/room';
import { fillAll, samplesNow, sampleRoom } from '../../support/samples';

const now = '2026-06-10T09:00';

function planAt(instant: number, batch: readonly FileChange[]): Plan {
  const plan = new Plan({ machineZone: berlin, now: instant });
  plan.apply(batch);
  return plan;
}

function shownByAll(plan: Plan): string {
  return [...plan.paths(), 'fishroom.json'].map((path) => `${path}\n${shownOf(plan, path)}`).join('\n');
}

describe('a plan', () => {
  it('lists its files in the order of their names, fishroom.json only where something is wrong with it', () => {
    const batch: readonly FileChange[] = ['tanks.csv', 'clutches/K2.csv', 'clutches.csv', 'notes.csv', 'clutches/.K1.csv'].map((path) => ({ path, file: { text: '' } }));
    assert.deepEqual(planAt(0, batch).paths(), ['clutches.csv', 'clutches/K2.csv', 'tanks.csv']);
    assert.deepEqual(planAt(0, [{ path: 'fishroom.json', file: { text: '{}' } }]).paths(), []);
    assert.deepEqual(planAt(0, [{ path: 'fishroom.json', file: { text: '{' } }]).paths(), ['fishroom.json']);
  });

  it('forgets a file that is gone', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,soon\n' }, now);
    assert.deepEqual([...plan.apply([{ path: 'clutches.csv', file: undefined }])], ['clutches.csv']);
    assert.deepEqual([plan.paths(), plan.problems('clutches.csv'), plan.placesOf('K1')], [[], [], []]);
    assert.deepEqual(plan.fills('clutches.csv'), { changes: [], handKept: [] });
    assert.deepEqual([...plan.apply([{ path: 'clutches.csv', file: undefined }])], ['clutches.csv'], 'twice does no harm');
  });

  it('throws when a file is edited that it never read', () => {
    assert.throws(() => planAt(0, []).apply([{ path: 'clutches.csv', edits: [{ start: 0, end: 0, text: 'x' }] }]), /clutches\.csv was edited before it was read/);
  });

  it('tells in which registers an id stands', () => {
    const plan = roomOf({ 'tanks.csv': 'tank,room\nA,R1\nB,R1\nA,R2\n', 'pairs.csv': 'pair,species,tank\n\nA,kribensis,B\n', 'species.csv': 'species,care\n"A\n' }, now);
    assert.deepEqual(plan.placesOf('A'), [
      { path: 'tanks.csv', record: 1, sheet: 'tanks' },
      { path: 'pairs.csv', record: 2, sheet: 'pairs' },
    ]);
    assert.deepEqual(plan.placesOf('constructor'), []);
  });

  it('does not change before the moment that it names', () => {
    let moved = 0;
    fc.assert(
      fc.property(anyRoom, fc.array(fc.integer({ min: -40 * 24, max: 40 * 24 }), { maxLength: 3 }), fc.double({ min: 0, max: 1, noNaN: true }), (files, hours, part) => {
        const plan = planAt(moment(now).instant, [...files].map(([path, text]) => ({ path, file: { text } })));
        for (const by of [...hours, 0]) {
          plan.setNow(plan.now.instant + by * 3_600_000);
          const next = plan.nextChange;
          const { instant, day } = plan.now;
          assert.ok(next > instant, 'it is later than now');
          assert.ok(plan.records.zone.dayOf(next - 1) === day, 'it is no later than the next day');
          const before = withoutNow(shownByAll(plan));
          for (const at of [next - 1, instant + Math.floor(part * (next - 1 - instant))]) {
            plan.setNow(at);
            assert.equal(withoutNow(shownByAll(plan)), before);
            moved++;
          }
        }
      }),
      { numRuns: 60 },
    );
    assert.ok(moved > 100);
  });
});

/** That a row is later than now is told with now, to the minute. */
function withoutNow(shown: string): string {
  return shown.replaceAll(/("time-future","args":\["[^"]*"),"[^"]*"/g, '$1');
}

describe('the order', () => {
  it('of the files in a batch, and of batches, says nothing', () => {
    fc.assert(
      fc.property(
        anyRoom.chain((files) => fc.tuple(fc.constant([...files]), fc.shuffledSubarray([...files], { minLength: files.size }), fc.integer({ min: 1, max: 5 }))),
        ([files, shuffled, size]) => {
          const changes = (list: readonly (readonly [string, string])[]): readonly FileChange[] => list.map(([path, text]) => ({ path, file: { text } }));
          const whole = planAt(moment(now).instant, changes(files));
          const piecewise = planAt(moment(now).instant, []);
          for (let i = 0; i < shuffled.length; i += size) piecewise.apply(changes(shuffled.slice(i, i + size)));
          assert.equal(shownByAll(piecewise), shownByAll(whole));
          for (const path of whole.paths()) assert.equal(fixesOf(piecewise, path), fixesOf(whole, path));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('of the rows in registers, readings and jobs says nothing of a real room', async () => {
    const texts = textsOf(await sampleRoom('three-rooms'));
    const unordered = ['clutches.csv', 'pairs.csv', 'tanks.csv', 'rooms.csv', 'fish.csv', 'species.csv', 'orders.csv', 'maintenance.csv'];
    const inOrder = factsOf(texts);
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), (numbers) => {
        const shuffled = Object.fromEntries(Object.entries(texts).map(([path, text]) => [path, unordered.includes(path) ? shuffle(text, numbers) : text]));
        assert.deepEqual(factsOf(shuffled), inOrder);
      }),
      { numRuns: 5 },
    );
  });
});

/** Rows below the header in another order; the sample's cells hold no line ends. */
function shuffle(text: string, numbers: Iterator<number>): string {
  const end = text.includes('\r\n') ? '\r\n' : '\n';
  const [header = '', ...rows] = text.trimEnd().split(end);
  const keyed = rows.map((row) => ({ row, key: numbers.next().value as number }));
  return [header, ...keyed.sort((a, b) => a.key - b.key).map(({ row }) => row)].join(end) + end;
}

/** What a room comes to, whatever stands where: the filled rows, and the problems by the row they are told of. */
function factsOf(texts: Readonly<Record<string, string>>): readonly string[] {
  const plan = planAt(samplesNow.instant, Object.entries(texts).map(([path, text]) => ({ path, file: { text } })));
  fillAll(plan);
  const lines = plan.paths().flatMap((path) => (plan.records.file(path)?.doc.text() ?? '').split(/\r?\n/).map((line) => `${path}: ${line}`));
  const problems = plan.paths().flatMap((path) =>
    plan.problems(path).map(({ code, message, span, related }) => {
      const { doc } = plan.records.file(path) as NonNullable<ReturnType<Plan['records']['file']>>;
      return JSON.stringify([path, code, message, doc.text().slice(span.start, span.end), related.map((other) => JSON.stringify([other.file, other.message])).sort()]);
    }),
  );
  return [...lines, ...problems].sort();
}

describe('the sample of three rooms', () => {
  // Reckoned by hand and by an independent script from the sample's rows, by the rules of the format.
  const facts: Readonly<Record<string, string>> = {
    'KR1-1': 'age_days 190, stage ended, stage_basis, tanks_now, alive 0, survival_pct 54.4, spawn_interval_days',
    'KR1-3': 'age_days 198, stage ended, stage_basis, tanks_now, alive 0, survival_pct 45.5, spawn_interval_days 28',
    'KR1-7': 'age_days 31, stage ended, stage_basis, tanks_now, alive 0, survival_pct 0.0, spawn_interval_days 44',
    'KR1-8': 'age_days 155, stage juvenile, stage_basis expected, tanks_now T14, alive 31, survival_pct 42.0, spawn_interval_days 34',
    'KR1-10': 'age_days 75, stage juvenile, stage_basis expected, tanks_now T16 T18, alive 51, survival_pct 48.6, spawn_interval_days 42',
    'KR2-3': 'age_days 184, stage sale-size, stage_basis expected, tanks_now T27, alive 9, survival_pct 53.4, spawn_interval_days 40',
    'KR2-7': 'age_days 39, stage juvenile, stage_basis expected, tanks_now T02, alive ~60, survival_pct 58.8, spawn_interval_days 35',
    'KR2-8': 'age_days 1, stage egg, stage_basis recorded, tanks_now T02, alive, survival_pct, spawn_interval_days 38',
    'KR3-3': 'age_days 17, stage egg, stage_basis unanswered, tanks_now T03, alive, survival_pct, spawn_interval_days 43',
    'CO1-3': 'age_days 116, stage juvenile, stage_basis expected, tanks_now T21, alive 29, survival_pct 36.3, spawn_interval_days 37',
    'AN1-4': 'age_days 104, stage sale-size, stage_basis expected, tanks_now T28, alive ~11, survival_pct 36.2, spawn_interval_days 30',
    'AN1-7': 'age_days 5, stage ended, stage_basis, tanks_now T10, alive, survival_pct, spawn_interval_days 24',
    'GA1-4': 'age_days 59, stage juvenile, stage_basis expected, tanks_now T51, alive 30, survival_pct 125.0, spawn_interval_days 70',
    'GA2-1': 'age_days 88, stage juvenile, stage_basis expected, tanks_now T42, alive 20, survival_pct 83.3, spawn_interval_days',
    'YL1-1': 'age_days 147, stage ended, stage_basis, tanks_now, alive 0, survival_pct 72.7, spawn_interval_days',
    'YL2-3': 'age_days 23, stage wriggler, stage_basis recorded, tanks_now T47, alive 24, survival_pct 100.0, spawn_interval_days 63',
    'YL1-4': 'age_days 14, stage holding, stage_basis recorded, tanks_now T37, alive, survival_pct, spawn_interval_days 106',
    'GU1-3': 'age_days 127, stage sale-size, stage_basis expected, tanks_now T27, alive 12, survival_pct 89.5, spawn_interval_days 58',
    'GU2-5': 'age_days 2, stage free-swimming, stage_basis recorded, tanks_now T49, alive 24, survival_pct 100.0, spawn_interval_days 27',
    'GX-1': 'age_days 132, stage ended, stage_basis, tanks_now, alive 0, survival_pct 32.5, spawn_interval_days',
    'BE1-5': 'age_days 19, stage free-swimming, stage_basis recorded, tanks_now T08, alive, survival_pct, spawn_interval_days 36',
    'CB1-5': 'age_days 3, stage wriggler, stage_basis expected, tanks_now T32, alive, survival_pct, spawn_interval_days 28',
    'CO2-1': 'age_days 175, stage ended, stage_basis, tanks_now, alive 0, survival_pct 73.9, spawn_interval_days',
  };
  // KR2-8 and the like: 72 h × (26 − 15) / (26.4 − 15) and what five broods taught; to the minute by the script, ± 3 min.
  const hatches: Readonly<Record<string, string>> = {
    'KR2-8': '2026-06-12T18:16',
    'AN1-8': '2026-06-10T21:59',
    'CB1-5': '2026-06-08T23:07',
    'KR3-3': '2026-05-27T18:38',
    'BE1-3': '2026-03-17T08:19',
    'KR1-8': '2026-01-09T16:55',
    'AN1-7': '~2026-05-16T06:45',
    'CO2-1': '~2025-11-23T06:45',
    'CO1-3': '2026-02-17T18:50',
  };
  const sales: Readonly<Record<string, string>> = {
    'KR1-8': '2026-06-11', 'KR2-3': '2026-05-09', 'KR1-10': '2026-08-30', 'AN1-4': '2026-05-09', 'GU1-3': '2026-05-06', 'GA2-1': '2026-06-29', 'CO1-3': '2026-07-28', 'KR3-3': '',
  };
  const pairs: Readonly<Record<string, string>> = {
    KR1: '11 2026-05-05 39.0 2026-06-03 2026-06-12 2026-06-23',
    KR2: '8 2026-06-09 35.0 2026-07-06 2026-07-15 2026-07-27',
    KR3: '3 2026-05-24 41.5 2026-06-19 2026-07-02 2026-07-21',
    CO1: '6 2026-06-04 36.0 2026-06-30 2026-07-09 2026-07-22',
    AN1: '8 2026-06-08 24.0 2026-06-27 2026-07-03 2026-07-12',
    AN2: '4 2026-04-23 24.0 2026-05-10 2026-05-18 2026-05-28',
    BE1: '5 2026-05-22 31.5 2026-06-13 2026-06-22 2026-07-04',
    BE2: '4 2025-11-08 28.0',
    GA2: '6 2026-05-29 15.0 2026-06-09 2026-06-13 2026-06-19',
    YL2: '3 2026-05-18 62.5 2026-06-27 2026-07-17 2026-08-16',
    GU2: '5 2026-06-08 28.0 2026-06-29 2026-07-07 2026-07-18',
    CB1: '5 2026-06-07 87.5',
    GA1: '5 2026-06-01 70.0',
    YL1: '4 2026-05-27 106.0',
    GU1: '5 2026-06-05 59.5',
    CO2: '3 2026-05-08 84.5',
  };
  let plan: Plan;
  before(async () => {
    plan = fillAll(await sampleRoom('three-rooms'));
  });

  for (const [id, wanted] of Object.entries(facts)) {
    it(`counts ${id}`, () => {
      assert.equal(cells(plan, 'clutches.csv', id, 'age_days', 'stage', 'stage_basis', 'tanks_now', 'alive', 'survival_pct', 'spawn_interval_days').join(', '), wanted);
    });
  }

  for (const [id, wanted] of Object.entries(hatches)) {
    it(`expects or knows the hatch of ${id}`, () => {
      const found = cell(plan, 'clutches.csv', id, 'hatch_expected');
      const zone = zoneOf('Europe/Berlin') ?? berlin;
      const [a, b] = [found, wanted].map((text) => parseMoment(text, zone)?.instant ?? Number.NaN) as [number, number];
      assert.ok(Math.abs(a - b) <= 180_000 && found.startsWith('~') === wanted.startsWith('~'), `${found}, reckoned ${wanted}`);
    });
  }

  it('expects sale sizes', () => {
    assert.deepEqual(Object.fromEntries(Object.keys(sales).map((id) => [id, cell(plan, 'clutches.csv', id, 'sale_expected')])), sales);
  });

  it('expects spawns', () => {
    const headers = ['clutches', 'last_spawned', 'interval_median_days', 'next_spawn_from', 'next_spawn_expected', 'next_spawn_to'];
    assert.deepEqual(Object.fromEntries(Object.keys(pairs).map((id) => [id, headers.map((header) => cell(plan, 'pairs.csv', id, header)).join(' ').trimEnd()])), pairs);
  });

  it('has the stages that were reckoned, 86 in all', () => {
    const { doc } = plan.records.file('clutches.csv') as NonNullable<ReturnType<Plan['records']['file']>>;
    const ids = Array.from({ length: doc.rowCount - 1 }, (_, i) => doc.value(i + 1, 0)).filter((id) => id !== '');
    const counted = (header: string): Readonly<Record<string, number>> => {
      const counts: Record<string, number> = {};
      for (const id of ids) {
        const value = cell(plan, 'clutches.csv', id, header);
        counts[value] = (counts[value] ?? 0) + 1;
      }
      return counts;
    };
    assert.equal(ids.length, 86);
    assert.deepEqual(counted('stage'), { ended: 50, juvenile: 15, 'sale-size': 6, 'free-swimming': 6, egg: 5, wriggler: 3, holding: 1 });
    assert.deepEqual(counted('stage_basis'), { '': 50, expected: 22, recorded: 13, unanswered: 1 });
    assert.equal(ids.filter((id) => cell(plan, 'clutches.csv', id, 'spawn_interval_days') !== '').length, 69);
  });

  it('shows what its README says, and nothing else', () => {
    const told = plan.paths().flatMap((path) => plan.problems(path).map(({ file, code, span }) => `${file} ${code} ${plan.records.file(file)?.doc.text().slice(span.start, span.end) ?? ''}`));
    assert.deepEqual(told.sort(), [
      'clutches.csv count-doubtful 24',
      'clutches.csv milestone-differs 2026-02-19T18:50',
      'clutches.csv milestone-missing BE1-3',
      'clutches.csv older-fry KR2-7',
      'clutches.csv overdue CB1-5',
      'clutches.csv overdue KR3-3',
      'pairs.csv spawn-late AN2',
      'tanks.csv water-range T28',
    ]);
  });
});

describe('the messy sample', () => {
  it('shows at each line what its README says', async () => {
    const plan = await sampleRoom('messy');
    const listed = [...readFileSync('samples/README.md', 'utf8').matchAll(/^\| `([\w/.-]+\.csv)`( \d+)? \| `([a-z-]+)` \|/gm)].map(([, file = '', line = '', code = '']) => `${file}${line} ${code}`);
    const told = new Set(
      plan.paths().flatMap((path) =>
        plan.problems(path).flatMap(({ file, code, span }) => [`${file} ${code}`, `${file} ${lineOf(plan.records.file(file)?.doc.text() ?? '', span.start)} ${code}`]),
      ),
    );
    assert.ok(listed.length > 60);
    assert.deepEqual(listed.filter((line) => !told.has(line)), []);
  });
});

function lineOf(text: string, offset: number): number {
  return text.slice(0, offset).split(/\r\n|\r|\n/).length;
}
