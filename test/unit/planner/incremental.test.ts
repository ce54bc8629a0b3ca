import assert from 'node:assert/strict';
import fc from 'fast-check';
import { computedHeaders } from '../../../src/planner/columns/registry';
import type { Plan } from '../../../src/planner/plan';
import { fixesOf, shownOf } from '../../support/plans';
import { anyRoom } from '../../support/randomRoom';
import { anyDeed, Room } from '../../support/roomHistory';

/** Explanations of all computed cells of a few rows, also where the column is not there. */
function explained(plan: Plan, path: string): string {
  const file = plan.records.file(path);
  if (file === undefined) return '';
  const headers = computedHeaders(file.schema.name);
  const records = file.doc.rowCount === 0 ? [] : [1, file.doc.rowCount - 1];
  return records.flatMap((record) => headers.map((header) => JSON.stringify(plan.explainCell(path, record, header)))).join('\n');
}

function assertSame(kept: Plan, fresh: Plan): void {
  assert.deepEqual(kept.paths(), fresh.paths());
  assert.equal(kept.records.zone.name, fresh.records.zone.name);
  for (const path of [...fresh.paths(), 'fishroom.json']) {
    assert.equal(shownOf(kept, path), shownOf(fresh, path), path);
    assert.equal(fixesOf(kept, path), fixesOf(fresh, path), `fixes of ${path}`);
    assert.equal(explained(kept, path), explained(fresh, path), `explanations of ${path}`);
  }
  for (const id of ['C1', 'T1', 'P1', 'c1']) assert.deepEqual(kept.placesOf(id), fresh.placesOf(id));
  assert.equal(kept.nextChange, fresh.nextChange);
}

function shownByPath(plan: Plan): ReadonlyMap<string, string> {
  return new Map([...plan.paths(), 'fishroom.json'].map((path) => [path, shownOf(plan, path)]));
}

const runs = Number(process.env['RUNS'] ?? 150);

describe('a plan that is kept up to date', () => {
  it('equals one made afresh after every change, and names every file that shows something else', () => {
    fc.assert(
      fc.property(anyRoom, fc.array(fc.oneof({ weight: 4, arbitrary: fc.tuple(anyDeed) }, { weight: 1, arbitrary: fc.array(anyDeed, { minLength: 2, maxLength: 4 }) }), { maxLength: 14 }), (texts, changes) => {
        const room = new Room();
        room.begin(texts);
        assertSame(room.plan, room.afresh());
        let before = shownByPath(room.plan);
        for (const deeds of changes) {
          const touched = room.change(deeds);
          assertSame(room.plan, room.afresh());
          const after = shownByPath(room.plan);
          const different = [...new Set([...before.keys(), ...after.keys()])].filter((path) => (before.get(path) ?? '') !== (after.get(path) ?? ''));
          assert.deepEqual(different.filter((path) => !touched.has(path)), [], 'files that show something else but were not named');
          before = after;
        }
      }),
      { numRuns: runs, seed: process.env['SEED'] === undefined ? undefined : Number(process.env['SEED']) } as fc.Parameters,
    );
  });
});
