import assert from 'node:assert/strict';
import fc from 'fast-check';
import { readFromCalendar } from '../../src/protocol/calendar';
import type { FromCalendar } from '../../src/protocol/calendar';
import { entryKinds } from '../../src/planner/entry';
import { calendarViews } from '../../src/views/calendar/calendarModel';

/** Names under which nothing is asked, and which are left out of what comes in, since they could change what an object is. */
const neverAsked: ReadonlySet<string> = new Set(['__proto__', 'prototype', 'constructor']);
const text = fc.string({ unit: 'binary', maxLength: 40 });
const names = fc.option(fc.array(text, { maxLength: 4 }), { nil: undefined });
const query = fc.record({
  view: fc.constantFrom(...calendarViews),
  day: fc.option(fc.integer({ min: -700_000, max: 2_900_000 }), { nil: undefined }),
  days: fc.option(fc.integer({ min: 1, max: 400 }), { nil: undefined }),
  selection: fc.record({ rooms: names, species: names, kinds: fc.option(fc.array(fc.constantFrom(...entryKinds), { maxLength: 4 }), { nil: undefined }) }),
});
const target = fc.oneof(fc.record({ of: fc.constant('entry' as const), key: text }), fc.record({ of: fc.constantFrom('clutch' as const, 'pair' as const, 'tank' as const), id: text }));
const told: fc.Arbitrary<FromCalendar> = fc.oneof(
  fc.record({ kind: fc.constant('ready' as const), fishroom: fc.option(text, { nil: undefined }), query: fc.option(query, { nil: undefined }) }),
  fc.record({ kind: fc.constant('show' as const), ask: fc.nat(), fishroom: fc.option(text, { nil: undefined }), query }),
  fc.record({ kind: fc.constantFrom('why' as const, 'open' as const, 'chart' as const), target }),
  fc.record({ kind: fc.constant('done' as const), key: text, answer: fc.option(fc.record({ way: text, answers: fc.dictionary(text.filter((name) => !neverAsked.has(name)), text, { noNullPrototype: true }) }), { nil: undefined }) }),
  fc.record({ kind: fc.constant('takeBack' as const) }),
);

/** As it comes over: undefined fields are gone. */
const sent = (message: unknown): unknown => (message === undefined ? undefined : JSON.parse(JSON.stringify(message)));

describe('what a calendar says to its host', () => {
  it('is understood, field by field', () => {
    fc.assert(fc.property(told, (message) => assert.deepEqual(sent(readFromCalendar(sent(message))), sent(message))));
  });

  it('is nothing where it is anything else', () => {
    fc.assert(fc.property(fc.anything(), (garbage) => assert.equal(readFromCalendar(garbage), undefined)));
  });

  it('is nothing where one field is of another kind', () => {
    const wrong = fc.oneof(fc.constant(null), fc.constant(Number.NaN), fc.constant(1.5), fc.object(), fc.array(fc.integer(), { minLength: 1 }));
    fc.assert(
      fc.property(told.filter(({ kind }) => kind !== 'takeBack'), wrong, (message, other) => {
        const field = message.kind === 'done' ? 'key' : message.kind === 'ready' ? 'query' : message.kind === 'show' ? 'query' : 'target';
        assert.equal(readFromCalendar({ ...message, [field]: other }), undefined);
      }),
    );
    for (const message of [{ kind: 'show', query: { view: 'year', selection: {} }, ask: 0 }, { kind: 'show', query: { view: 'list', days: 9999, selection: {} }, ask: 0 }, { kind: 'show', query: { view: 'list', selection: { kinds: ['party'] } }, ask: 0 }, { kind: 'show', query: { view: 'list', selection: {} } }, { kind: 'open', target: { of: 'room', id: 'front' } }, { kind: 'done', key: 'x'.repeat(2_000) }]) {
      assert.equal(readFromCalendar(message), undefined, JSON.stringify(message).slice(0, 80));
    }
  });
});
