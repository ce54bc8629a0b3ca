import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatMoment, momentOfDay, parseDay } from '../../../src/base/moment';
import { hatchTime } from '../../../src/domain/cultures';
import type { Culture } from '../../../src/domain/cultures';
import { dayServed, foodOf, gramsFor, naupliiPerFry, vesselFor } from '../../../src/domain/liveFood';
import type { Eaters, FoodDay, Hatchery } from '../../../src/domain/liveFood';
import { timelineOf } from '../../../src/domain/timeline';
import type { Timeline } from '../../../src/domain/timeline';
import { aQuarter, cave, livebearer, mouthbrooder, studyOf } from '../../support/clutches';
import type { WrittenClutch } from '../../support/clutches';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import { berlin, moment } from '../../support/moments';

const HOUR = 3_600_000;
const zone = zoneOf('UTC') as Zone;
const slow = { yieldPerG: 200_000, hatchTime: hatchTime(undefined) as Hatchery['hatchTime'] };

/** Hatched three days after 1 March, fed from six days later on, swims ten days after the hatch. */
function timeline(written: WrittenClutch = {}): Timeline {
  return timelineOf(studyOf({ profile: { ...cave, first_feed_h: 144 }, now: '2026-03-02', ...written }), aQuarter, berlin);
}

function nauplii(day: string, of: Timeline): number {
  return naupliiPerFry(of, momentOfDay(parseDay(day) as number, berlin));
}

function hatch(ready: string, more: Partial<Culture> = {}): Culture {
  const started = moment(ready).instant - 36 * HOUR;
  return { culture: 'BS', food: 'brine_shrimp', started: { ...moment(ready), instant: started }, grams: 1, tempC: 26, yieldPerG: undefined, renewEvery: undefined, ended: undefined, ...more };
}

/** The plan of 1 April with rounds at eight and seven. */
function planned({ eaters, hatches = [], hatchery = slow }: { readonly eaters: readonly Eaters[]; readonly hatches?: readonly Culture[]; readonly hatchery?: Hatchery }): FoodDay | undefined {
  return foodOf(parseDay('2026-04-01') as number, { eaters, hatches, hatchery, feeds: { first: 480, last: 1140 }, zone: berlin });
}

describe('nauplii for a fry', () => {
  it('begin on the day of the first feed, and follow the stage that is expected', () => {
    const of = timeline();
    assert.deepEqual(['2026-03-09', '2026-03-10', '2026-03-13', '2026-03-14', '2026-04-12', '2026-04-13', '2026-07-21', '2026-07-22'].map((day) => nauplii(day, of)), [0, 30, 30, 100, 100, 200, 200, 0]);
  });

  it('begin at once where young are dropped, and at the release from the mouth', () => {
    assert.deepEqual(['2026-02-28', '2026-03-01'].map((day) => nauplii(day, timeline({ profile: livebearer }))), [0, 100]);
    assert.deepEqual(['2026-03-24', '2026-03-25'].map((day) => nauplii(day, timeline({ profile: mouthbrooder }))), [0, 100]);
  });

  it('begin when they were first fed, where that is recorded', () => {
    const of = timeline({ now: '2026-03-09T10:00', hatched: '2026-03-04', log: '2026-03-08T09:00 first_feed' });
    assert.deepEqual(['2026-03-07', '2026-03-08'].map((day) => nauplii(day, of)), [0, 30]);
  });

  it('are none where nobody knows whether they live, after the end, and of an unknown species', () => {
    assert.equal(nauplii('2026-03-30', timeline({ now: '2026-03-30' })), 0);
    assert.equal(nauplii('2026-03-30', timeline({ now: '2026-03-30', hatched: '2026-03-04', ended: '2026-03-20' })), 0);
    assert.equal(nauplii('2026-03-30', timeline({ profile: undefined, hatched: '2026-03-04' })), 0);
  });
});

describe('the vessel', () => {
  it('is the smallest in half litres', () => {
    assert.deepEqual([0.01, 2.5, 2.6, 5, 3.2, 97.4, 97.6, 98, 100].map(vesselFor), [0.5, 0.5, 1, 1, 1, 19.5, 49, 49, 50]);
  });

  it('never holds more than 5 g in a litre, nor more than 2 g where it holds 20 litres or more', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5000, noNaN: true }), (grams) => {
        const litres = vesselFor(grams);
        assert.ok(litres > 0 && grams / litres <= (litres < 20 ? 5 : 2) * (1 + 1e-5), `${grams} g in ${litres} l`);
      }),
    );
  });
});

describe('the food of a day', () => {
  const swimming = timeline({ hatched: '2026-03-04', now: '2026-03-20' });

  it('is one hatch for all broods together', () => {
    const food = planned({ eaters: [{ clutch: 'K1', fry: 2400, timeline: swimming }, { clutch: 'K2', fry: 4000, timeline: swimming }] });
    assert.deepEqual([food?.amount, food?.clutches], [{ fry: 6400, grams: 3.2, vesselL: 1, saltG: 25 }, ['K1', 'K2']]);
  });

  it('is started so long before the first round as a hatch takes', () => {
    const eaters = [{ clutch: 'K1', fry: 10, timeline: swimming }];
    const start = (celsius: number): string => formatMoment((planned({ eaters, hatchery: { ...slow, hatchTime: hatchTime(celsius) as Hatchery['hatchTime'] } }) as FoodDay).start, berlin);
    assert.deepEqual([start(26), start(28)], ['2026-03-30T20:00', '2026-03-31T08:00']);
    assert.equal(formatMoment((planned({ eaters }) as FoodDay).ready, berlin), '2026-04-01T08:00');
  });

  it('takes less of cysts that hatch better', () => {
    const grams = (yieldPerG: number): number | undefined => planned({ eaters: [{ clutch: 'K1', fry: 6400, timeline: swimming }], hatchery: { ...slow, yieldPerG } })?.amount?.grams;
    assert.deepEqual([grams(200_000), grams(320_000)], [3.2, 2]);
  });

  it('names broods that are not counted and leaves them out', () => {
    const food = planned({ eaters: [{ clutch: 'K1', fry: undefined, timeline: swimming }, { clutch: 'K2', fry: 2000, timeline: swimming }] });
    assert.deepEqual([food?.clutches, food?.uncounted, food?.amount?.fry], [['K2'], ['K1'], 2000]);
    assert.equal(planned({ eaters: [{ clutch: 'K1', fry: undefined, timeline: swimming }] })?.amount, undefined);
  });

  it('is nothing where nobody eats', () => {
    assert.equal(planned({ eaters: [{ clutch: 'K1', fry: 0, timeline: swimming }, { clutch: 'K2', fry: 60, timeline: timeline({ spawned: '2026-03-30' }) }] }), undefined);
    assert.equal(planned({ eaters: [] }), undefined);
    assert.deepEqual(planned({ eaters: [], hatches: [hatch('2026-04-01T07:30')] })?.coveredBy, ['BS'], 'but what is hatching is told');
  });

  it('is there where what hatches for that day is enough', () => {
    const covered = (...hatches: readonly Culture[]): readonly string[] | undefined => planned({ eaters: [{ clutch: 'K1', fry: 2000, timeline: swimming }], hatches })?.coveredBy;
    assert.deepEqual(covered(hatch('2026-04-01T07:30')), ['BS'], '200,000 nauplii for 200,000');
    assert.deepEqual(covered(hatch('2026-04-01T07:30', { grams: 0.9 })), []);
    assert.deepEqual(covered(hatch('2026-04-01T07:30', { grams: 0.8, yieldPerG: 250_000 })), ['BS']);
    assert.deepEqual(covered(hatch('2026-04-01T07:30', { grams: undefined })), ['BS'], 'who wrote no grams knows what was put in');
    assert.deepEqual(covered(hatch('2026-04-01T07:30', { culture: 'A', grams: 0.5 }), hatch('2026-04-01T06:00', { culture: 'B', grams: 0.5 })), ['A', 'B']);
    assert.deepEqual(covered(hatch('2026-03-31T07:30')), [], 'was for the day before');
    assert.deepEqual(covered(hatch('2026-04-01T19:30')), [], 'comes too late for it');
    assert.deepEqual(covered(hatch('2026-03-31T19:30')), ['BS'], 'after the last round of the day before');
  });
});

describe('a hatch', () => {
  it('is for one day alone, and one that is ready a day later for the next', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 400 * 24 * 60 }), fc.integer({ min: 0, max: 1300 }), fc.integer({ min: 0, max: 600 }), (minute, first, more) => {
        const feeds = { first, last: Math.min(1439, first + more) };
        const wall = Date.UTC(2026, 0, 1) + minute * 60_000;
        const days = [0, 1, 2].map((day) => {
          const instant = zone.instantOf(wall + day * 24 * HOUR) - 36 * HOUR;
          return dayServed(hatch('2026-01-01T00:00', { started: { instant, day: zone.dayOf(instant), bare: false, about: false } }), feeds, zone) as number;
        });
        assert.deepEqual(days.map((day) => day - (days[0] as number)), [0, 1, 2]);
        // Neither before it has hatched, but for the grace, nor when it is more than a day old.
        const age = zone.instantOf((days[0] as number) * 24 * HOUR + Math.max(feeds.last, first + 120) * 60_000) - zone.instantOf(wall);
        assert.ok(age >= 0 && age < 24 * HOUR + (feeds.last - first) * 60_000 + 2 * HOUR, `${age / HOUR} h`);
      }),
    );
  });

  it('that was started a little late still serves the first round', () => {
    const at = (ready: string): number | undefined => dayServed(hatch(ready), { first: 480, last: 480 }, berlin);
    assert.deepEqual([at('2026-04-01T10:00'), at('2026-04-01T10:01')], [parseDay('2026-04-01'), parseDay('2026-04-02')]);
  });

  it('takes so many grams as give the nauplii', () => {
    assert.equal(gramsFor(640_000, 200_000), 3.2);
  });
});
