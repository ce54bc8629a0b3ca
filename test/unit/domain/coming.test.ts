import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatMoment, momentAt } from '../../../src/base/moment';
import { comingOf, comingSpawn } from '../../../src/domain/coming';
import type { Coming } from '../../../src/domain/coming';
import { posterior, predictive, priors, sumsOf, window } from '../../../src/domain/learning';
import { timelineOf } from '../../../src/domain/timeline';
import { studyOf } from '../../support/clutches';
import type { WrittenClutch } from '../../support/clutches';
import { berlin, moment } from '../../support/moments';

const prior = { ...window(predictive(posterior(priors.hatch, sumsOf([])))), n: 0 };

/** Laid on 1 March at 10:00; by the numbers of the species hatched 72 hours later. */
function coming(what: 'hatched' | 'free_swimming', written: WrittenClutch & { readonly now: string }): Coming | undefined {
  const timeline = timelineOf(studyOf(written), () => prior, berlin);
  return comingOf(timeline.of(what), timeline, { now: moment(written.now), zone: berlin });
}

function told(found: Coming | undefined): readonly string[] {
  return found === undefined ? [] : [found.from, found.expected, found.to].map((at) => formatMoment(at, berlin));
}

describe('what is still to come', () => {
  it('is as it was expected until now is inside its window', () => {
    assert.deepEqual(told(coming('hatched', { now: '2026-03-01T12:00' })), ['2026-03-03T20:37', '2026-03-04T10:00', '2026-03-05T02:27']);
    assert.deepEqual(told(coming('hatched', { now: '2026-03-03T20:00' })), ['2026-03-03T20:37', '2026-03-04T10:00', '2026-03-05T02:27']);
  });

  it('is never before now, and moves what counts from it', () => {
    const late = { now: '2026-03-04T10:00' };
    const [from = '', expected = '', to = ''] = told(coming('hatched', late));
    assert.ok(late.now < from && from < expected && expected < to, `${from} ${expected} ${to}`);
    // Half of what was left after 10:00: a quarter of all, 0.12·√1.25 times the 75 % quantile of t with 4 degrees (0.741) more than 72 h: 79 h 31 min.
    assert.equal(expected, '2026-03-04T17:31');
    const before = coming('free_swimming', { now: '2026-03-01T12:00' });
    const after = coming('free_swimming', late);
    assert.equal(Math.floor(((after?.expected.instant ?? 0) - (before?.expected.instant ?? 0)) / 60_000), 7 * 60 + 31);
  });

  it('is nothing once it is recorded or shown to be past', () => {
    assert.equal(coming('hatched', { now: '2026-03-05T10:00', hatched: '2026-03-04T10:00' }), undefined);
    assert.equal(coming('hatched', { now: '2026-03-05T10:00', free_swimming: '2026-03-04T10:00' }), undefined);
  });

  it('comes no earlier the longer it is waited for, and the window never crosses', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 1, max: 2000 }), (minutes, more) => {
        const at = (count: number): Coming => {
          const now = formatMoment(momentAt(moment('2026-03-03T12:00').instant + count * 60_000, berlin), berlin);
          return coming('hatched', { now }) as Coming;
        };
        const [a, b] = [at(minutes), at(minutes + more)];
        for (const end of ['from', 'expected', 'to'] as const) assert.ok(a[end].instant <= b[end].instant + 1);
        for (const { from, expected, to } of [a, b]) assert.ok(from.instant <= expected.instant && expected.instant <= to.instant);
      }),
    );
  });
});

describe('comingSpawn', () => {
  const factors = window(predictive(posterior(priors.interval, sumsOf([]))));
  const next = { lastDay: 100, usualDays: 35, window: factors, observations: 0, from: 100 + Math.round(35 * factors.from), expected: 135, to: 100 + Math.round(35 * factors.to) };

  it('is what was learned until today is past the first day of the window', () => {
    for (const today of [101, next.from]) assert.deepEqual(comingSpawn(next, today), { from: next.from, expected: 135, to: next.to });
  });

  it('is today at the earliest from then on', () => {
    const cut = comingSpawn(next, 135);
    assert.ok(cut.from >= 135 && cut.expected > 135 && cut.to > next.to, JSON.stringify(cut));
  });

  it('stays a day of the calendar however late it is', () => {
    fc.assert(
      fc.property(fc.integer({ min: 101, max: 200_000 }), (today) => {
        const { from, expected, to } = comingSpawn(next, today);
        assert.ok([from, expected, to].every(Number.isInteger) && from <= expected && expected <= to && (today <= next.from || from >= today));
      }),
    );
  });
});
