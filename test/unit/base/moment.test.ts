import assert from 'node:assert/strict';
import { differenceInCalendarDays, parseISO } from 'date-fns';
import fc from 'fast-check';
import {
  compareMoments,
  formatDay,
  formatMoment,
  nearestMinuteOfDay,
  momentAt,
  momentOfDay,
  nearestMinute,
  parseDay,
  parseMoment,
  type Moment,
} from '../../../src/base/moment';
import { dayMs, zoneOf, type Zone } from '../../../src/base/zone';

const names = ['UTC', 'Pacific/Auckland', 'America/St_Johns', 'Europe/Berlin', 'Australia/Lord_Howe'];
const anyZone = fc.constantFrom(...names).map((name) => zone(name));
const anyMinute = fc.integer({ min: Date.UTC(1971, 0) / 60_000, max: Date.UTC(2100, 0) / 60_000 }).map((m) => m * 60_000);
const anyDay = fc.integer({ min: -25_567, max: 84_005 });
const berlin = zone('Europe/Berlin');
const newfoundland = zone('America/St_Johns');

function zone(name: string): Zone {
  const found = zoneOf(name);
  assert.ok(found, `${name} is known`);
  return found;
}

function dayNumber(year: number, month: number, day: number): number {
  return Date.UTC(year, month - 1, day) / dayMs;
}

describe('parseMoment', () => {
  const march4 = dayNumber(2026, 3, 4);
  const timed = (instant: number, day = march4): Moment => ({ instant, day, bare: false, about: false });

  for (const [text, moment] of [
    ['2026-03-04', { instant: Date.UTC(2026, 2, 4, 11), day: march4, bare: true, about: false }],
    ['~2026-03-04', { instant: Date.UTC(2026, 2, 4, 11), day: march4, bare: true, about: true }],
    ['2026-03-04T19:30', timed(Date.UTC(2026, 2, 4, 18, 30))],
    ['2026-03-04 19:30', timed(Date.UTC(2026, 2, 4, 18, 30))],
    ['~2026-03-04 19:30', { ...timed(Date.UTC(2026, 2, 4, 18, 30)), about: true }],
    ['2026-03-04T00:00', timed(Date.UTC(2026, 2, 3, 23))],
    ['2026-03-04T19:30:15', timed(Date.UTC(2026, 2, 4, 18, 30, 15))],
    ['2026-03-04T19:30:15.5', timed(Date.UTC(2026, 2, 4, 18, 30, 15, 500))],
    ['2026-03-04T19:30:15.123456789', timed(Date.UTC(2026, 2, 4, 18, 30, 15, 123))],
    ['2026-03-04T19:30Z', timed(Date.UTC(2026, 2, 4, 19, 30))],
    ['2026-03-04T19:30:15.25Z', timed(Date.UTC(2026, 2, 4, 19, 30, 15, 250))],
    ['2026-03-04T19:30-03:30', timed(Date.UTC(2026, 2, 4, 23), march4 + 1)],
    ['2026-03-05T00:30+0545', timed(Date.UTC(2026, 2, 4, 18, 45))],
    ['2026-03-29T02:30', timed(Date.UTC(2026, 2, 29, 1, 30), dayNumber(2026, 3, 29))],
    ['2026-10-25T02:30', timed(Date.UTC(2026, 9, 25, 0, 30), dayNumber(2026, 10, 25))],
    ['2026-10-25T02:30+01:00', timed(Date.UTC(2026, 9, 25, 1, 30), dayNumber(2026, 10, 25))],
    ['2024-02-29', { instant: Date.UTC(2024, 1, 29, 11), day: dayNumber(2024, 2, 29), bare: true, about: false }],
  ] as const) {
    it(`reads ${text} in Berlin`, () => {
      assert.deepEqual(parseMoment(text, berlin), moment);
    });
  }

  for (const text of [
    '', '~', '2026', '2026-03', '2026-3-4', '20260304', '2026-W10-1', '2026-063', '04.03.2026', '03/04/2026', '2026/03/04',
    '2026-13-01', '2026-00-10', '2026-02-30', '2026-02-29', '1900-02-29', '2026-04-31', '2026-03-00', '2026-03-32',
    '2026-03-04T', '2026-03-04T19', '2026-03-04T1930', '2026-03-04T24:00', '2026-03-04T19:60', '2026-03-04T9:30', '2026-03-04T19.30', '2026-03-04T19-30',
    '2026-03-04t19:30', '2026-03-04  19:30', '2026-03-04_19:30', '2026-03-04T19:30:', '2026-03-04T19:30:5',
    '2026-03-04T19:30:60', '2026-03-04T19:30:15.', '2026-03-04T19:30:15,5', '2026-03-04T19:30.5', '2026-03-04T19:30z',
    '2026-03-04T19:30ZZ', '2026-03-04T19:30+1', '2026-03-04T19:30+01', '2026-03-04T19:30+01:', '2026-03-04T19:30+24:00',
    '2026-03-04T19:30+01:60', '2026-03-04T19:30+01:000', '2026-03-04Z', '2026-03-04+01:00', ' 2026-03-04', '2026-03-04 ',
    '~~2026-03-04', '~ 2026-03-04', '+2026-03-04', '-026-03-04', '2026-03-04T19:30 ', '2026-03-04T19:30x', '٢٠٢٦-٠٣-٠٤',
    'NaN', 'spawned', '\0'.repeat(10),
  ]) {
    it(`takes no ${JSON.stringify(text)}`, () => {
      assert.equal(parseMoment(text, berlin), undefined);
    });
  }

  it('reads texts with an offset as date-fns does', () => {
    const offset = fc.oneof(
      fc.constant('Z'),
      fc.integer({ min: -14 * 60, max: 14 * 60 }).map((m) => {
        const size = Math.abs(m);
        return `${m < 0 ? '-' : '+'}${String(Math.floor(size / 60)).padStart(2, '0')}:${String(size % 60).padStart(2, '0')}`;
      }),
    );
    fc.assert(
      fc.property(anyMinute, offset, anyZone, (minute, suffix, where) => {
        const text = `${new Date(minute).toISOString().replace(/:00\.000Z$/, '')}${suffix}`;
        const instant = parseISO(text).getTime();
        assert.deepEqual(parseMoment(text, where), momentAt(instant, where));
      }),
      { numRuns: 2000 },
    );
  });

  it('never throws', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.stringMatching(/^~?[0-9T:. Z+-]{0,30}$/), (any, likely) => {
        parseMoment(any, berlin);
        parseMoment(likely, berlin);
      }),
      { numRuns: 2000 },
    );
  });

  it('survives the ends of the calendar', () => {
    for (const text of ['0000-01-01', '0000-01-01T00:00+23:59', '9999-12-31', '9999-12-31T23:59-23:59']) {
      const moment = parseMoment(text, newfoundland);
      assert.ok(moment !== undefined && Number.isFinite(moment.instant) && Number.isInteger(moment.day), text);
    }
  });
});

describe('the nearest minute', () => {
  const anySecond = fc.integer({ min: Date.UTC(1900, 0, 2) / 1000, max: Date.UTC(2199, 11, 30) / 1000 });

  it('is what is shown, and no other minute is nearer', () => {
    fc.assert(
      fc.property(anyZone, anySecond, (where, second) => {
        const moment = momentAt(second * 1000, where);
        const nearest = nearestMinute(moment, where);
        assert.equal(formatMoment(nearest, where), formatMoment(moment, where));
        assert.ok(Math.abs(nearest.instant - moment.instant) <= 30_000);
        assert.deepEqual(nearest, momentAt(nearest.instant, where));
        // The last half minute of a day stays in it.
        const shown = nearestMinuteOfDay(moment, where);
        const [hour, minute] = [Math.floor(shown / 60), shown % 60].map((number) => String(number).padStart(2, '0'));
        assert.equal(nearest.day === moment.day ? formatMoment(moment, where).slice(-5) : '23:59', `${hour}:${minute}`);
      }),
      { numRuns: 3000 },
    );
  });

  it('leaves a bare day as it is', () => {
    const day = momentOfDay(20_000, newfoundland);
    assert.equal(nearestMinute(day, newfoundland), day);
  });
});

describe('formatMoment', () => {
  it('reads back as the same moment', () => {
    fc.assert(
      fc.property(anyZone, anyMinute, fc.boolean(), (where, instant, about) => {
        fc.pre(where.instantOf(instant + where.offsetAt(instant)) === instant);
        const moment: Moment = { ...momentAt(instant, where), about };
        assert.deepEqual(parseMoment(formatMoment(moment, where), where), moment);
      }),
      { numRuns: 3000 },
    );
  });

  it('reads back as the same bare day', () => {
    fc.assert(
      fc.property(anyZone, anyDay, fc.boolean(), (where, day, about) => {
        const moment: Moment = { ...momentOfDay(day, where), about };
        assert.deepEqual(parseMoment(formatMoment(moment, where), where), moment);
      }),
      { numRuns: 3000 },
    );
  });

  for (const [title, instant, text] of [
    ['down', Date.UTC(2026, 2, 4, 18, 30, 29, 999), '2026-03-04T19:30'],
    ['up', Date.UTC(2026, 2, 4, 18, 30, 30), '2026-03-04T19:31'],
    ['into the next day', Date.UTC(2026, 11, 31, 22, 59, 45), '2027-01-01T00:00'],
    ['over a gap', Date.UTC(2026, 2, 29, 0, 59, 45), '2026-03-29T03:00'],
    ['into the second of an overlap', Date.UTC(2026, 9, 25, 0, 59, 45), '2026-10-25T02:00'],
    ['before 1970', Date.UTC(1969, 11, 31, 22, 59, 31), '1970-01-01T00:00'],
  ] as const) {
    it(`rounds ${title}`, () => {
      assert.equal(formatMoment(momentAt(instant, berlin), berlin), text);
    });
  }

  it('keeps what is about and what is bare', () => {
    for (const text of ['~2026-03-04', '2026-03-04', '~2026-03-04T19:30']) {
      const moment = parseMoment(text, newfoundland);
      assert.ok(moment);
      assert.equal(formatMoment(moment, newfoundland), text);
    }
  });
});

describe('days', () => {
  it('are numbered and written as the runtime does, each from 1600 to 2400', () => {
    let day = dayNumber(1600, 1, 1);
    for (const last = dayNumber(2400, 12, 31); day <= last; day++) {
      const text = formatDay(day);
      assert.equal(new Date(day * dayMs).toISOString(), `${text}T00:00:00.000Z`);
      assert.equal(parseDay(text), day);
    }
  });

  it('lie as far apart as date-fns says', () => {
    fc.assert(
      fc.property(anyDay, anyDay, (a, b) => {
        const days = differenceInCalendarDays(parseISO(formatDay(a)), parseISO(formatDay(b)));
        assert.equal(a - b, days + 0);
      }),
      { numRuns: 2000 },
    );
  });

  it('are no moments', () => {
    for (const text of ['~2026-03-04', '2026-03-04T19:30', '2026-02-29', '2026-03-4', '', '          ']) {
      assert.equal(parseDay(text), undefined, text);
    }
  });

  it('have a sign and six digits of year outside four', () => {
    assert.equal(formatDay(dayNumber(9999, 12, 31) + 1), '+010000-01-01');
    assert.equal(formatDay(-719_529), '-000001-12-31');
    assert.equal(formatDay(-719_528), '0000-01-01');
  });

  it('are whole numbers', () => {
    assert.throws(() => formatDay(1.5), /day 1.5 is not a whole number/);
    assert.throws(() => formatDay(NaN), RangeError);
  });
});

describe('compareMoments', () => {
  const at = (text: string): Moment => {
    const moment = parseMoment(text, newfoundland);
    assert.ok(moment);
    return moment;
  };

  for (const [a, sign, b] of [
    ['2026-03-04T08:00', -1, '2026-03-04T08:01'],
    ['2026-03-04T08:00', 0, '2026-03-04'],
    ['2026-03-04', 0, '~2026-03-04T23:59'],
    ['2026-03-04', -1, '2026-03-05T00:00'],
    ['2026-03-05', 1, '2026-03-04T23:59'],
    ['2026-03-04', -1, '2026-03-05'],
  ] as const) {
    it(`puts ${a} ${['before', 'beside', 'behind'][sign + 1] ?? ''} ${b}`, () => {
      assert.equal(Math.sign(compareMoments(at(a), at(b))), sign);
      assert.equal(Math.sign(compareMoments(at(b), at(a))) + 0, -sign + 0);
    });
  }
});
