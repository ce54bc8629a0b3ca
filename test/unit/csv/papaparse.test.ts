import assert from 'node:assert/strict';
import fc from 'fast-check';
import Papa from 'papaparse';
import { CsvDocument } from '../../../src/csv/document';
import { anySheet, tableOf } from './sheets';

/** The values as papaparse 5 reads them; it takes what stands behind a final line end for a record. */
function readByPapaparse(text: string, delimiter: string, newline: '\n' | '\r' | '\r\n'): string[][] {
  const { data } = Papa.parse<string[]>(text, { delimiter, newline });
  const last = data.at(-1);
  return last?.length === 1 && last[0] === '' && text.endsWith(newline) ? data.slice(0, -1) : data;
}

describe('CsvDocument and papaparse', () => {
  for (const newline of ['\n', '\r', '\r\n'] as const) {
    it(`read the same values of a sheet with the line end ${JSON.stringify(newline)}`, () => {
      fc.assert(
        fc.property(anySheet(newline), ({ text, delimiter }) => {
          // Blanks behind a closing mark papaparse leaves out before a delimiter or line end, but not before the end of the text.
          fc.pre(!/"[ \u00A0]+$/.test(text));
          assert.deepEqual(tableOf(CsvDocument.parse(text)), readByPapaparse(text, delimiter, newline));
        }),
        { numRuns: 1000 },
      );
    });

    it(`read the same values of marks in disorder with the line end ${JSON.stringify(newline)}`, () => {
      const body = fc.array(fc.constantFrom('a', ',', '"', '"', '""', ' ', newline), { maxLength: 14 });
      fc.assert(
        fc.property(body, (parts) => {
          const text = `a,b${newline}${parts.join('')}`;
          fc.pre(!/"[ ]+$/.test(text));
          assert.deepEqual(tableOf(CsvDocument.parse(text)), readByPapaparse(text, ',', newline));
        }),
        { numRuns: 1000 },
      );
    });
  }
});
