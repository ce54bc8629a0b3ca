import assert from 'node:assert/strict';
import { entryKinds } from '../../../../src/planner/entry';
import type { Selection } from '../../../../src/views/calendar/selection';
import { bodyOf, calendarOf } from '../../../support/calendars';
import { roomOf } from '../../../support/room';
import { sampleRoom } from '../../../support/samples';

describe('what is chosen of a fishroom', () => {
  it('is what is shown, each way of choosing by itself and all together', async () => {
    const plan = await sampleRoom('three-rooms');
    const entries = plan.coming(7).entries.filter(({ due }) => due.day <= plan.now.day + 7);
    const keysOf = (selection: Selection): readonly string[] => bodyOf(calendarOf(plan, { view: 'list', selection }), 'list').lists.flatMap(({ sections }) => sections.flatMap(({ items }) => items.map(({ key }) => key))).sort();
    const expected = ({ rooms, species, kinds }: Selection): readonly string[] =>
      entries.filter((entry) => (rooms === undefined || rooms.includes(entry.room)) && (species === undefined || species.includes(entry.species)) && (kinds === undefined || kinds.includes(entry.kind))).map(({ key }) => key).sort();
    const selections: readonly Selection[] = [{}, { rooms: ['front'] }, { rooms: ['front', 'cellar'] }, { species: ['kribensis'] }, ...entryKinds.map((kind) => ({ kinds: [kind] })), { rooms: ['front'], species: ['kribensis'], kinds: ['count', 'next-spawn'] }];
    for (const selection of selections) assert.deepEqual(keysOf(selection), expected(selection), JSON.stringify(selection));
    assert.ok(keysOf({ rooms: ['front'] }).length < entries.length && keysOf({ rooms: ['front'] }).length > 0);
  });

  it('holds for feeding and for the season too', async () => {
    const plan = await sampleRoom('three-rooms');
    const feeds = (selection: Selection): number => bodyOf(calendarOf(plan, { view: 'list', selection }), 'list').lists.flatMap(({ sections }) => sections.flatMap(({ feeds: all }) => all)).length;
    assert.ok(feeds({}) > feeds({ rooms: ['front'] }) && feeds({ rooms: ['front'] }) > 0);
    assert.equal(feeds({ kinds: ['count'] }), 0);
    const rows = (selection: Selection): readonly string[] => bodyOf(calendarOf(plan, { view: 'strip', selection }), 'strip').strip.rows.filter(({ kind }) => kind === 'room').map(({ id }) => id);
    assert.deepEqual([rows({}), rows({ rooms: ['cellar'] })], [['front', 'back', 'cellar'], ['cellar']]);
  });

  it('has a clock that is never ahead', () => {
    const plan = roomOf({ 'tanks.csv': ['tank', 'T1'] }, '2026-06-10T08:59:40');
    assert.equal(calendarOf(plan, {}).now, 'Wed 10 Jun, 08:59');
  });

  it('offers the rooms as they stand in their sheet, the species that are kept, and every kind', async () => {
    const { rooms, species, kinds } = calendarOf(await sampleRoom('three-rooms'), {});
    assert.deepEqual(rooms.map(({ label }) => label), ['Front room', 'Back room', 'Cellar']);
    assert.deepEqual(kinds.map(({ value }) => value), [...entryKinds]);
    assert.ok(species.some(({ value }) => value === 'kribensis') && new Set(species.map(({ value }) => value)).size === species.length);
  });
});
