import assert from 'node:assert/strict';
import { TZDate } from '@date-fns/tz';
import { addDays } from 'date-fns';
import fc from 'fast-check';
import { addDuration, parseDuration, type Duration } from '../../../src/base/duration';
import { formatMoment, momentAt, momentOfDay, parseMoment } from '../../../src/base/moment';
import { dayMs, zoneOf, type Zone } from '../../../src/base/zone';

const hour = 3_600_000;

function zone(name: string): Zone {
  const found = zoneOf(name);
  assert.ok(found, `${name} is known`);
  return found;
}

describe('parseDuration', () => {
  for (const [text, days, ms, hasTime] of [
    ['PT36H', 0, 36 * hour, true],
    ['P14D', 14, 0, false],
    ['-P7D', -7, 0, false],
    ['+P7D', 7, 0, false],
    ['P1W', 7, 0, false],
    ['-P2W', -14, 0, false],
    ['P1DT12H', 1, 12 * hour, true],
    ['-P1DT12H', -1, -12 * hour, true],
    ['PT30M', 0, hour / 2, true],
    ['PT1H30M20S', 0, 1.5 * hour + 20_000, true],
    ['PT90S', 0, 90_000, true],
    ['P0D', 0, 0, false],
    ['-P0D', 0, 0, false],
    ['PT0H', 0, 0, true],
    ['-PT0H', 0, 0, true],
    ['P007D', 7, 0, false],
  ] as const) {
    it(`reads ${text}`, () => {
      assert.deepEqual(parseDuration(text), { days, ms, hasTime });
    });
  }

  for (const text of [
    '', 'P', 'PT', '-P', 'P1DT', '14D', 'P14', 'p14d', 'P1Y', 'P1M', 'P1Y2M', 'PT1.5H', 'PT1,5H', 'P1.5D', 'P-7D', '--P7D', '- P7D',
    'P1W2D', 'P1WT1H', 'PT1M1H', 'PT1D', 'P1H', 'P7D ', ' P7D', 'P7Dx', 'P7D\n', 'P1234567890D', '36h', '−P7D',
  ]) {
    it(`takes no ${JSON.stringify(text)}`, () => {
      assert.equal(parseDuration(text), undefined);
    });
  }
});

describe('addDuration', () => {
  for (const [name, from, duration, to] of [
    ['Europe/Berlin', '2026-03-28T12:00', 'P1D', '2026-03-29T12:00'],
    ['Europe/Berlin', '2026-03-28T12:00', 'PT24H', '2026-03-29T13:00'],
    ['Europe/Berlin', '2026-03-29T12:00', '-P1D', '2026-03-28T12:00'],
    ['Europe/Berlin', '2026-03-28T02:30', 'P1D', '2026-03-29T03:30'],
    ['Europe/Berlin', '2026-03-28T02:30', 'P1DT12H', '2026-03-29T15:30'],
    ['Europe/Berlin', '2026-10-25T12:00', '-PT24H', '2026-10-24T13:00'],
    ['Europe/Berlin', '2026-03-04', 'P14D', '2026-03-18'],
    ['Europe/Berlin', '~2026-03-04', '-P1W', '~2026-02-25'],
    ['Europe/Berlin', '2026-03-28', 'PT36H', '2026-03-30T01:00'],
    ['Europe/Berlin', '2026-03-28', 'P1DT12H', '2026-03-30T00:00'],
    ['Europe/Berlin', '~2026-03-04', 'PT0H', '~2026-03-04T12:00'],
    ['Europe/Berlin', '~2026-03-04T08:00', 'PT30M', '~2026-03-04T08:30'],
    ['America/St_Johns', '2026-03-07T23:00', 'PT3H', '2026-03-08T03:00'],
    ['Pacific/Auckland', '2026-04-04', 'P1DT14H', '2026-04-06T02:00'],
    ['Australia/Lord_Howe', '2026-10-03T02:10', 'P1D', '2026-10-04T02:40'],
    ['UTC', '2026-12-31T23:30', 'PT30M', '2027-01-01T00:00'],
  ] as const) {
    it(`makes ${from} ${duration} ${to} in ${name}`, () => {
      const moment = parseMoment(from, zone(name));
      const length = parseDuration(duration);
      assert.ok(moment && length);
      const later = addDuration(moment, length, zone(name));
      assert.equal(formatMoment(later, zone(name)), to);
      assert.deepEqual(later, parseMoment(to, zone(name)));
    });
  }

  it('leaves the second instant of an overlap where it is', () => {
    const berlin = zone('Europe/Berlin');
    const second = Date.UTC(2026, 9, 25, 1, 30);
    const nothing: Duration = { days: 0, ms: 0, hasTime: false };
    assert.equal(addDuration(momentAt(second, berlin), nothing, berlin).instant, second);
  });

  it('adds days as date-fns does wherever the clocks stay', () => {
    const names = fc.constantFrom('UTC', 'Pacific/Auckland', 'America/St_Johns', 'Europe/Berlin', 'Australia/Lord_Howe');
    const instants = fc.integer({ min: Date.UTC(1990, 0) / 60_000, max: Date.UTC(2090, 0) / 60_000 }).map((m) => m * 60_000);
    fc.assert(
      fc.property(names, instants, fc.integer({ min: -1000, max: 1000 }), (name, instant, days) => {
        const where = zone(name);
        const later = addDuration(momentAt(instant, where), { days, ms: 0, hasTime: false }, where);
        fc.pre(where.offsetAt(later.instant - dayMs) === where.offsetAt(later.instant + dayMs));
        assert.equal(later.instant, addDays(new TZDate(instant, name), days).getTime());
        assert.equal(later.day, where.dayOf(instant) + days);
        assert.equal(addDuration(momentOfDay(later.day, where), { days: -days, ms: 0, hasTime: false }, where).day, where.dayOf(instant));
      }),
      { numRuns: 2000 },
    );
  });
});
