import assert from 'node:assert/strict';
import { outlineOf } from '../../../src/language/outline';
import { roomOf } from '../../support/room';
import type { RoomFiles } from '../../support/room';

const now = '2026-06-10T09:00';

/** `K1 (kribensis · egg) <K1,…>` for each row, with the text of its span. */
function shown(files: RoomFiles, path: string): readonly string[] | undefined {
  const plan = roomOf(files, now);
  const text = plan.records.file(path)?.doc.text() ?? '';
  return outlineOf(plan, path)?.rows.map(({ name, detail, span }) => `${name} (${detail}) <${text.slice(span.start, span.end)}>`);
}

describe('the outline', () => {
  it('of clutches shows species and stage beside the name', () => {
    const files = {
      'pairs.csv': 'pair,species,tank\nP1,angelfish,T1\n',
      'clutches.csv': 'tank,clutch,pair,species,spawned,ended\nT1,K1,,kribensis,2026-06-09,\nT1,K2,P1,,2026-01-01,2026-02-01\nT1,K3,,,2026-06-09,\nT1,K4,,kribensis,soon,\n',
    };
    assert.deepEqual(shown(files, 'clutches.csv'), ['K1 (kribensis · egg) <T1,K1,,kribensis,2026-06-09,>', 'K2 (angelfish · ended) <T1,K2,P1,,2026-01-01,2026-02-01>', 'K3 () <T1,K3,,,2026-06-09,>', 'K4 (kribensis) <T1,K4,,kribensis,soon,>']);
  });

  it('of a log shows time and event of each row, and of what', () => {
    const files = {
      'log.csv': 'time,clutch,event,tank,count\n2026-06-01,K1,counted,T1,~40\n~2026-06-02 08:00,K1,hatched,,\n',
      'readings.csv': 'time,room,tank,event,temp_c\n2026-06-01,front,,,25\n',
    };
    assert.deepEqual(shown(files, 'log.csv'), ['2026-06-01 · counted (K1 · T1 · ~40) <2026-06-01,K1,counted,T1,~40>', '~2026-06-02 08:00 · hatched (K1) <~2026-06-02 08:00,K1,hatched,,>']);
    assert.deepEqual(shown(files, 'readings.csv'), ['2026-06-01 (front) <2026-06-01,front,,,25>']);
  });

  it('of other registers shows what tells their rows apart', () => {
    const files = { 'tanks.csv': 'tank;room;use\nT1;front;breeding\n', 'prices.csv': 'species,min_mm,unit_price\nkribensis,25,4.50\n', 'orders.csv': 'order,buyer,species,quantity,due\nO1,"Shop, harbour",kribensis,3,2026-07-01\n' };
    assert.deepEqual(shown(files, 'tanks.csv'), ['T1 (front · breeding) <T1;front;breeding>']);
    assert.deepEqual(shown(files, 'prices.csv'), ['kribensis (25) <kribensis,25,4.50>']);
    assert.deepEqual(shown(files, 'orders.csv'), ['O1 (Shop, harbour · kribensis · 2026-07-01) <O1,"Shop, harbour",kribensis,3,2026-07-01>']);
  });

  it('keeps a name over several lines on one, and leaves out rows without any and blank lines', () => {
    assert.deepEqual(shown({ 'rooms.csv': 'room,name\nfront,"Front\n room"\n,nameless\n\nback,\n' }, 'rooms.csv'), ['front (Front room) <front,"Front\n room">', 'back () <back,>']);
  });

  it('shows of two rows with one name the stage of the one that holds', () => {
    assert.deepEqual(shown({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09\nK1,kribensis,T1,2026-01-09\n' }, 'clutches.csv')?.map((row) => row.split(' <')[0]), ['K1 (kribensis · egg)', 'K1 (kribensis)']);
  });

  it('of a file that is not there or can not be read is none', () => {
    assert.equal(shown({ 'rooms.csv': 'room\n"front\n' }, 'rooms.csv'), undefined);
    assert.equal(shown({ 'rooms.csv': '' }, 'rooms.csv'), undefined);
    assert.equal(shown({}, 'rooms.csv'), undefined);
    assert.deepEqual(shown({ 'rooms.csv': 'room\n' }, 'rooms.csv'), []);
  });

  it('of a long sheet shows the last rows and says how many there are', () => {
    const rows = Array.from({ length: 12_345 }, (_, i) => `T${i},front`);
    const outline = outlineOf(roomOf({ 'tanks.csv': ['tank,room', ...rows] }, now), 'tanks.csv');
    assert.deepEqual([outline?.total, outline?.left, outline?.rows.length], [12_345, 7_345, 5_000]);
    assert.deepEqual([outline?.rows[0]?.name, outline?.rows.at(-1)?.name], ['T7345', 'T12344']);
  });
});
