import assert from 'node:assert/strict';
import fc from 'fast-check';
import { applyEdits, type TextEdit } from '../../../src/base/textEdit';
import { CsvDocument } from '../../../src/csv/document';
import { deleteRow, insertColumn, insertRow, setCell } from '../../../src/csv/edits';
import { anySheet, cellText, contentsOf, recordsOf, tableOf, textOf, type Sheet, type WrittenRecord } from './sheets';

/** The text after an edit that is made of a document. */
function edited(text: string, edit: (document: CsvDocument) => TextEdit[]): string {
  return applyEdits(text, edit(CsvDocument.parse(text)));
}

describe('setCell', () => {
  const set = (text: string, row: number, column: number, value: string) => edited(text, (document) => setCell(document, row, column, value));

  it('replaces what differs in the cell', () => {
    const document = CsvDocument.parse('id,spawned\r\nc1,2026-03-04\r\n');
    assert.deepEqual(setCell(document, 1, 1, '2026-03-14'), [{ start: 23, end: 24, text: '1' }]);
  });
  it('is no edit when the value is there', () => {
    const document = CsvDocument.parse('a,"b"\n"c"d","e\n');
    for (const [row, column] of [[0, 0], [0, 1], [1, 0]] as const) assert.deepEqual(setCell(document, row, column, document.value(row, column)), []);
  });
  it('keeps a quoted cell quoted, and the blanks behind it', () => assert.equal(set('a,b\n"c" ,d\n', 1, 0, ''), 'a,b\n"" ,d\n'));
  it('quotes where it must', () => {
    assert.equal(set('a;b\n1;2\n', 1, 1, 'x;y'), 'a;b\n1;"x;y"\n');
    assert.equal(set('a;b\n1;2\n', 1, 1, 'x,y'), 'a;b\n1;x,y\n');
    assert.equal(set('a;b\n1;2\n', 1, 1, '5" pipe'), 'a;b\n1;"5"" pipe"\n');
    assert.equal(set('a;b\n1;2\n', 1, 1, ' x '), 'a;b\n1; x \n');
  });
  it('quotes a delimiter in the header that would be taken for the delimiter', () => assert.equal(set('a,b\n1,2\n', 0, 1, 'x;y;z'), 'a,"x;y;z"\n1,2\n'));
  it('quotes a first character that would be read as a byte order mark', () => {
    assert.equal(set('a,b\n', 0, 0, '\uFEFFx'), '"\uFEFFx",b\n');
    assert.equal(set('\uFEFFa,b\n', 0, 0, '\uFEFFx'), '\uFEFF\uFEFFx,b\n');
    assert.equal(set('a,b\n1,2\n', 1, 0, '\uFEFFx'), 'a,b\n\uFEFFx,2\n');
  });
  it('keeps a record whose only cell becomes empty', () => assert.equal(set('id\nc1', 1, 0, ''), 'id\n""'));
  it('writes into a blank line', () => assert.equal(set('id\n\nc1\n', 1, 0, 'c0'), 'id\nc0\nc1\n'));
  it('closes a quote that was left open', () => assert.equal(set('a,b\n1,"x\n', 1, 1, 'y'), 'a,b\n1,"y"'));
  it('throws past the end of a record', () => assert.throws(() => set('a,b\n1\n', 1, 1, 'x'), RangeError));

  it('changes that cell and no other character', () => {
    fc.assert(
      fc.property(anySheet(), fc.nat(), fc.nat(), cellText, (sheet, rowSeed, columnSeed, value) => {
        const row = rowSeed % sheet.values.length;
        const column = columnSeed % (sheet.values[row]?.length ?? 0);
        const after = applied(sheet, (document) => {
          const span = document.span(row, column);
          const edits = setCell(document, row, column, value);
          assert.ok(edits.length <= 1 && edits.every(({ start, end }) => start >= span.start && end <= span.end));
          return edits;
        });
        const records = recordsOf(after);
        assert.deepEqual(tableOf(after), sheet.values.map((values, r) => (r === row ? values.with(column, value) : values)));
        const source = records[row]?.cells[column] ?? '';
        assert.deepEqual(records, sheet.records.map((record, r) => (r === row ? { ...record, cells: record.cells.with(column, source) } : record)));
        if (sheet.records[row]?.cells[column]?.startsWith('"')) assert.ok(source.startsWith('"'));
      }),
      { numRuns: 3000 },
    );
  });
});

describe('insertRow', () => {
  const insert = (text: string, row: number, ...values: string[]) => edited(text, (document) => insertRow(document, row, values));

  it('takes the line end of the record before it', () => {
    assert.equal(insert('a,b\r\n1,2\n3,4\r\n', 1, 'x', 'y'), 'a,b\r\nx,y\r\n1,2\n3,4\r\n');
    assert.equal(insert('a,b\r\n1,2\n3,4\r\n', 2, 'x', 'y'), 'a,b\r\n1,2\nx,y\n3,4\r\n');
    assert.equal(insert('a,b\r\n1,2\n', 2, 'x', 'y'), 'a,b\r\n1,2\nx,y\n');
  });
  it('leaves a file without a final line end without one', () => {
    assert.equal(insert('a,b\r\n1,2', 2, 'x', 'y'), 'a,b\r\n1,2\r\nx,y');
    assert.equal(insert('a,b', 1, 'x', 'y'), 'a,b\nx,y');
  });
  it('makes the header of an empty file', () => {
    assert.equal(insert('', 0, 'id', 'x;y'), 'id,"x;y"\n');
    assert.equal(insert('\uFEFF', 0, 'id'), '\uFEFFid\n');
    assert.equal(insert('', 0, '\uFEFFid'), '"\uFEFFid"\n');
  });
  it('writes a record of one empty cell so that it is no blank line', () => assert.equal(insert('id\nc1\n', 1, ''), 'id\n""\nc1\n'));
  it('throws before the header, behind the end and without values', () => {
    for (const row of [-1, 0, 3, NaN]) assert.throws(() => insert('a\nb\n', row, 'x'), RangeError);
    assert.throws(() => insert('', 1, 'x'), RangeError);
    assert.throws(() => insert('a\n', 1), RangeError);
  });

  it('adds that record and changes no other character', () => {
    fc.assert(
      fc.property(anySheet(), fc.nat(), fc.array(cellText, { minLength: 1, maxLength: 4 }), (sheet, seed, values) => {
        const { records } = sheet;
        const row = 1 + (seed % records.length);
        const after = applied(sheet, (document) => insertionsOnly(insertRow(document, row, values), 1));
        assert.deepEqual(tableOf(after), sheet.values.toSpliced(row, 0, values));
        const added: WrittenRecord = { cells: recordsOf(after)[row]?.cells ?? [], lineEnd: records[row - 1]?.lineEnd ?? '' };
        const ends = [...records.map(({ lineEnd }) => lineEnd), '\n'];
        const first = ends.find((lineEnd) => lineEnd !== '');
        const before = records.map((record, r) => (r === row - 1 && record.lineEnd === '' ? { ...record, lineEnd: first } : record));
        assert.deepEqual(recordsOf(after), before.toSpliced(row, 0, added));
      }),
      { numRuns: 2500 },
    );
  });
});

describe('deleteRow', () => {
  const remove = (text: string, row: number) => edited(text, (document) => deleteRow(document, row));

  it('takes the record with its line end', () => assert.equal(remove('a,b\n1,2\r\n3,4\n', 1), 'a,b\n3,4\n'));
  it('leaves a file with a final line end with one, and one without without', () => {
    assert.equal(remove('a,b\n1,2\r\n', 1), 'a,b\n');
    assert.equal(remove('a,b\r\n1,2', 1), 'a,b');
  });
  it('keeps a blank line that is last then', () => assert.equal(remove('a,b\n\n1,2', 2), 'a,b\n\n'));
  it('makes no single line end of two', () => assert.deepEqual(tableOf(CsvDocument.parse(remove('a\rb\n\nc\n', 1))), [['a'], [''], ['c']]));
  it('makes none of two around a blank line before it', () => assert.equal(remove('a\r\rb\n\n', 2), 'a\r\r\n\n'));
  it('throws for the header and for what is not there', () => {
    assert.throws(() => remove('a\nb\n', 0), new RangeError('record 0 is the header'));
    assert.throws(() => remove('a\nb\n', 2), RangeError);
  });

  it('takes that record and changes no other character', () => {
    fc.assert(
      fc.property(anySheet(), fc.nat(), (sheet, seed) => {
        fc.pre(sheet.records.length > 1);
        const { records } = sheet;
        const row = 1 + (seed % (records.length - 1));
        const after = applied(sheet, (document) => {
          const edits = deleteRow(document, row);
          assert.deepEqual([edits.length, edits[0]?.text], [1, '']);
          return edits;
        });
        assert.deepEqual(tableOf(after), sheet.values.toSpliced(row, 1));
        // Of the two line ends around the record one is left: the one before it, but for these cases.
        const left = recordsOf(after)[row - 1]?.lineEnd;
        const [lineEnd, blankBefore] = [records[row]?.lineEnd, textOf(records.slice(row - 1, row), sheet.delimiter) === records[row - 1]?.lineEnd];
        const nextIsLineFeed = textOf(records.slice(row + 1), sheet.delimiter).startsWith('\n');
        const takesOther = (lineEnd === '' && !blankBefore) || (records[row - 1]?.lineEnd === '\r' && nextIsLineFeed);
        const joinsBefore = takesOther && lineEnd === '\n' && blankBefore && records[row - 2]?.lineEnd === '\r';
        assert.equal(left, joinsBefore ? '\r\n' : takesOther ? lineEnd : records[row - 1]?.lineEnd);
        assert.deepEqual(recordsOf(after), records.map((record, r) => (r === row - 1 ? { ...record, lineEnd: left } : record)).toSpliced(row, 1));
      }),
      { numRuns: 2000 },
    );
  });
});

describe('insertColumn', () => {
  const insert = (text: string, column: number) => edited(text, (document) => insertColumn(document, column, (row) => (row === 0 ? 'new' : `v${row}`)));

  it('puts a cell into every record', () => {
    assert.equal(insert('a;b\r\n1;2\n3;"4"', 2), 'a;b;new\r\n1;2;v1\n3;"4";v2');
    assert.equal(insert('a;b\r\n1;2\n3;"4"', 1), 'a;new;b\r\n1;v1;2\n3;v2;"4"');
    assert.equal(insert('\uFEFFa;b\n1;2\n', 0), '\uFEFFnew;a;b\nv1;1;2\n');
  });
  it('leaves blank lines alone', () => assert.equal(insert('a,b\n\n1,2\n', 2), 'a,b,new\n\n1,2,v2\n'));
  it('fills them in a file of one column', () => assert.equal(insert('a\n\n1\n', 1), 'a,new\n,v1\n1,v2\n'));
  it('leaves a short record as short as it was, and puts the cell of a long one in its place', () => {
    assert.equal(insert('a,b,c\n1\n1,2,3,4\n', 3), 'a,b,c,new\n1,\n1,2,3,v2,4\n');
  });
  it('is no edit of an empty file', () => assert.equal(insert('', 0), ''));
  it('throws for a column with a gap before it', () => assert.throws(() => insert('a,b\n', 3), RangeError));

  it('adds those cells and changes no other character', () => {
    fc.assert(
      fc.property(anySheet(), fc.nat(), fc.array(cellText, { minLength: 6, maxLength: 6 }), (sheet, seed, added) => {
        const headers = sheet.values[0]?.length ?? 0;
        const column = seed % (headers + 1);
        const after = applied(sheet, (document) => insertionsOnly(insertColumn(document, column, (row) => added[row] ?? ''), document.rowCount));
        const skipped = (values: readonly string[]) => headers > 1 && values.length === 1 && values[0] === '';
        const wanted = sheet.values.map((values, row) => {
          if (skipped(values)) return values;
          return column <= values.length ? values.toSpliced(column, 0, added[row] ?? '') : [...values, ''];
        });
        assert.deepEqual(tableOf(after), wanted);
        const kept = recordsOf(after).map((record, row) => {
          const values = sheet.values[row] ?? [];
          return skipped(values) ? record : { ...record, cells: record.cells.toSpliced(Math.min(column, values.length), 1) };
        });
        assert.deepEqual(kept, sheet.records);
      }),
      { numRuns: 1500 },
    );
  });
});

/** The document after the edits, scanned where it changed, which must equal a scan of the new text. */
function applied(sheet: Sheet, edit: (document: CsvDocument) => TextEdit[]): CsvDocument {
  const document = CsvDocument.parse(sheet.text);
  const edits = edit(document);
  const after = document.edit(edits);
  assert.equal(contentsOf(after), contentsOf(CsvDocument.parse(applyEdits(sheet.text, edits))));
  assert.deepEqual([after.delimiter, after.hasBom, after.issues], [sheet.delimiter, sheet.bom !== '', []]);
  return after;
}

function insertionsOnly(edits: TextEdit[], most: number): TextEdit[] {
  assert.ok(edits.length <= most && edits.every(({ start, end }) => start === end));
  return edits;
}
