import assert from 'node:assert/strict';
import fc from 'fast-check';
import { textOf } from '../../../src/base/messages';
import { applyEdits } from '../../../src/base/textEdit';
import { CsvDocument } from '../../../src/csv/document';
import { Draft } from '../../../src/planner/draft';
import type { Row } from '../../../src/records/row';
import { schemaNamed } from '../../../src/schema/catalog';
import { roomOf } from '../../support/room';

const own = schemaNamed('clutch-log').fields.filter(({ computed }) => !computed).map(({ name }) => name);
const cell = fc.constantFrom('', '', 'a', 'a "b"', 'x,y;z', 'two\nlines', ' 9 ');
const others = own.filter((name) => name !== 'time' && name !== 'event' && name !== 'length_in');

/** A log with some of the columns, some of which the keeper invented, in any order and any way of writing, the last line with or without its end. */
const anyLog = fc
  .record({
    headers: fc.tuple(fc.subarray(others), fc.subarray(['mine', 'yours', 'stage'])).chain(([some, foreign]) => fc.shuffledSubarray(['time', 'event', ...some, ...foreign], { minLength: 2 + some.length + foreign.length })),
    delimiter: fc.constantFrom(',', ';'),
    lineEnd: fc.constantFrom('\n', '\r\n'),
    bom: fc.boolean(),
    isEnded: fc.boolean(),
  })
  .chain((about) => fc.array(fc.array(cell, { minLength: about.headers.length, maxLength: about.headers.length }), { maxLength: 4 }).map((rows) => ({ ...about, rows })));
const cells = fc.dictionary(fc.constantFrom(...others), fc.constantFrom('', 'n1', 'n "2"', 'n;3,'));

describe('a draft', () => {
  it('writes rows and cells at any columns, adds those that are missing, and leaves every other cell as it is', () => {
    let added = 0;
    fc.assert(
      fc.property(anyLog, fc.array(cells, { maxLength: 3 }), fc.array(fc.tuple(fc.nat(3), cells), { maxLength: 3 }), ({ headers, delimiter, lineEnd, bom, isEnded, rows }, newRows, set) => {
        const quoted = (text: string): string => (/["\n,;]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
        const old = rows.map((row, i) => row.map((text, column) => (headers[column] === 'time' ? `2026-05-0${i + 1}` : headers[column] === 'event' ? 'checked' : text)));
        const text = (bom ? '\uFEFF' : '') + [headers, ...old].map((row) => row.map(quoted).join(delimiter)).join(lineEnd) + (isEnded ? lineEnd : '');
        const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01\n', 'clutches/K1.csv': text }, '2026-05-09T09:00');
        const [file] = plan.records.logsOf('K1');
        assert.ok(file !== undefined && file.blocked === undefined);
        const draft = new Draft(plan.records);
        const expected = old.map((row) => new Map(row.map((value, column) => [headers[column] as string, value])));
        for (const [at, values] of set) {
          const row: Row | undefined = [...file.rows()][at];
          if (row === undefined || Object.entries(values).some(([header, value]) => (expected[at]?.get(header) ?? '') !== '' && expected[at]?.get(header) !== value)) continue;
          assert.equal(draft.set(row, values), undefined);
          for (const [header, value] of Object.entries(values)) expected[at]?.set(header, value);
        }
        for (const values of newRows) {
          const row = { time: '2026-05-09T09:00', event: 'noted', ...values };
          assert.equal(draft.row(file, row), undefined);
          expected.push(new Map(Object.entries(row)));
        }
        const after = CsvDocument.parse(applyEdits(text, draft.edits().flatMap((edit) => ('edits' in edit ? edit.edits : []))));
        const names = Array.from({ length: after.cellCount(0) }, (_, column) => after.value(0, column));
        assert.deepEqual(names.filter((name) => headers.includes(name)), headers);
        assert.deepEqual(names.filter((name) => !headers.includes(name)).sort(), [...draft.newColumns()].sort());
        assert.equal(after.rowCount, expected.length + 1);
        for (const [i, row] of expected.entries()) {
          assert.equal(after.cellCount(i + 1), names.length);
          for (const [column, name] of names.entries()) assert.equal(after.value(i + 1, column), row.get(name) ?? '', `${name} of row ${i}`);
        }
        added += draft.newColumns().length;
      }),
      { numRuns: 2000 },
    );
    assert.ok(added > 1000, `${added} columns were added`);
  });

  it('refuses a column that is there in another unit, that rows must have, that is filled, or that nobody knows', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01\n', 'clutches/K1.csv': 'time,length_in,length_mm\n' }, '2026-05-09T09:00');
    const [file] = plan.records.logsOf('K1');
    assert.ok(file);
    const draft = new Draft(plan.records);
    for (const header of ['length_mm', 'event', 'stage', 'mine']) {
      assert.equal(textOf(draft.row(file, { time: '2026-05-09', [header]: '3' }) ?? { code: 'act.told', args: [] }), `clutches/K1.csv has no column ${header}, so nothing was written. The quick fix in its first line adds it.`);
    }
    assert.deepEqual(draft.edits(), []);
  });

  it('writes once what has two columns', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01\n', 'clutches/K1.csv': 'time,event,note,note\n' }, '2026-05-09T09:00');
    const [file] = plan.records.logsOf('K1');
    assert.ok(file);
    const draft = new Draft(plan.records);
    assert.equal(draft.row(file, { time: '2026-05-09', event: 'checked', note: 'x', count: '3' }), undefined);
    const [edit] = draft.edits();
    assert.equal(edit && 'edits' in edit ? applyEdits('time,event,note,note\n', edit.edits) : '', 'time,event,count,note,note\n2026-05-09,checked,3,x,\n');
  });

  it('puts a column where the format has it', () => {
    const plan = roomOf({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-04-01\n', 'clutches/K1.csv': 'time,event,mine,note' }, '2026-05-09T09:00');
    const [file] = plan.records.logsOf('K1');
    assert.ok(file);
    const draft = new Draft(plan.records);
    assert.equal(draft.row(file, { time: '2026-05-09', event: 'moved', tank: 'T1', count: '3', to_tank: 'T2' }), undefined);
    const [edit] = draft.edits();
    assert.equal(edit && 'edits' in edit ? applyEdits('time,event,mine,note', edit.edits) : '', 'time,event,tank,count,to_tank,mine,note\n2026-05-09,moved,T1,3,T2,,');
    assert.deepEqual(draft.newColumns(), ['tank', 'count', 'to_tank']);
  });
});
