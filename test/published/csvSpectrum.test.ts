import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Papa from 'papaparse';
import { CsvDocument } from '../../src/csv/document';
import { tableOf } from '../unit/csv/sheets';

// Source: npm csv-spectrum 2.0.0 (BSD-2-Clause), a set of CSV files of every kind with their contents as JSON.
const folder = dirname(require.resolve('csv-spectrum/package.json'));
const names = readdirSync(`${folder}/csvs`).map((file) => file.replace(/\.csv$/, ''));

describe('csv-spectrum', () => {
  it('has its twelve files', () => assert.equal(names.length, 12));

  for (const name of names) {
    const text = readFileSync(`${folder}/csvs/${name}.csv`, 'utf8');

    it(`${name} reads as its JSON says`, () => {
      const [headers = [], ...rows] = tableOf(CsvDocument.parse(text));
      const objects = rows.map((row) => Object.fromEntries(headers.map((header, column) => [header, row[column]])));
      const published = [JSON.parse(readFileSync(`${folder}/json/${name}.json`, 'utf8'))].flat();
      // One file's JSON holds a made-up phone number that its CSV doesn't.
      const comparable = name === 'location_coordinates' ? without('Contact Phone Number') : (record: object) => record;
      assert.deepEqual(objects.map(comparable), published.map(comparable));
    });

    it(`${name} reads as papaparse reads it, and without issues`, () => {
      const document = CsvDocument.parse(text);
      const { data } = Papa.parse<string[]>(text, { delimiter: ',', skipEmptyLines: true });
      assert.deepEqual([tableOf(document), document.issues, document.text()], [data, [], text]);
    });
  }
});

function without(header: string): (record: object) => object {
  return (record) => Object.fromEntries(Object.entries(record).filter(([key]) => key !== header));
}
