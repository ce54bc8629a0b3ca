import assert from 'node:assert/strict';
import { TZDate } from '@date-fns/tz';
import { differenceInCalendarDays } from 'date-fns';
import fc from 'fast-check';
import { dayMs, zoneOf, type Zone } from '../../../src/base/zone';

const hour = 3_600_000;
const names = ['UTC', 'Pacific/Auckland', 'America/St_Johns', 'Europe/Berlin', 'Australia/Lord_Howe'];
const anyName = fc.constantFrom(...names);
const anyInstant = fc.integer({ min: Date.UTC(1970, 0, 1) / 1000, max: Date.UTC(2100, 0, 1) / 1000 }).map((s) => s * 1000);

/** Within two days of a change of clocks, where mistakes live. */
const nearChange = fc
  .record({
    year: fc.integer({ min: 1970, max: 2099 }),
    month: fc.constantFrom(2, 3, 8, 9, 10),
    minutes: fc.integer({ min: 0, max: 31 * 24 * 60 }),
  })
  .map(({ year, month, minutes }) => Date.UTC(year, month, 1) + minutes * 60_000);

function zone(name: string): Zone {
  const found = zoneOf(name);
  assert.ok(found, `${name} is known`);
  return found;
}

describe('zoneOf', () => {
  it('gives one zone for one name', () => {
    assert.equal(zoneOf('Europe/Berlin'), zoneOf('Europe/Berlin'));
    assert.equal(zone('Europe/Berlin').name, 'Europe/Berlin');
  });

  for (const name of ['', 'Atlantis', 'Europe/Berln', '+05:00', '-0330', 'Atlantis+05', '__proto__', 'constructor', ' UTC']) {
    it(`knows no ${JSON.stringify(name)}`, () => {
      assert.equal(zoneOf(name), undefined);
    });
  }
});

describe('offsetAt', () => {
  it('equals the offset of @date-fns/tz', () => {
    fc.assert(
      fc.property(anyName, fc.oneof(anyInstant, nearChange), (name, instant) => {
        assert.equal(zone(name).offsetAt(instant), -new TZDate(instant, name).getTimezoneOffset() * 60_000);
      }),
      { numRuns: 2000 },
    );
  });

  // Directive 2000/84/EC (from memory): summer time begins and ends at 01:00 UTC on the last Sundays of March and October.
  it('changes in Berlin at 01:00 UTC on the last Sundays of March and October', () => {
    for (let year = 1997; year < 2200; year++) {
      for (const [month, before, after] of [[2, 1, 2], [9, 2, 1]] as const) {
        const last = Date.UTC(year, month, 31);
        const change = last - new Date(last).getUTCDay() * dayMs + hour;
        assert.equal(zone('Europe/Berlin').offsetAt(change - 1), before * hour, `before ${new Date(change).toISOString()}`);
        assert.equal(zone('Europe/Berlin').offsetAt(change), after * hour, `from ${new Date(change).toISOString()}`);
      }
    }
  });

  it('has the seconds of old local times', () => {
    // tz database (from memory): Newfoundland stood at -3:30:52 until 1935, Amsterdam at +0:19:32 until 1937.
    assert.equal(zone('America/St_Johns').offsetAt(Date.UTC(1930, 0, 1)), -(3.5 * hour + 52_000));
    const before = zone('America/St_Johns').offsetAt(Date.UTC(1935, 2, 30, 3, 30, 51));
    const after = zone('America/St_Johns').offsetAt(Date.UTC(1935, 2, 30, 3, 30, 52));
    assert.deepEqual([before, after], [-(3.5 * hour + 52_000), -3.5 * hour]);
  });

  it('stays a number far outside the calendar', () => {
    for (const instant of [NaN, Infinity, -Infinity, 9e15, -9e15, Date.UTC(1200, 0), Date.UTC(9999, 6)]) {
      for (const name of names) {
        assert.ok(Number.isFinite(zone(name).offsetAt(instant)), `${name} at ${instant}`);
      }
    }
    assert.equal(zone('Europe/Berlin').offsetAt(Date.UTC(9999, 6)), hour);
  });
});

describe('instantOf', () => {
  it('is the way back from every instant but the second of an overlap', () => {
    fc.assert(
      fc.property(anyName, fc.oneof(anyInstant, nearChange), (name, instant) => {
        const { offsetAt, instantOf } = bound(name);
        const back = instantOf(instant + offsetAt(instant));
        assert.ok(back <= instant);
        if (back !== instant) assert.equal(back + offsetAt(back), instant + offsetAt(instant));
      }),
      { numRuns: 2000 },
    );
  });

  it('gives the first instant that shows the wall time, or one moved forward by the gap', () => {
    fc.assert(
      fc.property(anyName, fc.oneof(anyInstant, nearChange), (name, wall) => {
        const { offsetAt, instantOf } = bound(name);
        const offsets = [...new Set([offsetAt(wall - dayMs), offsetAt(wall + dayMs)])];
        const shown = offsets.map((offset) => wall - offset).filter((instant) => instant + offsetAt(instant) === wall);
        const instant = instantOf(wall);
        if (shown.length > 0) assert.equal(instant, Math.min(...shown));
        else assert.equal(instant + offsetAt(instant) - wall, Math.max(...offsets) - Math.min(...offsets));
      }),
      { numRuns: 2000 },
    );
  });

  it('equals @date-fns/tz wherever the wall shows the time once', () => {
    fc.assert(
      fc.property(anyName, fc.oneof(anyInstant, nearChange), (name, wall) => {
        const { offsetAt, instantOf } = bound(name);
        fc.pre(offsetAt(wall - dayMs) === offsetAt(wall + dayMs));
        const u = new Date(wall);
        const oracle = new TZDate(u.getUTCFullYear(), u.getUTCMonth(), u.getUTCDate(), u.getUTCHours(), u.getUTCMinutes(), u.getUTCSeconds(), name);
        assert.equal(instantOf(wall), oracle.getTime());
      }),
      { numRuns: 2000 },
    );
  });

  for (const [title, name, wall, instant] of [
    ['forward out of a gap', 'Europe/Berlin', Date.UTC(2026, 2, 29, 2, 30), Date.UTC(2026, 2, 29, 1, 30)],
    ['to the first of an overlap', 'Europe/Berlin', Date.UTC(2026, 9, 25, 2, 30), Date.UTC(2026, 9, 25, 0, 30)],
    ['forward by half an hour', 'Australia/Lord_Howe', Date.UTC(2026, 9, 4, 2, 15), Date.UTC(2026, 9, 3, 15, 45)],
    ['to the first in a half-hour overlap', 'Australia/Lord_Howe', Date.UTC(2026, 3, 5, 1, 45), Date.UTC(2026, 3, 4, 14, 45)],
    ['to the first in the south', 'Pacific/Auckland', Date.UTC(2026, 3, 5, 2, 30), Date.UTC(2026, 3, 4, 13, 30)],
    ['forward out of a gap of a whole day', 'Pacific/Apia', Date.UTC(2011, 11, 30, 12), Date.UTC(2011, 11, 30, 22)],
    ['by 45 minutes', 'Asia/Kathmandu', Date.UTC(2026, 0, 1), Date.UTC(2025, 11, 31, 18, 15)],
  ] as const) {
    it(`goes ${title} in ${name}`, () => {
      assert.equal(zone(name).instantOf(wall), instant);
    });
  }
});

describe('dayOf', () => {
  it('counts days as date-fns does', () => {
    fc.assert(
      fc.property(anyName, anyInstant, fc.oneof(anyInstant, nearChange), (name, a, b) => {
        const days = zone(name).dayOf(a) - zone(name).dayOf(b);
        assert.equal(days, differenceInCalendarDays(new TZDate(a, name), new TZDate(b, name)) + 0);
      }),
      { numRuns: 2000 },
    );
  });
});

function bound(name: string): { offsetAt: (instant: number) => number; instantOf: (wall: number) => number } {
  const found = zone(name);
  return { offsetAt: (instant) => found.offsetAt(instant), instantOf: (wall) => found.instantOf(wall) };
}
