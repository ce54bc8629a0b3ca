import assert from 'node:assert/strict';
import fc from 'fast-check';
import { IdMap } from '../../../src/records/idMap';

interface Named {
  readonly id: string;
  readonly number: number;
}

const named = fc.record({ id: fc.oneof(fc.constantFrom('__proto__', 'constructor', '', 'Äsche', 'C1', 'C2'), fc.string({ maxLength: 3 })), number: fc.integer() });
const act = fc.record({ way: fc.constantFrom('add', 'add', 'delete', 'replace'), value: named });

describe('IdMap', () => {
  it('holds what a Map would, in its order, whatever comes and goes', () => {
    fc.assert(
      fc.property(fc.array(act, { maxLength: 300 }), (acts) => {
        const map = new IdMap<Named>(({ id }) => id);
        const like = new Map<string, Named>();
        for (const { way, value } of acts) {
          const { id } = value;
          if (way === 'add') {
            assert.equal(map.add(id, value), like.get(id));
            if (!like.has(id)) like.set(id, value);
          } else if (way === 'delete') {
            map.delete(id);
            like.delete(id);
          } else if (like.has(id)) {
            map.replace(id, value);
            like.set(id, value);
          }
          assert.equal(map.size, like.size);
          assert.equal(map.get(id), like.get(id));
        }
        assert.deepEqual([...map.keys()], [...like.keys()]);
        for (const [id, value] of like) assert.equal(map.get(id), value);
      }),
      { numRuns: 500 },
    );
  });

  it('finds each of very many', () => {
    const map = new IdMap<Named>(({ id }) => id);
    const all = Array.from({ length: 200_000 }, (_, number) => ({ id: `K${number.toString(36)}-${number % 7}`, number }));
    for (const value of all) map.add(value.id, value);
    assert.equal(map.size, all.length);
    assert.ok(all.every((value) => map.get(value.id) === value));
    assert.equal(map.get('K'), undefined);
  });

  it('tells ids apart whose hashes are the same', () => {
    const map = new IdMap<Named>(({ id }) => id);
    const [first, second] = ['K1iq8ylv', 'Kjs6yao'].map((id, number) => ({ id, number })) as [Named, Named];
    assert.equal(map.add(first.id, first), undefined);
    assert.equal(map.get(second.id), undefined);
    assert.equal(map.add(second.id, second), undefined);
    map.delete(first.id);
    assert.deepEqual([map.get(first.id), map.get(second.id)], [undefined, second]);
  });

  it('does not grow with what comes and goes again', () => {
    const map = new IdMap<Named>(({ id }) => id);
    for (let number = 0; number < 100_000; number++) {
      map.add(`C${number}`, { id: `C${number}`, number });
      map.delete(`C${number}`);
      assert.equal(map.get(`C${number}`), undefined);
    }
    assert.equal(map.size, 0);
    assert.deepEqual([...map.keys()], []);
  });
});
