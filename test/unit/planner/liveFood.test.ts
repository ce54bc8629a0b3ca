import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatDay, formatMoment } from '../../../src/base/moment';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import type { FoodDay } from '../../../src/domain/liveFood';
import { Plan } from '../../../src/planner/plan';
import { isToStart } from '../../../src/planner/liveFood';
import { moment } from '../../support/moments';
import { roomOf } from '../../support/room';

const species = 'species,care,ref_temp_c,hatch_h,first_feed_h,free_swim_h,juvenile_d,sale_d,release_d\ncaver,cave,26,72,144,240,40,90,\nmouther,mouthbrooder,26,,,,60,120,20\ndropper,livebearer,26,,,,30,90,\n';
const header = 'clutch,species,tank,spawned,eggs,hatched,free_swimming,ended';
const settings = '{"timezone":"Europe/Berlin","rounds":["19:00","08:00"]}';
const now = '2026-06-10T09:00';

/** Two hundred caver fry that swim, and nothing else. */
const swimming = 'K1,caver,T1,2026-05-10,,2026-05-13,2026-05-23,';
const counted = 'clutch,time,event,count\nK1,2026-05-24,counted,200\n';

function plan({ clutches = [swimming], log = counted, cultures = [], routines, config = settings, at = now }: { readonly clutches?: readonly string[]; readonly log?: string; readonly cultures?: readonly string[]; readonly routines?: string; readonly config?: string; readonly at?: string } = {}): Plan {
  return roomOf(
    { 'fishroom.json': config, 'species.csv': species, 'clutches.csv': [header, ...clutches], 'log.csv': log, 'cultures.csv': ['culture,food,started,grams,temp_c,yield_per_g,ended', ...cultures], ...(routines === undefined ? {} : { 'routines.csv': routines }) },
    at,
  );
}

/** `06-12 by 06-10T20:00: 0.1 g for 200 of K1` for each day. */
function days(room: Plan, ahead = 0): readonly string[] {
  return room.liveFood(ahead).map(({ day, start, amount, clutches, coveredBy }) => `${formatDay(day).slice(5)} by ${formatMoment(start, room.records.zone).slice(5)}: ${amount === undefined ? 'unknown' : `${amount.grams} g for ${amount.fry} of ${clutches.join(' ')}`}${coveredBy.length === 0 ? '' : `, there is ${coveredBy.join(' ')}`}`);
}

/** Of days that are still to be started. */
function toStart(room: Plan, ahead = 0): readonly string[] {
  const starts = room.liveFood(ahead).filter((food) => isToStart(food, room.now));
  return starts.map(({ day }) => formatDay(day).slice(5));
}

describe('brine shrimp for the room', () => {
  it('are started a day and a half before the first round of each day on which fry eat', () => {
    assert.deepEqual(days(plan(), 1), [
      '06-10 by 06-08T20:00: 0.1 g for 200 of K1',
      '06-11 by 06-09T20:00: 0.1 g for 200 of K1',
      '06-12 by 06-10T20:00: 0.1 g for 200 of K1',
      '06-13 by 06-11T20:00: 0.1 g for 200 of K1',
    ]);
    assert.deepEqual(toStart(plan(), 1), ['06-12', '06-13'], 'what was missed yesterday comes too late');
  });

  it('are hatched as the keeper last did: warmer in a day, and by the yield of the cysts', () => {
    const room = plan({ cultures: ['OLD,brine_shrimp,2026-05-01T20:00,1,25,300000,2026-05-04', 'BS,brine_shrimp,2026-06-01T20:00,1,28,250000,2026-06-03', 'NEXT,brine_shrimp,2026-06-11T20:00,1,25,300000,'] });
    assert.deepEqual(days(room).at(-1), '06-11 by 06-10T08:00: 0.08 g for 200 of K1');
  });

  it('are for the noon of a day where the fishroom names no rounds', () => {
    assert.deepEqual(days(plan({ config: '{"timezone":"Europe/Berlin"}' })).at(-1), '06-11 by 06-10T00:00: 0.1 g for 200 of K1');
  });

  it('begin with the first feed and change with the stages that are expected', () => {
    // Hatched 1 June, so the yolk is gone on the 7th; swims from the 11th on.
    const room = plan({ clutches: ['K1,caver,T1,2026-05-29,,2026-06-01,,'], log: 'clutch,time,event,count\nK1,2026-06-02,counted,200\n', at: '2026-06-05T09:00' });
    assert.deepEqual(days(room, 5).map((line) => line.replace(/ by .*: /, ' ')), ['06-07 0.03 g for 200 of K1', '06-08 0.03 g for 200 of K1', '06-09 0.03 g for 200 of K1', '06-10 0.03 g for 200 of K1', '06-11 0.1 g for 200 of K1', '06-12 0.1 g for 200 of K1']);
  });

  it('are for the eggs while nobody has counted, and not known without a number', () => {
    assert.deepEqual(days(plan({ clutches: ['K1,caver,T1,2026-05-10,~150,2026-05-13,2026-05-23,'], log: 'clutch,time,event\n' })).at(-1), '06-12 by 06-10T20:00: 0.075 g for 150 of K1');
    const room = plan({ clutches: [swimming, 'K2,caver,T2,2026-05-10,,2026-05-13,2026-05-23,'] });
    assert.deepEqual([days(room).at(-1), room.liveFood(0).at(-1)?.uncounted], ['06-12 by 06-10T20:00: 0.1 g for 200 of K1', ['K2']]);
    assert.deepEqual(toStart(plan({ log: 'clutch,time,event\n' })), [], 'nothing that could be told');
  });

  it('feed young that were dropped or released, and nobody that has ended, is sold, grown or unanswered', () => {
    const clutches = ['D1,dropper,T1,2026-06-01,,,,', 'M1,mouther,T2,2026-05-20,,,,', 'E1,caver,T3,2026-05-10,,2026-05-13,,2026-06-01', 'S1,caver,T4,2026-05-10,,2026-05-13,,', 'G1,caver,T5,2026-01-10,,2026-01-13,,', 'U1,caver,T6,2026-05-10,90,,,'];
    const log = 'clutch,time,event,count\nD1,2026-06-02,counted,20\nM1,2026-06-09,released,\nM1,2026-06-09,counted,20\nE1,2026-05-30,counted,50\nS1,2026-05-30,counted,50\nS1,2026-06-01,sold,50\nG1,2026-05-30,counted,50\n';
    assert.deepEqual(days(plan({ clutches, log })).at(-1), '06-12 by 06-10T20:00: 0.02 g for 40 of D1 M1');
  });

  it('are left to a hatch that is running, on its day alone', () => {
    const started = (...cultures: readonly string[]): readonly string[] => toStart(plan({ cultures }), 2);
    assert.deepEqual(started('BS,brine_shrimp,2026-06-10T08:30,0.2,26,,'), ['06-13', '06-14']);
    assert.deepEqual(started('BS,brine_shrimp,2026-06-10T08:30,0.2,26,,2026-06-10T08:50'), ['06-12', '06-13', '06-14'], 'thrown away');
    assert.deepEqual(started('BS,brine_shrimp,2026-06-10T08:30,0.05,26,,'), ['06-12', '06-13', '06-14'], 'too few');
    assert.deepEqual(started('BS,brine_shrimp,2026-06-10T20:00,0.2,26,,'), ['06-12', '06-13', '06-14'], 'not begun');
    assert.deepEqual(started('MW,microworm,2026-06-07,0.2,26,,'), ['06-12', '06-13', '06-14'], 'other food');
  });

  it('are none for broods of which the keeper has switched the routine off', () => {
    const clutches = [swimming, 'D1,dropper,T1,2026-06-01,20,,,'];
    const off = (row: string): readonly string[] => plan({ clutches, routines: `routine,action,about,care,species,off\n${row}\n` }).liveFood(0).at(-1)?.clutches ?? [];
    assert.deepEqual(off('shrimp,,clutch,,dropper,yes'), ['K1']);
    assert.deepEqual(off('shrimp,,clutch,,,yes'), []);
    assert.deepEqual(off('shrimp,,clutch,,,no'), ['D1', 'K1']);
  });
});

interface AnyBrood {
  readonly kind: string;
  readonly age: number;
  readonly count: number | undefined;
  readonly eggs: number | undefined;
  readonly born: boolean;
}

const anyBrood: fc.Arbitrary<AnyBrood> = fc.record({
  kind: fc.constantFrom('caver', 'mouther', 'dropper'),
  age: fc.integer({ min: 0, max: 140 }),
  count: fc.option(fc.nat(400), { nil: undefined }),
  eggs: fc.option(fc.nat(400), { nil: undefined }),
  born: fc.boolean(),
});
const anyRoom = fc.record({ zone: fc.constantFrom('UTC', 'Europe/Berlin', 'Pacific/Auckland', 'America/St_Johns'), rounds: fc.constantFrom([], ['08:00'], ['07:30', '19:00']), broods: fc.uniqueArray(anyBrood, { minLength: 1, maxLength: 6, selector: ({ age }) => age }), turn: fc.nat(9), now: fc.integer({ min: 0, max: 365 * 24 }) });
type AnyRoom = typeof anyRoom extends fc.Arbitrary<infer Room> ? Room : never;

/** A room's texts; the rows turned so far round, and the files with them. */
function planOf({ zone: name, rounds, broods, now: hours }: AnyRoom, { turn = 0, more = [], cultures = [] }: { readonly turn?: number; readonly more?: readonly string[]; readonly cultures?: readonly string[] } = {}): Plan {
  const zone = zoneOf(name) as Zone;
  const instant = moment('2026-01-15T09:00').instant + hours * 3_600_000;
  const today = zone.dayOf(instant);
  const turned = <Item>(items: readonly Item[]): readonly Item[] => [...items.slice(turn % Math.max(1, items.length)), ...items.slice(0, turn % Math.max(1, items.length))];
  const rows = broods.map(({ kind, age, eggs }, i) => `K${i},${kind},T${i},${formatDay(today - age)},${eggs ?? ''},,,`);
  const logs = broods.flatMap(({ kind, age, count, born }, i) => {
    const day = formatDay(today - Math.max(0, age - 30));
    return [...(born && kind !== 'dropper' ? [`K${i},${day},${kind === 'caver' ? 'hatched' : 'released'},`] : []), ...(count === undefined ? [] : [`K${i},${formatDay(today)},counted,${count}`])];
  });
  const texts = { 'fishroom.json': JSON.stringify({ timezone: name, rounds }), 'species.csv': species, 'clutches.csv': `${[header, ...turned([...rows, ...more])].join('\n')}\n`, 'log.csv': `${['clutch,time,event,count', ...turned(logs)].join('\n')}\n`, 'cultures.csv': `${['culture,food,started,grams,temp_c', ...turned(cultures)].join('\n')}\n` };
  const made = new Plan({ machineZone: zoneOf('UTC') as Zone, now: instant });
  made.apply(turned(Object.entries(texts)).map(([path, text]) => ({ path, file: { text } })));
  return made;
}

function shown(room: Plan): readonly FoodDay[] {
  return room.liveFood(9);
}

describe('the plan of brine shrimp', () => {
  it('is one for each day, never below nothing, and starts in time for its own day', () => {
    fc.assert(
      fc.property(anyRoom, (room) => {
        const made = planOf(room);
        const all = shown(made);
        assert.equal(new Set(all.map(({ day }) => day)).size, all.length);
        for (const { day, start, ready, amount, clutches, uncounted, coveredBy } of all) {
          assert.equal(ready.day, day);
          assert.equal(ready.instant - start.instant, 36 * 3_600_000);
          assert.equal(amount === undefined, clutches.length === 0);
          assert.ok(clutches.length + uncounted.length > 0);
          assert.deepEqual(coveredBy, []);
          if (amount !== undefined) assert.ok(amount.fry > 0 && amount.grams > 0 && amount.grams <= (amount.fry * 200) / 200_000 && amount.vesselL >= 0.5 && amount.saltG === 25 * amount.vesselL);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('is the same however rows and files are ordered', () => {
    fc.assert(
      fc.property(anyRoom, (room) => {
        const day = zoneOf(room.zone)?.dayOf(moment('2026-01-15T09:00').instant + room.now * 3_600_000) as number;
        const cultures = [`B,brine_shrimp,${formatDay(day - 1)}T20:00,1,28`, `A,brine_shrimp,${formatDay(day - 1)}T20:00,1,25`, `C,brine_shrimp,${formatDay(day - 2)},0.1,`];
        assert.deepEqual(shown(planOf(room, { turn: room.turn, cultures })), shown(planOf(room, { cultures })));
      }),
      { numRuns: 60 },
    );
  });

  it('does not change with a brood of which nobody knows whether it lives, nor with one that has ended', () => {
    fc.assert(
      fc.property(anyRoom, (room) => {
        const day = zoneOf(room.zone)?.dayOf(moment('2026-01-15T09:00').instant + room.now * 3_600_000) as number;
        const more = [`U,caver,T9,${formatDay(day - 20)},90,,,`, `E,dropper,T9,${formatDay(day - 20)},90,,,${formatDay(day - 1)}`];
        const made = planOf(room, { more });
        assert.deepEqual(shown(made), shown(planOf(room)));
      }),
      { numRuns: 60 },
    );
  });

  it('is silent on the day for which a hatch is running, and on no other', () => {
    fc.assert(
      fc.property(anyRoom, fc.nat(23), (room, ago) => {
        const zone = zoneOf(room.zone) as Zone;
        const without = planOf(room);
        const started = formatMoment({ instant: without.now.instant - ago * 3_600_000, day: 0, bare: false, about: false }, zone);
        const withHatch = planOf(room, { cultures: [`BS,brine_shrimp,${started},50,26`] });
        const covered = shown(withHatch).filter(({ coveredBy }) => coveredBy.length > 0);
        assert.ok(covered.length <= 1);
        const eating = shown(withHatch).filter(({ clutches, uncounted }) => clutches.length + uncounted.length > 0);
        assert.deepEqual(eating.map((food) => ({ ...food, coveredBy: [] })), shown(without));
        const planned = shown(without).map(({ day }) => day);
        // It is ready a day and a half after its start: on that day or the next there is one feed to serve.
        const day = zone.dayOf(without.now.instant - ago * 3_600_000 + 36 * 3_600_000);
        if (planned.includes(day) && planned.includes(day + 1)) assert.equal(covered.length, 1);
      }),
      { numRuns: 60 },
    );
  });
});
