import assert from 'node:assert/strict';
import { tz, tzOffset } from '@date-fns/tz';
import { addDays, differenceInCalendarDays, format, parseISO } from 'date-fns';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import { Plan } from '../../../src/planner/plan';
import { moment } from '../../support/moments';
import { cell, roomOf } from '../../support/room';

/**
 * Around both changes of the clocks in 2026, from the IANA time zone database (dates from memory, checked below against
 * the runtime's copy through @date-fns/tz): in summer time's zone the day on which it begins and the day on which it ends.
 */
const places = [
  { name: 'UTC', begins: undefined, ends: undefined },
  { name: 'Europe/Berlin', begins: '2026-03-29', ends: '2026-10-25' },
  { name: 'Pacific/Auckland', begins: '2026-09-27', ends: '2026-04-05' },
  { name: 'America/St_Johns', begins: '2026-03-08', ends: '2026-11-01' },
] as const;

const hour = 3_600_000;

/** A room whose fishroom.json names the zone; the machine's may be another. */
function room(zone: string, clutches: string, now: string, more: Readonly<Record<string, string>> = {}): Plan {
  return roomOf({ 'fishroom.json': JSON.stringify({ timezone: zone }), 'species.csv': 'species,care,hatch_h,sale_d,interval_d\nmine,cave,72,90,30\n', 'clutches.csv': clutches, ...more }, now);
}

const headers = 'clutch,species,tank,spawned,hatched,age_days,stage,hatch_expected,sale_expected';

/** What a clutch's row says once it is filled, without what the keeper wrote. */
function filledCells(plan: Plan): readonly string[] {
  plan.apply([{ path: 'clutches.csv', edits: plan.fills('clutches.csv', { overwrite: true }).changes.flatMap(({ edits }) => edits) }]);
  return ['age_days', 'stage', 'hatch_expected', 'sale_expected'].map((header) => cell(plan, 'clutches.csv', 'K1', header));
}

/** The day before or after. */
function shifted(day: string, by: number): string {
  return format(addDays(parseISO(day), by), 'yyyy-MM-dd');
}

describe('the clock of a fishroom', () => {
  for (const { name, begins, ends } of places) {
    const changes = [begins, ends].filter((day) => day !== undefined);

    it(`${name}: the clocks change on the days that are tested here`, () => {
      for (const day of changes) {
        const [before, after] = [`${day}T00:00`, `${day}T23:59`].map((text) => tzOffset(name, new Date(moment(text, zoneOf(name)).instant)));
        assert.notEqual(before, after, day);
      }
    });

    for (const day of changes.length > 0 ? changes : ['2026-03-29']) {
      it(`${name}, around ${day}: hours are 60 minutes long, so a hatch after 72 h shows the change of the clock`, () => {
        const spawned = `${shifted(day, -1)}T19:30`;
        const [, , hatch] = filledCells(room(name, `${headers}\nK1,mine,T1,${spawned},,,,,\n`, `${shifted(day, 1)}T09:00`));
        // Source: the same moment on another's clock, by date-fns and @date-fns/tz.
        const instant = moment(spawned, zoneOf(name)).instant + 72 * hour;
        assert.equal(hatch, format(instant, "yyyy-MM-dd'T'HH:mm", { in: tz(name) }));
        const change = changes.length === 0 ? 0 : day === begins ? 1 : -1;
        assert.equal(hatch, `${shifted(day, 2)}T${String(19 + change)}:30`);
      });

      it(`${name}, around ${day}: ages are days of the calendar, whatever their length`, () => {
        for (const [spawned, now] of [
          [`${shifted(day, -1)}T23:59`, `${day}T00:01`],
          [`${day}T00:01`, `${shifted(day, 1)}T00:01`],
          [`${day}T00:01`, `${day}T23:59`],
          [shifted(day, -1), `${shifted(day, 1)}T23:59`],
        ] as const) {
          const [age] = filledCells(room(name, `${headers}\nK1,mine,T1,${spawned},,,,,\n`, now));
          const context = { in: tz(name) };
          // Source: date-fns' calendar days in the zone.
          const wanted = differenceInCalendarDays(moment(now, zoneOf(name)).instant, moment(spawned, zoneOf(name)).instant, context);
          assert.equal(age, String(wanted), `${spawned} to ${now}`);
        }
      });

      it(`${name}, around ${day}: a bare day stays a bare day, and its sale a day`, () => {
        assert.deepEqual(filledCells(room(name, `${headers}\nK1,mine,T1,${shifted(day, -4)},${shifted(day, -1)},,,,\n`, `${shifted(day, 1)}T09:00`)), ['5', 'wriggler', shifted(day, -1), shifted(day, 89)]);
      });

      it(`${name}, around ${day}: intervals and the next spawn are counted in days of the calendar`, () => {
        const plan = room(name, `clutch,pair,tank,spawned,spawn_interval_days\nK0,P1,T1,${shifted(day, -15)}T23:30,\nK1,P1,T1,${shifted(day, 15)}T00:30,\n`, `${shifted(day, 16)}T09:00`, {
          'pairs.csv': 'pair,species,tank,next_spawn_expected\nP1,mine,T1,\n',
        });
        for (const path of ['clutches.csv', 'pairs.csv']) plan.apply([{ path, edits: plan.fills(path, { overwrite: true }).changes.flatMap(({ edits }) => edits) }]);
        assert.equal(cell(plan, 'clutches.csv', 'K1', 'spawn_interval_days'), '30');
        assert.equal(cell(plan, 'pairs.csv', 'P1', 'next_spawn_expected'), shifted(day, 45));
      });
    }
  }

  it('moves a time that the clocks leave out forward, and takes the first of one that comes twice', () => {
    const at = (spawned: string, now: string): readonly string[] => filledCells(room('Europe/Berlin', `${headers}\nK1,mine,T1,${spawned},,,,,\n`, now));
    assert.equal(at('2026-03-29T02:30', '2026-03-30T09:00')[2], '2026-04-01T03:30');
    // 02:30 summer time is 00:30Z; 72 h later the clocks show an hour less.
    assert.equal(at('2026-10-25T02:30', '2026-10-26T09:00')[2], '2026-10-28T01:30');
    assert.equal(at('2026-10-25T02:30+01:00', '2026-10-26T09:00')[2], '2026-10-28T02:30');
  });

  it('says the same of the same room in another zone, as long as no offset is written and no clock changes', () => {
    const text = `${headers}\nK1,mine,T1,2026-06-05T19:30,,,,,\n`;
    for (const { name } of places) assert.deepEqual(filledCells(room(name, text, '2026-06-10T09:00')), ['5', 'wriggler', '2026-06-08T19:30', '2026-09-06'], name);
  });

  it('tells one moment with an offset as each place’s clock shows it', () => {
    const shown = places.map(({ name }) => filledCells(room(name, `${headers}\nK1,mine,T1,2026-06-05T22:30Z,,,,,\n`, '2026-06-10T09:00')));
    assert.deepEqual(shown, [
      ['5', 'wriggler', '2026-06-08T22:30', '2026-09-06'],
      ['4', 'wriggler', '2026-06-09T00:30', '2026-09-07'],
      ['4', 'wriggler', '2026-06-09T10:30', '2026-09-07'],
      ['5', 'wriggler', '2026-06-08T20:00', '2026-09-06'],
    ]);
  });

  it('begins a new day at the midnight of the fishroom', () => {
    for (const { name } of places) {
      const plan = room(name, `${headers}\nK1,mine,T1,2026-06-05T19:30,,,,,\n`, '2026-06-09T12:00');
      const next = plan.nextChange;
      assert.equal(next, moment('2026-06-10T00:00', zoneOf(name)).instant, name);
    }
  });

  it('is the machine’s where fishroom.json names none, and that of fishroom.json as soon as it does', () => {
    const auckland = zoneOf('Pacific/Auckland') as Zone;
    const plan = new Plan({ machineZone: auckland, now: Date.UTC(2026, 5, 9, 20) });
    plan.apply([{ path: 'clutches.csv', file: { text: `${headers}\nK1,mine,T1,2026-06-10T07:59,,,,,\n` } }]);
    assert.deepEqual(plan.problems('clutches.csv').filter(({ code }) => code === 'time-future'), []);
    plan.apply([{ path: 'fishroom.json', file: { text: '{"timezone": "Europe/Berlin"}' } }]);
    assert.equal(plan.problems('clutches.csv').filter(({ code }) => code === 'time-future').length, 1);
    plan.apply([{ path: 'fishroom.json', file: undefined }]);
    assert.deepEqual(plan.problems('clutches.csv').filter(({ code }) => code === 'time-future'), []);
  });
});
