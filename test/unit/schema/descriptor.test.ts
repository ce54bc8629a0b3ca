import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { schemas } from '../../../src/schema/catalog';

/** Keys of Table Schema, then our own; anything else would be a slip that nobody reads. */
const sheetKeys = ['$schema', 'name', 'title', 'description', 'fields', 'primaryKey', 'foreignKeys', 'missingValues', 'path', 'role', 'thing', 'key', 'oneOf'];
const fieldKeys = [
  ...['name', 'title', 'description', 'type', 'constraints'],
  ...['kind', 'computed', 'unit', 'unitOf', 'references', 'referencesBy', 'notFuture', 'milestone', 'filter', 'words', 'orMoment'],
];
const constraintKeys = ['required', 'unique', 'enum', 'minimum', 'maximum', 'exclusiveMinimum'];
const kinds = ['id', 'ids', 'text', 'url', 'enum', 'codes', 'integer', 'number', 'count', 'moment', 'day', 'duration'];

/** Types of Table Schema that a reader without our keys can rely on; the rest is more than any of them allows, so text. */
const types: Readonly<Record<string, readonly string[]>> = { integer: ['integer'], number: ['number'], duration: ['duration', 'string'] };

type Json = Readonly<Record<string, unknown>>;

describe('the descriptor files', () => {
  for (const { name, key, fieldNamed } of schemas) {
    it(`${name} is a Table Schema with our keys`, () => {
      const json = JSON.parse(readFileSync(`schemas/${name}.schema.json`, 'utf8')) as Json;
      assert.equal(json['name'], name);
      onlyKeys(json, sheetKeys);
      const fields = json['fields'] as readonly Json[];
      const names = fields.map((field) => field['name']);
      assert.equal(new Set(names).size, names.length, 'a column is there twice');
      for (const field of fields) {
        onlyKeys(field, fieldKeys);
        onlyKeys((field['constraints'] ?? {}) as Json, constraintKeys);
        assert.match(String(field['name']), /^[a-z][a-z0-9]*(_[a-z0-9]+)*$/);
        assert.ok(kinds.includes(String(field['kind'])), String(field['kind']));
        assert.ok((types[String(field['kind'])] ?? ['string']).includes(String(field['type'])), String(field['name']));
      }
      for (const foreign of (json['foreignKeys'] ?? []) as readonly { fields: string; reference: { resource: string; fields: string } }[]) {
        assert.ok(fieldNamed.has(foreign.fields), foreign.fields);
        const target = schemas.find((schema) => schema.name === foreign.reference.resource);
        assert.equal(target?.key, foreign.reference.fields);
      }
      assert.equal(json['key'], key);
      assert.ok(json['primaryKey'] === undefined || json['primaryKey'] === key);
      assert.deepEqual(json['missingValues'], ['']);
    });
  }

  it('have the unit of every alternative column', () => {
    for (const schema of schemas) {
      for (const field of schema.fields) {
        if (field.unitOf !== undefined) {
          assert.equal(schema.fieldNamed.get(field.unitOf.field)?.kind, 'number', `${schema.name}.${field.name}`);
        }
      }
    }
  });
});

function onlyKeys(json: Json, known: readonly string[]): void {
  assert.deepEqual(
    Object.keys(json).filter((key) => !known.includes(key)),
    [],
  );
}
