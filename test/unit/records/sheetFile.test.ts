import assert from 'node:assert/strict';
import type { SheetFile } from '../../../src/records/sheetFile';
import { roomOf } from '../../support/room';

const now = '2026-06-10T09:00';

function clutchesOf(plan: ReturnType<typeof roomOf>): SheetFile {
  const file = plan.records.file('clutches.csv');
  assert.ok(file);
  return file;
}

describe('a sheet of clutches', () => {
  const rows = Array.from({ length: 200 }, (_, i) => `K${i},kribensis,T1,2026-05-01,${i % 3 === 0 ? '40' : ''},${i % 2 === 0 ? 'free-swimming' : 'egg'}\n`).join('');
  const text = `clutch,species,tank,spawned,age_days,stage\n${rows}`;

  it('knows the rows with a wrong computed cell from the top down, whatever was typed', () => {
    const plan = roomOf({ 'clutches.csv': text }, now);
    const file = clutchesOf(plan);
    const check = (): void => {
      const all = [...file.rows()].filter((row) => file.staleOf(row) !== 0);
      assert.ok(all.length > 100 && all.length < file.rowCount);
      assert.deepEqual(file.staleRows.map((row) => row.value(0)), all.map((row) => row.value(0)));
    };
    check();
    const above = file.doc.span(1, 0).start;
    plan.apply([{ path: 'clutches.csv', edits: [{ start: above, end: above, text: 'N1,kribensis,T1,2026-06-01,9,egg\nN2,kribensis,T1,2026-06-01,1,egg\n' }] }]);
    check();
    const last = file.doc.rowSpan(150);
    plan.apply([{ path: 'clutches.csv', edits: [{ start: last.start, end: last.end, text: '' }] }]);
    check();
  });

  it('counts a computed column’s cells with something in them; a pair of quotation marks is nothing', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned,age_days,stage\nA,kribensis,T1,2026-06-01,9,egg\nB,kribensis,T1,2026-06-01,"",egg\nC,kribensis,T1,2026-06-01\n' }, now);
    const file = clutchesOf(plan);
    assert.deepEqual([file.filledCount(0), file.filledCount(1)], [1, 2]);
    const { end } = file.doc.span(2, 4);
    plan.apply([{ path: 'clutches.csv', edits: [{ start: end - 1, end: end - 1, text: '9' }] }]);
    assert.deepEqual([file.filledCount(0), file.filledCount(1)], [2, 2]);
  });
});
