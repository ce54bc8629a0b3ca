import assert from 'node:assert/strict';
import { formatDay } from '../../../../src/base/moment';
import type { Plan } from '../../../../src/planner/plan';
import type { CalendarQuery } from '../../../../src/views/calendar/calendarModel';
import { firstWeekday } from '../../../../src/views/calendar/dayWords';
import { daysOfMonth } from '../../../../src/views/calendar/month';
import type { MonthDay, MonthModel } from '../../../../src/views/calendar/month';
import { bodyOf, calendarOf } from '../../../support/calendars';
import { roomOf } from '../../../support/room';
import { sampleRoom } from '../../../support/samples';

function monthOf(plan: Plan, query: Partial<CalendarQuery> = {}, locale = 'en-GB'): MonthModel {
  return bodyOf(calendarOf(plan, query, locale), 'month').month;
}

function dayOf({ weeks }: MonthModel, day: string): MonthDay {
  const found = weeks.flat().find((each) => formatDay(each.day) === day);
  assert.ok(found, day);
  return found;
}

const lines = ({ lines: all, more }: MonthDay): readonly string[] => [...all.map(({ text, whom }) => (whom === '' ? text : `${text} ${whom}`)), ...(more === 0 ? [] : [`+${more}`])];

/** Broods that all hatch on the same days. */
function many(count: number): Plan {
  const ids = Array.from({ length: count }, (_, i) => String(i + 1).padStart(2, '0'));
  return roomOf(
    {
      'tanks.csv': ['tank,room', ...ids.map((id) => `T${id},front`)],
      'clutches.csv': ['clutch,species,tank,spawned', ...ids.map((id) => `K${id},kribensis,T${id},2026-06-09T08:00`)],
      'log.csv': ['clutch,time,event', ...ids.map((id) => `K${id},2026-06-09T20:00,checked`)],
    },
    '2026-06-10T09:00',
  );
}

describe('a month', () => {
  it('says what is missing in it since it can not be read, also where there is something else', () => {
    const files = { 'tanks.csv': ['tank,room', 'T1,front'], 'clutches.csv': ['<<<<<<< mine', 'clutch,species,tank,spawned'], 'maintenance.csv': ['job,what,tanks,room,from', 'J1,New racks,,front,2026-06-11'] };
    const { empty } = calendarOf(roomOf(files, '2026-06-10T09:00'), {}, 'en-GB');
    assert.equal(empty, "clutches.csv can't be read, so nothing of it is here. The Problems view says why.");
    const log = { ...files, 'clutches.csv': ['clutch,species,tank,spawned'], 'log.csv': ['"clutch,time'] };
    assert.match(calendarOf(roomOf({ ...files, ...log, 'clutches/K1.csv': ['>>>>>>> theirs'] }, '2026-06-10T09:00'), {}, 'en-GB').empty ?? '', /^2 sheets can't be read, so nothing of them is here: clutches\/K1\.csv, log\.csv\./);
  });

  it('is whole weeks, from Monday to Sunday or as the reader counts them', () => {
    // ISO 8601: weeks begin on Monday; CLDR has Sunday for the United States.
    assert.deepEqual([firstWeekday('de'), firstWeekday('en'), firstWeekday('en-GB'), firstWeekday('en-US'), firstWeekday('de-DE')], [1, 1, 1, 7, 1]);
    const plan = many(1);
    for (const [locale, first, last, names] of [['en-GB', '2026-06-01', '2026-07-05', 'Mon Sun'], ['en-US', '2026-05-31', '2026-07-04', 'Sun Sat'], ['de', '2026-06-01', '2026-07-05', 'Mo So']] as const) {
      const { weeks, weekdays } = monthOf(plan, {}, locale);
      assert.ok(weeks.every((week) => week.length === 7), locale);
      assert.deepEqual([formatDay(weeks[0]?.[0]?.day ?? 0), formatDay(weeks.at(-1)?.at(-1)?.day ?? 0), `${weekdays[0]} ${weekdays[6]}`], [first, last, names], locale);
    }
    for (let month = 0; month < 48; month++) {
      const day = Date.UTC(2024, month, 15) / 86_400_000;
      for (const weekday of [1, 6, 7]) {
        const { first, last } = daysOfMonth(day, weekday);
        assert.equal((last - first + 1) % 7, 0);
        assert.equal(new Date(first * 86_400_000).getUTCDay(), weekday % 7);
        assert.ok(last - first < 42 && first <= Date.UTC(2024, month, 1) / 86_400_000 && last >= Date.UTC(2024, month + 1, 0) / 86_400_000);
      }
    }
  });

  it('leads on to the months around it, over the turn of a year too', () => {
    const { title, first, before, after } = monthOf(many(1), { day: Date.UTC(2027, 0, 17) / 86_400_000 });
    assert.deepEqual([title, formatDay(first), formatDay(before), formatDay(after)], ['January 2027', '2027-01-01', '2026-12-01', '2027-02-01']);
  });

  it('stays readable with 60 things on a day: a few lines, and each says how many', () => {
    const plan = many(60);
    const month = monthOf(plan);
    for (const day of month.weeks.flat()) assert.ok(day.lines.length <= 6, `${formatDay(day.day)}: ${lines(day).join(', ')}`);
    assert.deepEqual(lines(dayOf(month, '2026-06-12')), ['Hatch: 60']);
    assert.deepEqual(lines(dayOf(month, '2026-06-11')), ['Look: 60']);
    // All that is there can be heard of, also what a cell has no room for.
    assert.match(dayOf(month, '2026-06-12').told, /^Friday,? 12 June 2026, Hatch: 60$/);
  });

  it('names whom what is rare is about, and counts what is not', () => {
    assert.deepEqual(lines(dayOf(monthOf(many(2)), '2026-06-12')), ['Hatch? K01', 'Hatch? K02']);
    assert.deepEqual(lines(dayOf(monthOf(many(3)), '2026-06-12')), ['Hatch: 3']);
    assert.deepEqual(lines(dayOf(monthOf(many(2)), '2026-06-11')), ['Look: 2']);
  });

  it('shows no more than six lines, and how many more there are, on every day of the sample', async () => {
    const month = monthOf(await sampleRoom('three-rooms'));
    const crowded = month.weeks.flat().filter(({ more }) => more > 0);
    assert.ok(crowded.length > 0);
    for (const { lines: shown, more } of month.weeks.flat()) assert.ok(shown.length <= (more > 0 ? 5 : 6));
  });

  it('carries what is overdue along to today, before all else, and leaves days that are over empty', () => {
    const plan = roomOf({ 'tanks.csv': 'tank,room\nT1,front\n', 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-06-01T08:00\nK2,kribensis,T1,2026-06-09T08:00\n' }, '2026-06-10T09:00');
    const month = monthOf(plan);
    const today = dayOf(month, '2026-06-10');
    assert.equal(today.position, 'today');
    assert.deepEqual([today.lines[0]?.kind, lines(today)[0]], ['overdue', 'Hatch? K1']);
    assert.match(today.told, /today, Hatched, gone, or not known\? K1 T1 .* late/);
    for (const { position, lines: shown } of month.weeks.flat()) if (position === 'past') assert.deepEqual(shown, []);
  });

  it('shows a job on each of its days that is not over, in the cell and in the list', () => {
    const plan = roomOf({ 'tanks.csv': 'tank,room\nT1,front\n', 'clutches.csv': 'clutch,species,tank,spawned\n', 'maintenance.csv': 'job,what,tanks,room,from,to\nJ1,New racks,T1,,2026-06-08,2026-06-12\n' }, '2026-06-10T09:00');
    const { month, lists } = bodyOf(calendarOf(plan, {}), 'month');
    const days = ['2026-06-09', '2026-06-10', '2026-06-11', '2026-06-12', '2026-06-13'];
    assert.deepEqual(days.map((day) => lines(dayOf(month, day))), [[], ['New racks'], ['New racks'], ['New racks'], []]);
    assert.deepEqual(lists.map(({ day }) => formatDay(day)), days.slice(1, 4));
  });
});
