import assert from 'node:assert/strict';
import { zoneOf } from '../../../../src/base/zone';
import type { Zone } from '../../../../src/base/zone';
import { formatMoment, parseDay } from '../../../../src/base/moment';
import { DayWords } from '../../../../src/views/calendar/dayWords';
import { berlin, moment } from '../../../support/moments';

const day = (text: string): number => parseDay(text) ?? Number.NaN;
const today = day('2026-06-10');
const words = (locale: string, zone: Zone = berlin): DayWords => new DayWords({ locale, today, zone });

// How dates are written where: CLDR, by way of Intl of Node 20.
describe('words for days', () => {
  it('name the weekday within two weeks and the year beyond them, as it is usual where the reader lives', () => {
    const days = ['2026-06-10', '2026-05-27', '2026-06-24', '2026-06-25', '2027-01-02'].map(day);
    assert.deepEqual(days.map((each) => words('en-GB').day(each)), ['Wed 10 Jun', 'Wed 27 May', 'Wed 24 Jun', '25 Jun 2026', '2 Jan 2027']);
    assert.deepEqual(days.map((each) => words('en-US').day(each)), ['Wed, Jun 10', 'Wed, May 27', 'Wed, Jun 24', 'Jun 25, 2026', 'Jan 2, 2027']);
    assert.deepEqual(days.map((each) => words('en').day(each)), days.map((each) => words('en-US').day(each)));
    assert.deepEqual(days.map((each) => words('de').day(each)), ['Mi., 10. Juni', 'Mi., 27. Mai', 'Mi., 24. Juni', '25. Juni 2026', '2. Jan. 2027']);
    // Whether British English has a comma there differs between versions of CLDR.
    assert.deepEqual([words('en-GB').long(today).replace(',', ''), words('en-US').long(today), words('de').long(today)], ['Wednesday 10 June 2026', 'Wednesday, June 10, 2026', 'Mittwoch, 10. Juni 2026']);
  });

  it('tell times on the clock of the fishroom, not of the machine, with summer time where it is', () => {
    // 07:00 UTC; offsets of the IANA time zone database.
    const at = moment('2026-06-10T09:00');
    for (const [zone, time] of [['Europe/Berlin', '09:00'], ['Pacific/Auckland', '19:00'], ['America/St_Johns', '04:30']] as const) {
      for (const locale of ['en', 'en-US', 'de']) assert.equal(words(locale, zoneOf(zone)).time(at), time, `${zone} ${locale}`);
    }
    assert.equal(words('de').time(moment('2026-01-10T09:00')), '09:00');
    assert.equal(words('en-US', zoneOf('America/St_Johns')).time(moment('2026-01-10T09:00')), '04:30');
  });

  it('tell the nearest minute, as the sheets do, but never a time of another day than that under which it stands', () => {
    const at = (text: string): string => words('en-GB').time(moment(text));
    assert.deepEqual([at('2026-06-10T18:38:29'), at('2026-06-10T18:38:30'), at('2026-06-10T23:59:40')], ['18:38', '18:39', '23:59']);
    const shown = (text: string, hasHours = true): string => words('en-GB').moment(moment(text), hasHours);
    assert.deepEqual([shown('2026-06-10T18:38:42'), shown('2026-06-10T23:59:40'), shown('2026-06-10T23:59:40', false), shown('2026-06-10')], ['Wed 10 Jun, 18:39', 'Thu 11 Jun, 00:00', 'Wed 10 Jun', 'Wed 10 Jun']);
    // The sheets have the same: the gap of Berlin in 2026 begins at 02:00 on 29 March.
    for (const text of ['2026-06-10T18:38:42', '2026-03-29T01:59:40', '2026-10-25T02:59:40', '2026-06-10T23:59:40']) {
      assert.equal(shown(text).slice(-5), formatMoment(moment(text), berlin).slice(-5), text);
    }
  });

  it('say how far a day is, and how late something is in hours as long as hours matter', () => {
    assert.deepEqual([0, 1, -1, 3, -12].map((far) => words('en').distance(today + far)), ['today', 'tomorrow', 'yesterday', 'in 3 days', '12 days ago']);
    const now = moment('2026-06-10T09:00');
    const late = (due: string, hasHours: boolean): string => words('en').late(moment(due), now, hasHours);
    assert.deepEqual([late('2026-06-10T07:59', true), late('2026-06-10T07:00', true), late('2026-06-08T10:00', true), late('2026-06-08T09:00', true), late('2026-06-09', true), late('2026-06-01T08:00', false)], ['1 hour late', '2 hours late', '47 hours late', '2 days late', '1 day late', '9 days late']);
  });

  it('tell a window in as few words as it takes', () => {
    const window = (locale: string, from: string, to: string, hasHours = true): string | undefined => words(locale).window(moment(from), moment(to), hasHours);
    assert.equal(window('en-GB', '2026-06-10T14:00', '2026-06-10T18:30'), '14:00 to 18:30');
    assert.equal(window('en-GB', '2026-06-10T14:00', '2026-06-10T18:30', false), undefined);
    assert.equal(window('en-GB', '2026-06-10', '2026-06-10'), undefined);
    assert.deepEqual([window('en-GB', '2026-06-10', '2026-06-12'), window('en-GB', '2026-06-30T08:00', '2026-07-02')], ['10–12 Jun', '30 Jun–2 Jul']);
    assert.deepEqual([window('en-US', '2026-06-10', '2026-06-12'), window('en-US', '2026-06-30', '2026-07-02')], ['Jun 10–12', 'Jun 30–Jul 2']);
    assert.equal(window('de', '2026-06-10', '2026-06-12'), '10.–12. Juni');
  });

  it('know the day of a moment in each zone', () => {
    // 23:30 UTC is the day after in Berlin and in Auckland and the same in St. John's.
    const instant = Date.UTC(2026, 5, 10, 23, 30);
    for (const [name, expected] of [['Europe/Berlin', '01:30'], ['Pacific/Auckland', '11:30'], ['America/St_Johns', '21:00']] as const) {
      const zone = zoneOf(name) as Zone;
      assert.equal(words('en', zone).time({ instant, day: 0, bare: false, about: false }), expected);
    }
  });
});
