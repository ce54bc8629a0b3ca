import assert from 'node:assert/strict';
import { completionsAt } from '../../../../src/language/completion/complete';
import { latestFitting } from '../../../../src/language/completion/latestIds';
import type { Plan } from '../../../../src/planner/plan';
import { keyText } from '../../../../src/records/row';
import type { Row } from '../../../../src/records/row';
import { offeredValues } from '../../../support/completions';
import { roomOf } from '../../../support/room';

const count = 6_000;
const header = 'clutch,species,tank,spawned,ended\n';

/** Clutches of three pairs in turn; the last thirty are open. */
function register(clutches: number): string {
  const row = (i: number): string => `KR${i % 3}-${Math.floor(i / 3)},kribensis,T1,2026-05-01,${i < clutches - 30 ? '2026-05-09' : ''}\n`;
  return header + Array.from({ length: clutches }, (_, i) => row(i)).join('');
}

/** How many rows of the register are looked at while something is done. */
function rowsLookedAt(plan: Plan, act: () => void): number {
  const looked = new Set<Row>();
  const watched = [...(plan.records.file('clutches.csv')?.rows() ?? [])].map((row) => {
    const kept = { block: row.block, kept: row.kept };
    const watch = (name: keyof typeof kept): void => {
      Object.defineProperty(row, name, { configurable: true, enumerable: true, get: () => (looked.add(row), kept[name]) });
    };
    watch('block');
    watch('kept');
    return { row, kept };
  });
  act();
  const seen = looked.size;
  for (const { row, kept } of watched) for (const name of ['block', 'kept'] as const) Object.defineProperty(row, name, { configurable: true, enumerable: true, writable: true, value: kept[name] });
  return seen;
}

function named(plan: Plan, typed: string): readonly string[] {
  return latestFitting(plan.records.file('clutches.csv'), typed, () => true).map(keyText);
}

describe('latestFitting', () => {
  it('gives the latest that begin as typed, then those that hold it, then those that hold its letters, in whatever case', () => {
    const ids = ['A-12', 'a12', 'B-A12', 'A-1-2', 'C-A1', 'A-120', 'B-21A'];
    const plan = roomOf({ 'clutches.csv': `${header}${ids.map((id) => `${id},kribensis,T1,2026-05-01,\n`).join('\n')}` }, '2026-06-10');
    assert.deepEqual(named(plan, 'a12'), ['a12', 'B-A12', 'A-120', 'A-1-2', 'A-12']);
    assert.deepEqual(named(plan, 'A-12'), ['A-120', 'A-12', 'A-1-2']);
    assert.deepEqual(named(plan, '12'), ['A-120', 'B-A12', 'a12', 'A-12', 'A-1-2']);
    assert.deepEqual(named(plan, ''), [...ids].reverse());
    assert.deepEqual(named(plan, 'zz'), []);
  });

  it('finds in every block what a look at each name finds', () => {
    const plan = roomOf({ 'clutches.csv': register(700) }, '2026-06-10');
    const all = [...(plan.records.file('clutches.csv')?.rows() ?? [])].map(keyText).reverse();
    for (const typed of ['kr2-1', '13', 'r17', 'kr-44', '0-232']) {
      const pattern = new RegExp([...typed].join('.*'), 'i');
      assert.deepEqual([...named(plan, typed)].sort(), all.filter((id) => pattern.test(id)).slice(0, 201).sort(), typed);
    }
  });

  it('follows what is written', () => {
    const plan = roomOf({ 'clutches.csv': register(700) }, '2026-06-10');
    assert.deepEqual(named(plan, 'XX'), []);
    const at = plan.records.file('clutches.csv')?.doc.span(300, 0) ?? { start: 0, end: 0 };
    plan.apply([{ path: 'clutches.csv', edits: [{ ...at, text: 'XX-1' }] }]);
    assert.deepEqual(named(plan, 'xx'), ['XX-1']);
  });
});

describe('clutches in a long register', () => {
  const log = 'time,clutch,event\n,,\n,kr1-1,\n,zz,\n';
  const asked = (plan: Plan, row: string) => (): readonly string[] => (completionsAt(plan, 'log.csv', log.indexOf(row) + row.length - 1)?.suggestions ?? []).map(({ value }) => value);

  it('are told by looking at few of its rows, however many there are', () => {
    const plan = roomOf({ 'clutches.csv': register(count), 'log.csv': log }, '2026-06-10T09:00');
    const [any, typed, other] = [asked(plan, '\n,,'), asked(plan, 'kr1-1,'), asked(plan, 'zz,')];
    const few = 450;
    assert.ok(rowsLookedAt(plan, any) <= few);
    assert.equal(any().length, 200);
    // Their names are read once.
    other();
    assert.ok(rowsLookedAt(plan, typed) <= few);
    assert.equal(typed()[0], 'KR1-1990');
    assert.ok(rowsLookedAt(plan, other) <= few);
    const at = plan.records.file('clutches.csv')?.doc.span(count / 2, 0) ?? { start: 0, end: 0 };
    plan.apply([{ path: 'clutches.csv', edits: [{ ...at, text: 'ZZ-1' }] }]);
    assert.ok(rowsLookedAt(plan, other) <= few);
    assert.ok(other().includes('ZZ-1'));
  });

  it('are found by a middle part of their names, and all of them are there while they are few', () => {
    const texts = (clutches: number, typed: string): Record<string, string> => ({ 'clutches.csv': register(clutches), 'log.csv': `time,clutch,event\n,«${typed}»,\n` });
    assert.deepEqual(offeredValues(texts(count, '1-999')).filter((id) => id.includes('1-999')), ['KR1-999']);
    assert.deepEqual(offeredValues(texts(90, 'zz')), offeredValues(texts(90, '')));
    assert.equal(offeredValues(texts(90, '')).length, 90);
  });
});
