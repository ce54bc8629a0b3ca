import { deepStrictEqual, equal, ok } from 'node:assert/strict';
import ICAL from 'ical.js';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import { timeLine } from '../../../src/exchange/calendarTime';
import { zoneLines } from '../../../src/exchange/zoneRules';

const hour = 3_600_000;
const zone = (name: string): Zone => zoneOf(name) as Zone;

/** What ical.js makes of the rules: the instant of each hour of some years, told by the clock of the zone. */
function check(name: string, from: number, to: number): number {
  const component = new ICAL.Component(ICAL.parse(zoneLines(zone(name), { from, to }).join('\r\n')) as unknown[]);
  const rules = new ICAL.Timezone({ component });
  let checked = 0;
  for (let instant = from; instant < to; instant += 5 * hour + 60_000) {
    const [, value = ''] = timeLine('DTSTART', instant, zone(name)).split(':');
    if (value.endsWith('Z')) continue;
    const time = ICAL.Time.fromDateTimeString(value.replace(/^(....)(..)(..)T(..)(..)(..)$/, '$1-$2-$3T$4:$5:$6'));
    time.zone = rules;
    equal(new Date(time.toUnixTime() * 1000).toISOString(), new Date(Math.floor(instant / 1000) * 1000).toISOString(), value);
    checked += 1;
  }
  return checked;
}

describe('the rules of a zone in a calendar file', () => {
  for (const name of ['Europe/Berlin', 'America/St_Johns', 'Pacific/Auckland', 'Asia/Kolkata', 'Africa/Casablanca', 'Europe/Dublin']) {
    it(`tell the instants of ${name} to the reference reader, whatever the season`, () => {
      ok(check(name, Date.UTC(2025, 0, 1), Date.UTC(2028, 0, 1)) > 5000);
    });
  }

  // Directive 2000/84/EC: from the last Sunday in March to the last one in October, at 01:00 UTC.
  it('are those of the law', () => {
    deepStrictEqual(zoneLines(zone('Europe/Berlin'), { from: Date.UTC(2026, 0, 1), to: Date.UTC(2028, 0, 1) }), [
      'BEGIN:VTIMEZONE', 'TZID:Europe/Berlin',
      'BEGIN:STANDARD', 'DTSTART:20260101T010000', 'TZOFFSETFROM:+0100', 'TZOFFSETTO:+0100', 'END:STANDARD',
      'BEGIN:DAYLIGHT', 'DTSTART:20260329T020000', 'TZOFFSETFROM:+0100', 'TZOFFSETTO:+0200', 'END:DAYLIGHT',
      'BEGIN:STANDARD', 'DTSTART:20261025T030000', 'TZOFFSETFROM:+0200', 'TZOFFSETTO:+0100', 'END:STANDARD',
      'BEGIN:DAYLIGHT', 'DTSTART:20270328T020000', 'TZOFFSETFROM:+0100', 'TZOFFSETTO:+0200', 'END:DAYLIGHT',
      'BEGIN:STANDARD', 'DTSTART:20271031T030000', 'TZOFFSETFROM:+0200', 'TZOFFSETTO:+0100', 'END:STANDARD',
      'END:VTIMEZONE',
    ]);
  });

  it('begin in summer where that is the first of January', () => {
    deepStrictEqual(zoneLines(zone('Pacific/Auckland'), { from: Date.UTC(2026, 0, 1), to: Date.UTC(2026, 2, 1) }).slice(2), ['BEGIN:STANDARD', 'DTSTART:20260101T130000', 'TZOFFSETFROM:+1300', 'TZOFFSETTO:+1300', 'END:STANDARD', 'END:VTIMEZONE']);
    equal(zoneLines(zone('Pacific/Auckland'), { from: Date.UTC(2026, 0, 1), to: Date.UTC(2027, 0, 1) })[2], 'BEGIN:DAYLIGHT');
  });

  it('are not needed of universal time, nor in hours that a clock shows twice', () => {
    equal(timeLine('DTSTART', Date.UTC(2026, 5, 10, 7), zone('UTC')), 'DTSTART:20260610T070000Z');
    equal(timeLine('DTSTART', Date.UTC(2026, 9, 24, 23, 59), zone('Europe/Berlin')), 'DTSTART;TZID=Europe/Berlin:20261025T015900');
    equal(timeLine('DTSTART', Date.UTC(2026, 9, 25, 0, 30), zone('Europe/Berlin')), 'DTSTART:20261025T003000Z');
    equal(timeLine('DTSTART', Date.UTC(2026, 9, 25, 1, 30), zone('Europe/Berlin')), 'DTSTART:20261025T013000Z');
    equal(timeLine('DTSTART', Date.UTC(2026, 9, 25, 2), zone('Europe/Berlin')), 'DTSTART;TZID=Europe/Berlin:20261025T030000');
  });
});
