import assert from 'node:assert/strict';
import fc from 'fast-check';
import { CsvDocument } from '../../../src/csv/document';
import { anySheet, contentsOf, recordsOf, tableOf, textOf } from './sheets';

const read = (text: string) => tableOf(CsvDocument.parse(text));

describe('CsvDocument.parse', () => {
  it('reads records by any line end', () => {
    assert.deepEqual(read('a,b\r\nc,d\ne,f\rg,h'), [['a', 'b'], ['c', 'd'], ['e', 'f'], ['g', 'h']]);
  });
  it('has no records in an empty text', () => {
    assert.deepEqual([read(''), read('\uFEFF')], [[], []]);
    assert.equal(CsvDocument.parse('\uFEFF').hasBom, true);
  });
  it('makes no record of a final line end', () => assert.deepEqual(read('a\n'), [['a']]));
  it('reads a blank line as a record of one empty cell', () => {
    assert.deepEqual(read('a,b\n\n\r\nc,d\n'), [['a', 'b'], [''], [''], ['c', 'd']]);
    assert.deepEqual(read('\n'), [['']]);
  });
  it('reads an empty cell behind a delimiter that ends the text', () => assert.deepEqual(read('a,'), [['a', '']]));
  it('unquotes, with line ends and doubled marks inside', () => assert.deepEqual(read('a,"b\r\n,""c"""\n"",d'), [['a', 'b\r\n,"c"'], ['', 'd']]));
  it('takes a mark that does not begin the cell as text', () => assert.deepEqual(read('a "b" c, "d"\n'), [['a "b" c', ' "d"']]));
  it('keeps a byte order mark out of the first cell only', () => {
    const document = CsvDocument.parse('\uFEFF"a",\uFEFFb\n\uFEFFc\n');
    assert.deepEqual(tableOf(document), [['a', '\uFEFFb'], ['\uFEFFc']]);
    assert.deepEqual([document.hasBom, document.span(0, 0)], [true, { start: 1, end: 4 }]);
  });
  it('reads by the delimiter of the header', () => assert.deepEqual(read('a;b\n1,5;2\n'), [['a', 'b'], ['1,5', '2']]));

  it('reports a quote that is never closed at its mark, and runs to the end', () => {
    const document = CsvDocument.parse('a,b\nc,"d\ne,f\n');
    assert.deepEqual(document.issues, [{ kind: 'unclosed-quote', span: { start: 6, end: 7 } }]);
    assert.deepEqual(tableOf(document), [['a', 'b'], ['c', 'd\ne,f\n']]);
  });
  it('reports text behind a closing mark once a cell, and looks for the next closing mark', () => {
    const document = CsvDocument.parse('a,b\n"c"d"e,f",g\n"h" ,i');
    assert.deepEqual(document.issues, [{ kind: 'text-after-quote', span: { start: 6, end: 7 } }]);
    assert.deepEqual(tableOf(document), [['a', 'b'], ['c"d"e,f', 'g'], ['h', 'i']]);
  });
  it('reports at most 100 issues', () => {
    const bad = 'x\n' + '"a"b"\n'.repeat(500);
    assert.deepEqual(CsvDocument.parse(bad).issues.map(({ span }) => span.start), Array.from({ length: 100 }, (_, row) => 4 + 6 * row));
  });

  it('reads every sheet as it was meant and loses no character', () => {
    fc.assert(
      fc.property(anySheet(), (sheet) => {
        const document = CsvDocument.parse(sheet.text);
        assert.deepEqual(tableOf(document), sheet.values);
        assert.deepEqual(recordsOf(document), sheet.records);
        assert.deepEqual([document.delimiter, document.hasBom, document.issues], [sheet.delimiter, sheet.bom !== '', []]);
      }),
      { numRuns: 2000 },
    );
  });

  it('cuts the text into blocks of about 64 records behind the header', () => {
    const document = CsvDocument.parse('id,note\n' + 'a,"b\nc"\n'.repeat(1000));
    contentsOf(document);
    assert.deepEqual([document.rowCount, document.blocks.length], [1001, 1 + Math.ceil(1000 / 64)]);
  });
});

describe('CsvDocument.at', () => {
  it('finds the cell that holds an offset or ends there', () => {
    const document = CsvDocument.parse('ab,\r\n"c,d",e');
    const found = Array.from({ length: document.length + 1 }, (_, offset) => document.at(offset)).map(({ row, column }) => `${row}${column}`);
    assert.deepEqual(found, ['00', '00', '00', '01', '01', '10', '10', '10', '10', '10', '10', '11', '11']);
  });
  it('is in a record yet to come behind a final line end', () => {
    assert.deepEqual(CsvDocument.parse('a,b\nc,d\n').at(8), { row: 2, column: 0 });
    assert.deepEqual(CsvDocument.parse('').at(0), { row: 0, column: 0 });
    assert.deepEqual(CsvDocument.parse('\uFEFF').at(1), { row: 0, column: 0 });
  });
  it('is in the last cell behind a quoted line end', () => assert.deepEqual(CsvDocument.parse('a\n"b\n').at(5), { row: 1, column: 0 }));
  it('agrees with the spans', () => {
    fc.assert(
      fc.property(anySheet(), fc.integer({ min: 1, max: 40 }), ({ bom, records, delimiter }, times) => {
        const body = Array.from({ length: times }, () => records.slice(1)).flat();
        const terminated = [...records.slice(0, 1), ...body].map(({ cells, lineEnd }) => ({ cells, lineEnd: lineEnd || '\n' }));
        const document = CsvDocument.parse(bom + textOf(terminated, delimiter));
        for (let row = 0; row < document.rowCount; row++) {
          for (let column = 0; column < document.cellCount(row); column++) {
            const { start, end } = document.span(row, column);
            assert.deepEqual([document.at(start), document.at(end)], [{ row, column }, { row, column }]);
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('CsvDocument', () => {
  it('throws for what is not there', () => {
    const document = CsvDocument.parse('a,b\nc\n');
    assert.throws(() => document.value(1, 1), new RangeError('cell 1 in record 1, which has 1'));
    assert.throws(() => document.span(0, -1), RangeError);
    for (const row of [-1, 2, 0.5, NaN]) assert.throws(() => document.cellCount(row), RangeError);
    for (const offset of [-1, 7, NaN]) assert.throws(() => document.at(offset), RangeError);
    assert.throws(() => CsvDocument.parse('').rowSpan(0), new RangeError('record 0 in a sheet of 0 records'));
  });
  it('spans a record without its line end', () => assert.deepEqual(CsvDocument.parse('a,b\r\nc,d\r\n').rowSpan(1), { start: 5, end: 8 }));
});
