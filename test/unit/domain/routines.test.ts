import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseDuration } from '../../../src/base/duration';
import type { Duration } from '../../../src/base/duration';
import { compareMoments, formatMoment, momentAt } from '../../../src/base/moment';
import type { Moment } from '../../../src/base/moment';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import { hasHours, occurrencesUntil, scheduleOf } from '../../../src/domain/routines';
import type { Anchored, Occurrence, Routine, Subject } from '../../../src/domain/routines';
import { berlin, moment } from '../../support/moments';

const length = (text: string): Duration => parseDuration(text) as Duration;

interface Wanted {
  readonly anchor?: string;
  readonly from?: string;
  readonly to?: string;
  readonly until?: string;
  readonly done?: readonly string[];
  readonly question?: boolean;
  readonly hangs?: boolean;
  readonly over?: boolean;
  readonly level?: 'warn' | 'remind';
  readonly zone?: Zone;
  readonly feeds?: number;
}

/** A thing whose anchor is `spawned` and whose end is `sale_size`. */
function subject(now: string, { anchor = '2026-06-01T10:00', from, to, until, done = [], question = false, hangs = false, over = false, level = 'warn', zone = berlin, feeds }: Wanted = {}): Subject {
  const time = moment(anchor, zone);
  const base: Anchored = { time, from: from === undefined ? time : moment(from, zone), to: to === undefined ? time : moment(to, zone), isExpected: to !== undefined };
  const records = done.map((text) => moment(text, zone));
  return {
    now: moment(now, zone),
    zone,
    feedsPerDay: feeds,
    anchor: (name) => (name === 'sale_size' ? (until === undefined ? undefined : { time: moment(until, zone), from: moment(until, zone), to: moment(until, zone), isExpected: true }) : base),
    lastOf: () => records.reduce<Moment | undefined>((last, one) => (last === undefined || one.instant > last.instant ? one : last), undefined),
    levelOf: () => level,
    isQuestion: () => question,
    hangsOnQuestion: () => hangs,
    isOver: () => over,
  };
}

function routine(given: { readonly offset?: string; readonly every?: string; readonly grace?: string; readonly lapse?: string; readonly anchor?: Routine['anchor']; readonly until?: boolean } = {}): Routine {
  const { offset, every, grace, lapse, anchor = 'spawned', until = false } = given;
  const maybe = (text: string | undefined): Duration | undefined => (text === undefined ? undefined : length(text));
  return {
    routine: 'look',
    action: 'Look',
    level: 'warn',
    anchor,
    offset: maybe(offset),
    untilAnchor: until ? 'sale_size' : undefined,
    untilOffset: undefined,
    every: every === 'feeds_per_day' ? every : maybe(every),
    grace: maybe(grace),
    lapse: maybe(lapse),
    doneBy: ['checked'],
    source: {},
  };
}

function told(occurrence: Occurrence | undefined, zone: Zone = berlin): string {
  return occurrence === undefined ? 'nothing' : `${occurrence.index} ${formatMoment(occurrence.due, zone)} ${occurrence.state}`;
}

function schedule(row: Routine, thing: Subject): readonly string[] {
  const found = scheduleOf(row, thing);
  return [told(found?.open, thing.zone), told(found?.next, thing.zone)];
}

describe('a routine that is done once', () => {
  const row = routine({ offset: 'PT48H', grace: 'PT12H' });

  it('comes, is due, and is overdue when its grace is over', () => {
    assert.deepEqual(schedule(row, subject('2026-06-03T09:59')), ['nothing', '0 2026-06-03T10:00 upcoming']);
    assert.deepEqual(schedule(row, subject('2026-06-03T10:00')), ['0 2026-06-03T10:00 due', 'nothing']);
    assert.deepEqual(schedule(row, subject('2026-06-03T22:00')), ['0 2026-06-03T10:00 due', 'nothing']);
    assert.deepEqual(schedule(row, subject('2026-06-03T22:01')), ['0 2026-06-03T10:00 overdue', 'nothing']);
  });

  it('lapses fourteen days after it was due, or when its row says', () => {
    assert.deepEqual(schedule(row, subject('2026-06-17T10:00')), ['0 2026-06-03T10:00 overdue', 'nothing']);
    assert.deepEqual(schedule(row, subject('2026-06-17T10:01')), ['nothing', 'nothing']);
    assert.deepEqual(schedule(routine({ offset: 'PT48H', lapse: 'P1D' }), subject('2026-06-04T10:01')), ['nothing', 'nothing']);
  });

  it('stays open as a question, but not overdue for ever', () => {
    const question = routine({ anchor: 'hatched', grace: 'P0D', lapse: 'P90D' });
    assert.deepEqual(schedule(question, subject('2026-08-30T10:00', { question: true })), ['0 2026-06-01T10:00 overdue', 'nothing']);
    assert.deepEqual(schedule(question, subject('2026-08-30T10:01', { question: true })), ['0 2026-06-01T10:00 due', 'nothing']);
    assert.deepEqual(schedule(question, subject('2028-08-30T10:01', { question: true })), ['0 2026-06-01T10:00 due', 'nothing']);
  });

  it('is done by its event, whenever that was', () => {
    assert.deepEqual(schedule(row, subject('2026-06-03T22:01', { done: ['2026-06-01T11:00'] })), ['nothing', 'nothing']);
  });

  it('that prepares for a spawn is done by what happened at most seven days before', () => {
    const clear = routine({ anchor: 'next_spawn_from', offset: '-P2D' });
    const at = (done: string): readonly string[] => schedule(clear, subject('2026-07-01T12:00', { anchor: '2026-07-03', done: [done] }));
    assert.deepEqual(at('2026-06-23T10:00'), ['0 2026-07-01 due', 'nothing']);
    assert.deepEqual(at('2026-06-24T10:00'), ['nothing', 'nothing']);
  });

  it('is not overdue before the window of what it is counted from has passed', () => {
    const expected = { anchor: '2026-06-04T10:00', from: '2026-06-03T20:00', to: '2026-06-05T08:00' };
    const question = routine({ anchor: 'hatched', grace: 'P0D' });
    assert.deepEqual(schedule(question, subject('2026-06-05T08:00', expected)), ['0 2026-06-04T10:00 due', 'nothing']);
    assert.deepEqual(schedule(question, subject('2026-06-05T08:01', expected)), ['0 2026-06-04T10:00 overdue', 'nothing']);
    assert.deepEqual(schedule(routine({ anchor: 'hatched', grace: 'P3D' }), subject('2026-06-05T08:01', expected)), ['0 2026-06-04T10:00 due', 'nothing']);
  });

  it('is never overdue as a reminder, nor while it hangs on a question', () => {
    assert.deepEqual(schedule(row, subject('2026-06-10T10:00', { level: 'remind' })), ['0 2026-06-03T10:00 due', 'nothing']);
    assert.deepEqual(schedule(row, subject('2026-06-10T10:00', { hangs: true })), ['0 2026-06-03T10:00 upcoming', 'nothing']);
  });

  it('is over when the records show that its time is', () => {
    assert.deepEqual(schedule(row, subject('2026-06-03T22:01', { over: true })), ['nothing', 'nothing']);
    assert.deepEqual(schedule(row, subject('2026-06-02T10:00', { over: true })), ['nothing', 'nothing']);
  });

  it('on a bare day is due all day, and overdue on the day after its grace', () => {
    const bare = routine({ offset: 'P2D', grace: 'P1D' });
    assert.deepEqual(schedule(bare, subject('2026-06-03T00:00', { anchor: '2026-06-01' })), ['0 2026-06-03 due', 'nothing']);
    assert.deepEqual(schedule(bare, subject('2026-06-04T23:59', { anchor: '2026-06-01' })), ['0 2026-06-03 due', 'nothing']);
    assert.deepEqual(schedule(bare, subject('2026-06-05T00:00', { anchor: '2026-06-01' })), ['0 2026-06-03 overdue', 'nothing']);
  });

  it('that is told to the day is due on that day, whatever the hour of its anchor', () => {
    const byDay = routine({ offset: 'P2D', grace: 'P1D' });
    assert.deepEqual(schedule(byDay, subject('2026-06-03T00:00')), ['0 2026-06-03 due', 'nothing']);
    assert.deepEqual(schedule(byDay, subject('2026-06-04T23:59')), ['0 2026-06-03 due', 'nothing']);
    assert.deepEqual(schedule(byDay, subject('2026-06-05T00:00')), ['0 2026-06-03 overdue', 'nothing']);
  });

  it('without an anchor is due at its own moment', () => {
    const own: Routine = { ...routine(), anchor: undefined, offset: moment('2026-06-20T08:00') };
    assert.deepEqual(schedule(own, subject('2026-06-20T08:00')), ['0 2026-06-20T08:00 due', 'nothing']);
    assert.equal(scheduleOf({ ...own, offset: length('P1D') }, subject('2026-06-20T08:00')), undefined);
  });
});

describe('a routine that comes again', () => {
  const daily = routine({ offset: 'PT24H', every: 'PT24H', grace: 'PT12H', until: true });
  const until = '2026-06-05T08:00';

  it('is open until the next turn, and ends strictly before its end', () => {
    assert.deepEqual(schedule(daily, subject('2026-06-03T09:00', { until })), ['0 2026-06-02T10:00 overdue', '1 2026-06-03T10:00 upcoming']);
    assert.deepEqual(schedule(daily, subject('2026-06-03T10:00', { until })), ['1 2026-06-03T10:00 due', '2 2026-06-04T10:00 upcoming']);
    assert.deepEqual(schedule(daily, subject('2026-06-04T10:00', { until })), ['2 2026-06-04T10:00 due', 'nothing']);
    assert.deepEqual(schedule(daily, subject('2026-06-05T08:00', { until })), ['nothing', 'nothing']);
    assert.deepEqual(schedule(daily, subject('2026-06-04T09:00', { until: '2026-06-04T10:00' })), ['1 2026-06-03T10:00 overdue', 'nothing']);
  });

  it('is done by a record of its day or later, or less than half a turn before it', () => {
    const at = (...done: readonly string[]): readonly string[] => schedule(daily, subject('2026-06-03T11:00', { until, done }));
    assert.deepEqual(at('2026-06-03T00:30'), ['nothing', '2 2026-06-04T10:00 upcoming']);
    assert.deepEqual(at('2026-06-02T22:00'), ['1 2026-06-03T10:00 due', '2 2026-06-04T10:00 upcoming']);
    assert.deepEqual(at('2026-06-02T22:01'), ['nothing', '2 2026-06-04T10:00 upcoming']);
    // One late record serves all that it is late for, and what comes less than half a turn later.
    const late = schedule(daily, subject('2026-06-03T23:00', { until, done: ['2026-06-03T22:30'] }));
    assert.deepEqual(late, ['nothing', 'nothing']);
  });

  it('that comes several times a day is not done for the whole day by one record', () => {
    const often = routine({ every: 'PT6H', grace: 'PT2H' });
    assert.deepEqual(schedule(often, subject('2026-06-01T16:30', { done: ['2026-06-01T10:05'] })), ['1 2026-06-01T16:00 due', '2 2026-06-01T22:00 upcoming']);
    assert.deepEqual(schedule(often, subject('2026-06-01T16:30', { done: ['2026-06-01T16:05'] })), ['nothing', '2 2026-06-01T22:00 upcoming']);
  });

  it('keeps its time of day when the clocks change', () => {
    // Berlin's clocks went forward on 29 March 2026 at 02:00 (EU directive 2000/84/EC: the last Sunday in March).
    const week = routine({ offset: 'PT0S', every: 'P1D' });
    assert.deepEqual(schedule(week, subject('2026-03-29T10:00', { anchor: '2026-03-27T10:00' })), ['2 2026-03-29T10:00 due', '3 2026-03-30T10:00 upcoming']);
    assert.deepEqual(schedule(routine({ every: 'PT24H' }), subject('2026-03-29T10:59', { anchor: '2026-03-27T10:00' })), ['1 2026-03-28T10:00 overdue', '2 2026-03-29T11:00 upcoming']);
  });

  it('comes as often a day as the fry are fed', () => {
    const feeding: Routine = { ...routine({ every: 'feeds_per_day' }), doneBy: [] };
    const days = occurrencesUntil(feeding, subject('2026-06-01T09:00', { feeds: 3 }), moment('2026-06-02').day);
    assert.deepEqual(days.map(({ due }) => formatMoment(due, berlin)), ['2026-06-01T10:00', '2026-06-01T18:00', '2026-06-02T02:00', '2026-06-02T10:00', '2026-06-02T18:00']);
  });
});

describe('how exactly a moment is told', () => {
  it('to the hour where the row has hours, or nothing but a milestone that has', () => {
    const rows = [routine({ offset: 'PT24H' }), routine({ every: 'PT24H' }), routine({ anchor: 'hatched' }), routine({ anchor: 'first_feed' }), routine({ anchor: 'free_swimming', offset: 'P14D' }), routine({ anchor: 'sale_size' }), routine({ anchor: 'spawned' })];
    assert.deepEqual(rows.map(hasHours), [true, true, true, true, false, false, false]);
  });
});

describe('what is due, by its laws', () => {
  const zones = ['UTC', 'Pacific/Auckland', 'America/St_Johns', 'Europe/Berlin'].map((name) => zoneOf(name) as Zone);
  const minute = 60_000;
  const start = Date.UTC(2026, 2, 20);
  const any = fc.record({
    zone: fc.constantFrom(...zones),
    bare: fc.boolean(),
    age: fc.integer({ min: 0, max: 60 * 24 * 60 }),
    offset: fc.constantFrom(undefined, 'P2D', 'PT7H', '-P1D'),
    every: fc.constantFrom('P1D', 'P3D', 'PT24H', 'PT5H'),
    until: fc.option(fc.integer({ min: 0, max: 60 }), { nil: undefined }),
    done: fc.array(fc.integer({ min: 0, max: 60 * 24 * 60 }), { maxLength: 3 }),
  });

  /** The same by walking from the first occurrence on, as the rule is written. */
  function walked(row: Routine, thing: Subject, last: Moment | undefined, isToTheHour: boolean): Moment | undefined {
    const every = row.every as Duration;
    const base = thing.anchor('spawned')?.time as Moment;
    let open: Moment | undefined;
    for (let k = 0; k < 2000; k++) {
      let due = addTo(base, row.offset as Duration | undefined, thing.zone);
      if (!isToTheHour) due = { ...due, instant: thing.zone.instantOf(due.day * 86_400_000 + 43_200_000), bare: true };
      due = k === 0 ? due : addTo(due, { days: every.days * k, ms: every.ms * k, hasTime: every.hasTime }, thing.zone);
      const until = row.untilAnchor === undefined ? undefined : thing.anchor('sale_size')?.time;
      if (until !== undefined && (compareMoments(due, until) >= 0 || compareMoments(thing.now, until) >= 0)) return compareMoments(thing.now, until) >= 0 ? undefined : open;
      if (compareMoments(due, thing.now) > 0) return open;
      const turn = every.days * 86_400_000 + every.ms;
      const isDone = last !== undefined && ((turn >= 86_400_000 || due.bare || last.bare ? last.day >= due.day : last.instant >= due.instant) || last.instant > due.instant - turn / 2);
      open = isDone ? undefined : due;
    }
    throw new Error('walked too far');
  }

  function addTo(time: Moment, duration: Duration | undefined, zone: Zone): Moment {
    if (duration === undefined) return time;
    const wall = time.instant + zone.offsetAt(time.instant) + duration.days * 86_400_000;
    const instant = (duration.days === 0 ? time.instant : zone.instantOf(wall)) + duration.ms;
    const moved = momentAt(instant, zone);
    return time.bare && !duration.hasTime ? { ...moved, bare: true } : moved;
  }

  it('equals what one finds by walking through all turns', () => {
    fc.assert(
      fc.property(any, ({ zone, bare, age, offset, every, until, done }) => {
        const anchor = { ...momentAt(start, zone), bare };
        const noon = bare ? { ...anchor, instant: zone.instantOf(anchor.day * 86_400_000 + 43_200_000) } : anchor;
        const now = momentAt(start + age * minute, zone);
        const records = done.filter((at) => at <= age).map((at) => momentAt(start + at * minute, zone));
        const last = records.reduce<Moment | undefined>((latest, one) => (latest === undefined || one.instant > latest.instant ? one : latest), undefined);
        const end = until === undefined ? undefined : momentAt(start + until * 86_400_000, zone);
        const row = routine({ every, until: end !== undefined, ...(offset !== undefined && { offset }) });
        const isToTheHour = hasHours(row);
        const thing: Subject = {
          ...subject('2026-06-01', { zone }),
          now,
          anchor: (name) => {
            const time = name === 'sale_size' ? end : noon;
            return time === undefined ? undefined : { time, from: time, to: time, isExpected: false };
          },
          lastOf: () => last,
        };
        const open = scheduleOf(row, thing)?.open?.due;
        const expected = walked(row, thing, last, isToTheHour);
        assert.equal(open === undefined ? undefined : formatMoment(open, zone), expected === undefined ? undefined : formatMoment(expected, zone));
      }),
      { numRuns: 2000 },
    );
  });

  it('never changes before the turn that it names', () => {
    fc.assert(
      fc.property(any, fc.nat(6000), ({ zone, age, offset, every, done }, later) => {
        const row = routine({ every, grace: 'PT2H', ...(offset !== undefined && { offset }) });
        const last = done.filter((at) => at <= age).map((at) => momentAt(start + at * minute, zone)).at(-1);
        const at = (instant: number): Subject => ({ ...subject('2026-06-01', { zone }), now: momentAt(instant, zone), anchor: () => ({ time: momentAt(start, zone), from: momentAt(start, zone), to: momentAt(start, zone), isExpected: false }), lastOf: () => last });
        const now = start + age * minute;
        const before = scheduleOf(row, at(now));
        assert.ok(before !== undefined && before.turn > now);
        const midnight = zone.instantOf((zone.dayOf(now) + 1) * 86_400_000);
        const then = Math.min(before.turn - 1, midnight - 1, now + later * minute);
        const after = scheduleOf(row, at(then));
        assert.deepEqual([told(after?.open, zone), told(after?.next, zone)], [told(before.open, zone), told(before.next, zone)]);
      }),
      { numRuns: 1000 },
    );
  });
});
