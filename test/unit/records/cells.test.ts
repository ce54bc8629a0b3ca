import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseMoment } from '../../../src/base/moment';
import type { Row } from '../../../src/records/row';
import { SheetFile } from '../../../src/records/sheetFile';
import { schemaNamed } from '../../../src/schema/catalog';
import { slotOf } from '../../../src/schema/slots';
import { berlin } from '../../support/moments';

const schema = schemaNamed('clutches');
const reading = { zone: berlin, extraColumns: new Set<string>() };
const read = (text: string): SheetFile => {
  const file = new SheetFile('clutches.csv', schema, undefined);
  file.replace({ text }, reading);
  return file;
};
const valueOf = (row: Row | undefined, name: string): unknown => row?.value(slotOf(schema, name));

describe('the cells of a sheet', () => {
  it('give the moments that are written there, in whatever form', () => {
    const pad = (number: number): string => String(number).padStart(2, '0');
    const day = fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 31 })).map(([month, date]) => `2026-${pad(month)}-${pad(date)}`);
    const time = fc.constantFrom('', 'T09:30', ' 09:30', 'T23:59:07', 'T23:59:07.25', 'T09:30Z', 'T09:30+05:30', 'T09:30-0400', 'T24:00', 'T9:30', 'T09:30+1', 'T09:30:', 'x', 'T0');
    const written = fc.tuple(fc.constantFrom('', '~', '~~'), day, time).map((parts) => parts.join(''));
    fc.assert(
      fc.property(fc.array(written, { minLength: 1, maxLength: 5 }), (moments) => {
        // What stands behind a cell is no part of it.
        const file = read(`clutch,spawned,hatched\n${moments.map((moment, i) => `C${i},${moment},2026-12-31T23:59:59\n`).join('')}`);
        moments.forEach((moment, i) => assert.deepEqual(valueOf(file.rowAt(i + 1), 'spawned'), parseMoment(moment, berlin), moment));
      }),
    );
  });

  it('give a text as it is written, without its quoting, and nothing for an empty one', () => {
    const file = read('clutch,note,spawned\nC1,"he said ""now""",2026-03-01\nC2,,2026-03-02\nC3,"",2026-03-03\nC4\n');
    assert.deepEqual([1, 2, 3, 4].map((record) => valueOf(file.rowAt(record), 'note')), ['he said "now"', undefined, undefined, undefined]);
  });

  it('are the same of a row that stays while others come and go around it', () => {
    const file = read('clutch,tank,spawned,eggs,note\nC1,T1,~2026-03-01T10:00,~90,first\nC2,T2,2026-03-02,80,second\n');
    const row = file.rowAt(2);
    const values = schema.fields.map((_, slot) => row?.value(slot));
    file.edit([{ start: file.doc.rowSpan(1).start, end: file.doc.rowSpan(1).start, text: 'C0,T9,2026-02-01,,\n' }], reading);
    assert.equal(file.rowAt(3), row);
    assert.deepEqual(schema.fields.map((_, slot) => row?.value(slot)), values);
  });
});
