import assert from 'node:assert/strict';
import { formatDay, formatMoment, momentAt } from '../../../../src/base/moment';
import { dayMs } from '../../../../src/base/zone';
import type { Plan } from '../../../../src/planner/plan';
import type { CalendarQuery } from '../../../../src/views/calendar/calendarModel';
import type { StripModel, StripRow } from '../../../../src/views/calendar/strip';
import { bodyOf, calendarOf } from '../../../support/calendars';
import { filledRoom, roomOf, why } from '../../../support/room';
import type { RoomFiles } from '../../../support/room';
import { fillAll, sampleRoom } from '../../../support/samples';

function stripOf(plan: Plan, query: Partial<CalendarQuery> = {}): StripModel {
  return bodyOf(calendarOf(plan, { view: 'strip', ...query }), 'strip').strip;
}

function clutchRow(strip: StripModel, id: string): Extract<StripRow, { readonly kind: 'clutch' }> {
  const found = strip.rows.find((row) => row.kind === 'clutch' && row.id === id);
  assert.ok(found?.kind === 'clutch', `${id} among ${strip.rows.map((row) => row.label).join(', ')}`);
  return found;
}

/** What stands at a place, on the clock of the fishroom. */
function momentOf({ firstDay }: StripModel, place: number, { records: { zone } }: Plan): string {
  const wall = (firstDay + place) * dayMs;
  return formatMoment(momentAt(Math.round((wall - zone.offsetAt(wall)) / 60_000) * 60_000, zone), zone);
}

const tanks = 'tank,room\nT1,front\nT2,front\nT3,back\n';
const now = '2026-06-10T09:00';
const room = (files: RoomFiles): RoomFiles => ({ 'rooms.csv': 'room,name\nfront,Front room\nback,Back room\n', 'tanks.csv': tanks, ...files });

describe('a season', () => {
  it('lies in bands that meet, each from the moment of its stage, recorded or expected', () => {
    const plan = roomOf(room({ 'clutches.csv': 'clutch,species,tank,spawned,hatched\nK1,kribensis,T1,2026-06-01T08:00,2026-06-04T20:00\n' }), now);
    const strip = stripOf(plan);
    const { bands, edges, told } = clutchRow(strip, 'K1');
    assert.deepEqual(bands.map(({ stage, isExpected }) => `${stage}${isExpected ? '?' : ''}`), ['egg', 'wriggler', 'free-swimming?', 'juvenile?']);
    assert.deepEqual(bands.slice(0, 2).map(({ from }) => momentOf(strip, from, plan)), ['2026-06-01T08:00', '2026-06-04T20:00']);
    bands.forEach(({ from, to }, i) => {
      assert.ok(from < to);
      if (i > 0) assert.equal(from, bands[i - 1]?.to);
    });
    // What is recorded has no window; what is expected has its word behind its own.
    assert.ok(edges.every(({ from, at, to }) => from <= at && at <= to && from > strip.now - 1e-9));
    for (const { isExpected, from, clear } of bands) assert.ok(isExpected ? clear >= from : clear === from);
    assert.match(told, /^K1, eggs from .*, wrigglers from .*, free-swimming expected from .*8 in 10 between /);
  });

  it('takes fry to swim free once the window of that is over, since nobody need write it down', () => {
    const plan = roomOf(room({ 'clutches.csv': 'clutch,species,tank,spawned,hatched\nK1,kribensis,T1,2026-03-01T08:00,2026-03-04T20:00\nK2,kribensis,T2,2025-09-01T08:00,2025-09-04T20:00\n' }), now);
    const lives = plan.lives({ first: plan.now.day - 12, last: plan.now.day + 48 });
    for (const { clutch, stages } of lives) assert.deepEqual(stages.map(({ stage }) => stage), ['egg', 'wriggler', 'free-swimming', 'juvenile', 'sale-size'], clutch);
    const swim = lives[0]?.stages[2];
    const milestone = plan.view.clutch('K1')?.timeline.of('free_swimming');
    assert.deepEqual([swim?.from, swim?.begins, swim?.to], [milestone?.from, milestone?.time, milestone?.to]);
    assert.deepEqual(clutchRow(stripOf(plan), 'K2').bands.map(({ stage }) => stage), ['sale-size']);
    assert.deepEqual(clutchRow(stripOf(plan), 'K2').edges, []);
  });

  it('has the windows of what is to be expected and of the computed columns', async () => {
    const plan = fillAll(await sampleRoom('three-rooms'));
    const strip = stripOf(plan, { days: 122 });
    let hatches = 0;
    for (const { kind, clutch, from, expected, to } of plan.ahead(strip.firstDay + strip.days - plan.now.day - 1)) {
      if (kind !== 'hatch' || plan.view.clutch(clutch)?.timeline.unanswered === true) continue;
      const { edges } = clutchRow(strip, clutch);
      const [edge] = edges;
      assert.ok(edge, clutch);
      const places = [edge.from, edge.at, edge.to].map((place) => momentOf(strip, place, plan));
      assert.deepEqual(places, [from, expected, to].map((each) => formatMoment(momentAt(Math.round(each.instant / 60_000) * 60_000, plan.records.zone), plan.records.zone)), clutch);
      hatches++;
    }
    assert.ok(hatches >= 4, String(hatches));
    let sales = 0;
    for (const row of strip.rows) {
      if (row.kind !== 'clutch') continue;
      const band = row.bands.find(({ stage, isExpected }) => stage === 'sale-size' && isExpected);
      const { window } = why(plan, 'clutches.csv', row.id, 'sale_expected');
      if (band === undefined || window === undefined || band.from < strip.now) continue;
      const edge = row.edges.find(({ at }) => Math.abs(at - band.from) < 1e-6);
      const [from, to] = [...window.matchAll(/\d{4}-\d\d-\d\d/g)].map(([text]) => text);
      assert.ok(edge, row.id);
      assert.equal(formatDay(strip.firstDay + Math.floor(edge.to)), to, row.id);
      assert.equal(formatDay(strip.firstDay + Math.floor(edge.from)), from, row.id);
      sales++;
    }
    assert.ok(sales >= 3, String(sales));
  });

  it('says of a brood that nobody answered for only what was seen, up to now, and then that it is not known', () => {
    const plan = roomOf(room({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-05-30T08:00\n' }), now);
    const strip = stripOf(plan);
    const { bands, told } = clutchRow(strip, 'K1');
    assert.deepEqual(bands.map(({ stage, from, to }) => [stage, from > 0 ? momentOf(strip, from, plan) : '', to === strip.days ? 'end' : momentOf(strip, to, plan)]), [
      ['egg', '2026-05-30T08:00', '2026-06-10T09:00'],
      ['unanswered', '2026-06-10T09:00', 'end'],
    ]);
    assert.match(told, /nobody knows whether it lives/);
  });

  it('ends with its brood, and leaves out those that ended before', () => {
    const plan = roomOf(
      room({ 'clutches.csv': 'clutch,species,tank,spawned,hatched,ended,outcome\nK1,kribensis,T1,2026-06-01T08:00,2026-06-04T20:00,2026-06-07,eaten\nK2,kribensis,T1,2026-03-01T08:00,2026-03-04T20:00,2026-03-09,eaten\n' }),
      now,
    );
    const strip = stripOf(plan);
    const { bands, told } = clutchRow(strip, 'K1');
    assert.deepEqual(bands.map(({ stage }) => stage), ['egg', 'wriggler']);
    assert.equal(formatDay(strip.firstDay + Math.floor(bands.at(-1)?.to ?? 0)), '2026-06-07');
    assert.match(told, /, ended Sun 7 Jun$/);
    assert.ok(!strip.rows.some(({ id }) => id === 'K2'));
  });

  it('shows rooms and tanks in walking order, each with its broods by their spawns, and what stands nowhere at the end', () => {
    const plan = roomOf(
      {
        'rooms.csv': 'room,name\nz,Front room\na,Back room\n',
        'tanks.csv': 'tank,room,position\nT1,a,2\nT2,a,1\nT10,z,2\nT9,z,1\nT3,a,3\n',
        'clutches.csv': ['clutch,species,tank,spawned', 'K1,kribensis,T1,2026-06-09T08:00', 'K2,kribensis,T2,2026-06-09T08:00', 'K3,kribensis,T10,2026-06-09T08:00', 'K4,kribensis,T9,2026-06-09T08:00', 'K5,kribensis,T2,2026-06-08T08:00', 'K6,kribensis,,2026-06-08T08:00'],
      },
      now,
    );
    assert.deepEqual(stripOf(plan).rows.map(({ kind, label }) => `${kind} ${label}`), [
      'room Front room', 'tank T9', 'clutch K4', 'tank T10', 'clutch K3',
      'room Back room', 'tank T2', 'clutch K5', 'clutch K2', 'tank T1', 'clutch K1',
      'room In no room', 'tank In no tank', 'clutch K6',
    ]);
  });

  it('shows work in a room on the room, in tanks on each of them, to the end of its last day', () => {
    const plan = roomOf(
      room({ 'clutches.csv': 'clutch,species,tank,spawned\n', 'maintenance.csv': 'job,what,tanks,room,from,to\nJ1,New lamps,,front,2026-06-15,2026-06-16\nJ2,Filters,T1 T3,,2026-06-20T08:00,2026-06-20T20:00\n' }),
      now,
    );
    const strip = stripOf(plan);
    const blocks = strip.rows.flatMap((row) => (row.kind === 'clutch' ? [] : row.blocks.map(({ text, from, to }) => `${row.label}: ${text} ${momentOf(strip, from, plan)} ${momentOf(strip, to, plan)}`)));
    assert.deepEqual(blocks, ['Front room: New lamps 2026-06-15T00:00 2026-06-17T00:00', 'T1: Filters 2026-06-20T08:00 2026-06-20T20:00', 'T3: Filters 2026-06-20T08:00 2026-06-20T20:00']);
    assert.match(strip.rows[0]?.told ?? '', /^Front room, New lamps, .*15.* to .*16/);
    assert.deepEqual(strip.rows.map(({ label }) => label), ['Front room', 'T1', 'Back room', 'T3']);
  });

  it('shows when a pair is expected to spawn next, as the list of what is ahead does', () => {
    const plan = filledRoom(room({ 'pairs.csv': 'pair,species,tank\nP1,kribensis,T1\n', 'clutches.csv': 'clutch,pair,tank,spawned,ended,outcome\nK1,P1,T1,2026-04-01T08:00,2026-04-03,eaten\nK2,P1,T1,2026-05-10T08:00,2026-05-12,eaten\n' }), now);
    const strip = stripOf(plan);
    const [block] = strip.rows.flatMap((row) => (row.kind === 'tank' ? row.blocks : []));
    assert.ok(block?.kind === 'spawn');
    const day = (place: number | undefined): string => formatDay(strip.firstDay + Math.floor(place ?? 0));
    const ahead = plan.ahead(60).find(({ kind }) => kind === 'next-spawn');
    assert.ok(ahead);
    assert.deepEqual([block.from, block.at, block.to - 0.001].map(day), [ahead.from, ahead.expected, ahead.to].map((each) => formatDay(each.day)));
  });

  it('begins a fifth before today and shows as much as is asked for', () => {
    const plan = roomOf(room({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-09T08:00\n' }), now);
    for (const days of [14, 28, 61, 122, 183, 365]) {
      const strip = stripOf(plan, { days });
      assert.deepEqual([strip.days, strip.firstDay], [days, plan.now.day - Math.round(days / 5)]);
      assert.equal(momentOf(strip, strip.now, plan), '2026-06-10T09:00');
      assert.ok(strip.ticks.length >= 4 && strip.ticks.length <= 21, `${days}: ${strip.ticks.length}`);
    }
    // What isn't a step that is offered is the usual one.
    assert.equal(stripOf(plan, { days: 17 }).days, 61);
    assert.equal(formatDay(stripOf(plan, { day: plan.now.day + 100 }).firstDay), '2026-09-18');
  });
});
