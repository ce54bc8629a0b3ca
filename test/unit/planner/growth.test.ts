import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatDay, parseDay } from '../../../src/base/moment';
import { lengthAt } from '../../../src/domain/growth';
import { cell, column, filledRoom, problemsOf, roomOf, why } from '../../support/room';
import type { RoomFiles } from '../../support/room';

/** Easy to reckon with: K is ln 2 / 100 a day, so that after 100 days they are half grown. */
const species = ['species,care,hatch_h,sale_d,hatch_mm,sale_mm,max_mm', 'cave-fish,cave,72,100,4,42,80', 'no-length,cave,72,100,,,'];
const now = '2026-06-10T09:00';
const usual = { hatchMm: 4, maxMm: 80, perDay: Math.LN2 / 100 };

/** Length in mm after so many days of a brood that grows so many times as fast as usual. */
function grown(factor: number, days: number): number {
  return lengthAt({ ...usual, perDay: usual.perDay * factor }, days);
}

function day(start: string, days: number): string {
  return formatDay((parseDay(start) as number) + days);
}

function room(clutches: readonly string[], log: readonly string[], more: RoomFiles = {}): RoomFiles {
  return { 'fishroom.json': '{"timezone": "UTC"}', 'species.csv': species, 'clutches.csv': ['clutch,pair,species,tank,spawned,hatched,ended', ...clutches], 'log.csv': ['clutch,time,event,tank,count,length_mm', ...log], ...more };
}

function sales(files: RoomFiles): readonly string[] {
  return column(filledRoom(files, now), 'clutches.csv', 'sale_expected');
}

describe('sale_expected learned from measured lengths', () => {
  const hatched = '2026-03-01';
  /** The day of sale after a hatch on 1 March, from the mean of ln(K / usual K) with the prior's weight of four. */
  const expected = (...factors: readonly number[]): string => day(hatched, Math.round(100 / Math.exp(factors.reduce((sum, factor) => sum + Math.log(factor), 0) / (4 + factors.length))));

  it('moves with the brood’s own last measurement', () => {
    const log = [`K1,2026-03-31,measured,,,${grown(0.5, 30)}`, `K1,2026-04-30,measured,,,${grown(1.4, 60)}`];
    assert.deepEqual(sales(room(['K1,,cave-fish,A,2026-02-26,2026-03-01,', 'K2,,cave-fish,A,2026-02-26,2026-03-01,'], log)), [expected(1.4), expected()]);
    assert.notEqual(expected(1.4), expected());
  });

  it('moves with the last measurement of each earlier brood of the pair, not of a later one, one of the same day, or of another pair', () => {
    const clutches = ['K1,P1,cave-fish,A,2025-05-01,2025-05-04,2025-12-01', 'K2,P1,cave-fish,A,2026-02-26,2026-03-01,', 'K3,P1,cave-fish,A,2026-04-26,2026-05-01,', 'K4,P2,cave-fish,A,2026-02-26,2026-03-01,', 'K5,P1,cave-fish,A,2026-02-26,2026-03-01,'];
    const log = [`K1,2025-07-03,measured,,,${grown(1.5, 60)}`, `K2,2026-04-10,measured,,,${grown(1.3, 40)}`, `K3,2026-05-31,measured,,,${grown(0.6, 30)}`];
    assert.deepEqual(sales(room(clutches, log)).slice(1), [expected(1.5, 1.3), day('2026-05-01', Math.round(100 / Math.exp((Math.log(1.5) + Math.log(1.3) + Math.log(0.6)) / 7))), expected(), expected(1.5)]);
  });

  it('learns from others only what is recorded exactly, of itself also after an expected hatch', () => {
    const clutches = ['K1,P1,cave-fish,A,2025-05-01,~2025-05-04,2025-12-01', 'K2,P1,cave-fish,A,2025-06-01,,2025-12-01', 'K3,P1,cave-fish,A,2025-07-01,2025-07-04,2025-12-01', 'K4,P1,cave-fish,A,2026-02-26,2026-03-01,'];
    const log = [`K1,2025-07-03,measured,,,${grown(1.5, 60)}`, `K2,2025-08-03,measured,,,${grown(1.5, 60)}`, `K3,~2025-09-02,measured,,,${grown(1.5, 60)}`];
    const all = sales(room(clutches, log));
    assert.equal(all[3], expected());
    const factor = 100 / ((parseDay(all[1] as string) as number) - (parseDay('2025-06-04') as number));
    assert.ok(Math.abs(factor - 1.5 ** (1 / 5)) < 0.01, String(factor));
  });

  it('does not learn from a row that is still to come', () => {
    assert.deepEqual(sales(room(['K1,,cave-fish,A,2026-02-26,2026-03-01,'], [`K1,2026-06-11,measured,,,${grown(1.5, 60)}`])), [expected()]);
  });

  it('takes lengths in inches', () => {
    const log = ['clutch,time,event,length_in', `K1,2026-04-30,measured,${grown(1.4, 60) / 25.4}`];
    assert.deepEqual(sales({ ...room(['K1,,cave-fish,A,2026-02-26,2026-03-01,'], []), 'log.csv': log }), [expected(1.4)]);
  });

  it('is as far as the species says where it has no lengths', () => {
    const files = room(['K1,,no-length,A,2026-02-26,2026-03-01,'], ['K1,2026-04-30,measured,,,30']);
    assert.deepEqual(sales(files), [expected()]);
    assert.deepEqual(why(roomOf(files, now), 'clutches.csv', 'K1', 'sale_expected').notes, [
      'Nothing learned yet from this pair. With 80 % it falls within the window.',
      'The species lacks hatch_mm, sale_mm or max_mm, or they are not in that order, so measured lengths can not be used.',
    ]);
  });

  it('narrows the window with every brood that grows alike, and keeps its ends in order', () => {
    const widths = [0, 1, 3, 8].map((n) => {
      const clutches = [...Array.from({ length: n }, (_, i) => `K${i},P1,cave-fish,A,2025-0${i + 1}-01,2025-0${i + 1}-04,2025-12-31`), 'Z,P1,cave-fish,A,2026-02-26,2026-03-01,'];
      const log = Array.from({ length: n }, (_, i) => `K${i},${day(`2025-0${i + 1}-04`, 60)},measured,,,${grown(1.02, 60)}`);
      const window = why(roomOf(room(clutches, log), now), 'clutches.csv', 'Z', 'sale_expected').window ?? '';
      const [from, to, middle] = [...window.matchAll(/\d{4}-\d\d-\d\d/g)].map(([text]) => parseDay(text) as number) as [number, number, number];
      assert.ok(from <= middle && middle <= to, window);
      assert.match(window, new RegExp(`from ${n}$`));
      return to - from;
    });
    assert.deepEqual([...widths].sort((a, b) => b - a), widths);
    assert.equal(new Set(widths).size, 4);
  });

  it('is never before the hatch, its window never crosses, and the order of rows and files changes nothing', () => {
    const anyRow = fc.record({ clutch: fc.constantFrom('K1', 'K2', 'K3'), days: fc.integer({ min: -5, max: 90 }), mm: fc.double({ min: 0.5, max: 100, noNaN: true }), tank: fc.constantFrom('', 'A', 'B'), count: fc.constantFrom('', '5', '20') });
    const starts: Readonly<Record<string, string>> = { K1: '2025-06-04', K2: '2026-01-04', K3: '2026-03-01' };
    fc.assert(
      fc.property(fc.uniqueArray(anyRow, { selector: ({ clutch, days }) => `${clutch} ${days}`, maxLength: 8 }), fc.array(fc.nat(99), { minLength: 8, maxLength: 8 }), (rows, keys) => {
        const clutches = ['K1,P1,cave-fish,A,2025-06-01,2025-06-04,', 'K2,P1,cave-fish,A,2026-01-01,2026-01-04,', 'K3,P1,cave-fish,A,2026-02-26,2026-03-01,'];
        const lines = rows.map(({ clutch, days, mm, tank, count }) => `${clutch},${day(starts[clutch] as string, days)},measured,${tank},${count},${mm}`);
        const files = room(clutches, lines);
        const plan = roomOf(files, now);
        for (const [clutch, start] of Object.entries(starts)) {
          const [from, to, middle] = [...(why(plan, 'clutches.csv', clutch, 'sale_expected').window ?? '').matchAll(/\d{4}-\d\d-\d\d/g)].map(([text]) => text) as [string, string, string];
          assert.ok(start <= from && from <= middle && middle <= to, `${start} ${from} ${middle} ${to}`);
        }
        const shuffled = lines.map((line, i) => ({ line, key: keys[i] as number })).sort((a, b) => a.key - b.key).map(({ line }) => line);
        const own = shuffled.filter((line) => line.startsWith('K3')).map((line) => line.slice(3));
        const other = { ...room([...clutches].reverse(), shuffled.filter((line) => !line.startsWith('K3'))), 'clutches/K3.csv': ['time,event,tank,count,length_mm', ...own] };
        assert.deepEqual([...sales(other)].reverse(), sales(files));
      }),
      { numRuns: 60 },
    );
  });
});

describe('the explanation of sale_expected', () => {
  const clutches = ['K1,P1,cave-fish,A,2026-01-01,2026-01-04,', 'K2,P1,cave-fish,A,2026-02-26,2026-03-01,'];

  it('tells both K, the measured rows, and how much comes from where', () => {
    const log = ['K1,2026-03-05,measured,A,,31', 'K2,2026-04-29,measured,A,,30', 'K2,2026-04-30,measured,B,12,34'];
    const told = why(roomOf(room(clutches, log), now), 'clutches.csv', 'K2', 'sale_expected');
    // By hand: the fish of neither tank are known, and only one row tells how many were measured, so both count alike.
    assert.deepEqual(told, {
      value: '2026-06-06',
      formula:
        'hatched + sale_d × 24 hours / learned factor: the day on which they reach sale_mm, when their length is max_mm − (max_mm − hatch_mm) × e^(−K × days) (von Bertalanffy) with K = usual K × learned factor',
      notes: ['How fast they grow is taken to 67 % from the species, to 17 % from their own measurement and to 17 % from earlier broods of the pair (1 of them measured). With 80 % it falls within the window.'],
      inputs: [
        'hatched of K2: 2026-03-01 <clutches.csv: 2026-03-01>',
        'measured on 2026-04-29: 30 mm A <log.csv: 30>',
        'measured on 2026-04-30: 34 mm B × 12 <log.csv: 34>',
        'mean length 59.5 days after the birth: 32 mm',
      ],
      constants: [
        'sale_d: 100 d (your species.csv) <species.csv: 100>',
        'hatch_mm: 4 mm (your species.csv) <species.csv: 4>',
        'sale_mm: 42 mm (your species.csv) <species.csv: 42>',
        'max_mm: 80 mm (your species.csv) <species.csv: 80>',
        'usual K: 0.00693 /d (the K with which sale_mm is reached in sale_d days)',
        'own K: 0.00772 /d (the K with which they reached the length that was measured)',
        'learned factor: 1.0274 (learned from 2 records of the pair, drawn towards the usual value while they are few (Gelman et al., Bayesian Data Analysis, section 3.3))',
      ],
      // By hand: 90 % of t(6) 1.439756, so 100 days / e^(0.027 ± 0.201) are 79.6, 97.3 and 119.0.
      window: '2026-05-20 to 2026-06-28, 2026-06-06 expected, from 2',
    });
  });

  it('tells the curve through measurements of four days and how fast they grew last', () => {
    const days = [20, 40, 60, 80];
    const log = days.map((after) => `K2,${day('2026-03-01', after)},measured,,,${grown(1.1, after).toFixed(2)}`);
    const { notes } = why(roomOf(room(clutches, log), now), 'clutches.csv', 'K2', 'sale_expected');
    const rate = (100 * Math.log(Number(grown(1.1, 80).toFixed(2)) / Number(grown(1.1, 60).toFixed(2)))) / 20;
    const [curve, ...others] = notes.slice(1);
    const [n, perDay, , full] = [...(curve ?? '').matchAll(/\d+(\.\d+)?/g)].map(([number]) => Number(number)) as [number, number, number, number];
    assert.match(curve ?? '', /^A curve through all of its 4 measurements has K [\d.]+ a day \(± [\d.]+\) and a full-grown length of [\d.]+ mm \(± [\d.]+ mm\)\.$/);
    assert.ok(n === 4 && Math.abs(perDay / (usual.perDay * 1.1) - 1) < 0.01 && Math.abs(full - 80) < 0.5, curve);
    assert.deepEqual(others, [`Between the last two measurements they grew ${rate.toFixed(2)} % a day in length (specific growth rate).`]);
  });

  it('says that they are at sale size already, or still are not', () => {
    const already = why(roomOf(room(clutches, ['K2,2026-04-30,measured,,,43']), now), 'clutches.csv', 'K2', 'sale_expected');
    assert.equal(already.notes[1], 'They measured 43 mm on 2026-04-30, so they are at sale size already: one measurement moves the expectation only so far.');
    const late = why(roomOf(room(clutches, ['K1,2026-06-09,measured,,,41']), now), 'clutches.csv', 'K1', 'sale_expected');
    assert.equal(late.notes[1], 'They still measured only 41 mm on 2026-06-09, so they reach sale size later than this: one measurement moves the expectation only so far.');
  });

  it('says that the hatch it counts from is only expected', () => {
    const { notes } = why(roomOf(room(['K1,,cave-fish,A,2026-02-26,,'], ['K1,2026-04-30,measured,,,30']), now), 'clutches.csv', 'K1', 'sale_expected');
    assert.equal(notes[1], 'No moment of hatched is recorded, so the expected one is taken, and later broods learn nothing from this one.');
  });
});

describe('outside-model of a measured length', () => {
  const clutches = ['K1,,cave-fish,A,2026-02-26,2026-03-01,', 'K2,,cave-fish,A,2026-02-26,2026-03-01,2026-05-30', 'K3,,no-length,A,2026-02-26,2026-03-01,'];

  it('stands at the length that a growing fish can not have, while the brood is open', () => {
    const log = ['K1,2026-04-30,measured,,,3.2', 'K1,2026-05-01,measured,,,40', 'K1,2026-05-02,measured,,,80', 'K2,2026-05-02,measured,,,90', 'K3,2026-05-02,measured,,,900', 'K1,2026-05-03,counted,,5,90'];
    const says = (mm: string): string => `${mm} mm is not between the length at hatching (4 mm) and the full-grown length (80 mm) of cave-fish, so nothing is learned from it. Was it written in another unit?`;
    assert.deepEqual(problemsOf(roomOf(room(clutches, log), now), 'outside-model'), [
      { at: 'log.csv: 3.2', says: says('3.2'), related: [] },
      { at: 'log.csv: 80', says: says('80'), related: [] },
    ]);
  });

  it('stands at inches too, and is told in millimetres', () => {
    const files = { ...room(clutches, []), 'log.csv': ['clutch,time,event,length_in', 'K1,2026-04-30,measured,4'] };
    assert.deepEqual(problemsOf(roomOf(files, now), 'outside-model').map(({ at, says }) => [at, says.slice(0, 8)]), [['log.csv: 4', '101.6 mm']]);
  });
});

describe('a measured row typed into an earlier brood', () => {
  it('moves the later broods of the pair at once', () => {
    const clutches = ['K1,P1,cave-fish,A,2026-01-01,2026-01-04,', 'K2,P1,cave-fish,A,2026-02-26,2026-03-01,', 'K3,P1,cave-fish,A,2025-06-01,2025-06-04,2025-12-01'];
    const before = room(clutches, []);
    const after = room(clutches, [`K1,2026-03-05,measured,,,${grown(1.5, 60)}`]);
    const plan = filledRoom(before, now);
    const touched = plan.apply([{ path: 'log.csv', file: { text: `${(after['log.csv'] as readonly string[]).join('\n')}\n` } }]);
    assert.ok(touched.has('clutches.csv'));
    const moved = plan.fills('clutches.csv', {}).changes.filter(({ header }) => header === 'sale_expected');
    const fresh = filledRoom(after, now);
    assert.deepEqual(moved.map(({ after: value }) => value), ['K1', 'K2'].map((id) => cell(fresh, 'clutches.csv', id, 'sale_expected')));
  });
});
