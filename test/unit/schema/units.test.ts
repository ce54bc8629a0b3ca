import assert from 'node:assert/strict';
import { schemaNamed } from '../../../src/schema/catalog';
import type { SheetName } from '../../../src/schema/descriptor';
import { siValue } from '../../../src/schema/units';

function si(sheet: SheetName, column: string, value: number): number {
  const unitOf = schemaNamed(sheet).fieldNamed.get(column)?.unitOf;
  assert.ok(unitOf);
  return siValue(value, unitOf);
}

describe('alternative units', () => {
  // The US gallon is 231 cubic inches and the inch 25.4 mm by definition (NIST Handbook 44, appendix C; from memory).
  it('°F', () => assert.deepEqual([32, 77, 50, 212].map((f) => si('readings', 'temp_f', f)), [0, 25, 10, 100]));
  it('US gallons', () => assert.equal(si('tanks', 'volume_gal', 1).toFixed(12), ((231 * 2.54 ** 3) / 1000).toFixed(12)));
  it('inches', () => assert.equal(si('clutch-log', 'length_in', 1), 25.4));
});
