import assert from 'node:assert/strict';
import fc from 'fast-check';
import { RowSet } from '../../../src/records/rowSet';
import type { Row } from '../../../src/records/row';
import { SheetFile } from '../../../src/records/sheetFile';
import { schemaNamed } from '../../../src/schema/catalog';
import { berlin } from '../../support/moments';

const file = new SheetFile('clutches.csv', schemaNamed('clutches'), undefined);
const rows = file.replace({ text: `clutch,species,tank,spawned\n${'C,red,T1,2026-03-01\n'.repeat(8)}` }, { zone: berlin, extraColumns: new Set() }).added;
const anyRow = fc.constantFrom(...rows);

describe('RowSet', () => {
  it('holds what a set holds, in the same order', () => {
    const deed = fc.record({ kind: fc.constantFrom('new', 'add', 'delete', 'has'), row: anyRow });
    fc.assert(
      fc.property(fc.array(deed, { maxLength: 20 }), (deeds) => {
        const kept = new RowSet();
        const plain = new Set<Row>();
        for (const { kind, row } of deeds) {
          if (kind === 'new' && !plain.has(row)) {
            kept.addNew([row]);
            plain.add(row);
          } else if (kind === 'delete') {
            kept.delete(row);
            plain.delete(row);
          } else if (kind === 'add') {
            kept.add(row);
            plain.add(row);
          } else {
            assert.equal(kept.has(row), plain.has(row));
          }
          assert.equal(kept.size, plain.size);
        }
        assert.ok([...kept].length === plain.size && [...kept].every((row, i) => row === [...plain][i]));
      }),
    );
  });
});
