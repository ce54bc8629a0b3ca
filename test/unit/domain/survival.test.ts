import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatMoment, momentAt } from '../../../src/base/moment';
import { countedMortality, expectedAlive, mortalityOf, profileMortality, survivingShare } from '../../../src/domain/survival';
import { timelineOf } from '../../../src/domain/timeline';
import { aQuarter, cave, studyOf } from '../../support/clutches';
import type { WrittenClutch } from '../../support/clutches';
import { berlin, moment } from '../../support/moments';

const profile = { ...cave, survival_pct: 60 };
const DAY = 86_400_000;

function aliveAt(written: WrittenClutch, at: string): number | undefined {
  const study = studyOf({ profile, hatched: '2026-03-04T10:00', now: '2026-05-01T12:00', ...written });
  return expectedAlive(study, timelineOf(study, aQuarter, berlin), moment(at));
}

function assertClose(actual: number | undefined, expected: number, relative = 1e-9): void {
  assert.ok(actual !== undefined && Math.abs(actual - expected) <= relative * Math.abs(expected), `${actual} is not ${expected}`);
}

describe('the mortality of a species', () => {
  it('falls by two thirds into the first 21 days, the rest evenly up to sale size and on', () => {
    const mortality = profileMortality(profile);
    assert.ok(mortality !== undefined);
    assertClose(survivingShare(mortality, 0, 140), 0.6);
    assertClose(survivingShare(mortality, 0, 21), 0.6 ** (2 / 3));
    assertClose(survivingShare(mortality, 21, 80.5), 0.6 ** (1 / 6));
    assertClose(survivingShare(mortality, 140, 259), 0.6 ** (1 / 3));
    assert.equal(survivingShare(mortality, 50, 40), 1);
    assert.equal(survivingShare(mortality, -20, 0), 1);
  });

  it('is even where sale size comes within the first days, none where all survive, and unknown without its numbers', () => {
    assertClose(profileMortality({ ...profile, sale_d: 10 })?.later, -Math.log(0.6) / 10);
    assertClose(profileMortality({ ...profile, sale_d: 10 })?.early, -Math.log(0.6) / 10);
    assert.deepEqual(profileMortality({ ...profile, survival_pct: 100 }), { basis: 'profile', early: 0, later: 0 });
    assert.equal(profileMortality(cave), undefined);
    assert.equal(profileMortality(undefined), undefined);
  });
});

describe('the mortality that counts tell', () => {
  it('is that between the first and the last count after the first days', () => {
    const mortality = countedMortality([{ days: 10, alive: 100 }, { days: 30, alive: 60 }, { days: 45, alive: 58 }, { days: 60, alive: 54 }], [], profileMortality(profile));
    assertClose(mortality?.later, Math.log(60 / 54) / 30);
    assertClose(mortality?.early, Math.log(60 / 54) / 30);
  });

  it('does not take a bad start to go on: counts of the first days move the species’ mortality as a whole', () => {
    const usual = profileMortality(profile);
    assert.ok(usual !== undefined);
    const mortality = countedMortality([{ days: 5, alive: 100 }, { days: 15, alive: 80 }], [], usual);
    assertClose(mortality?.early, Math.log(100 / 80) / 10);
    assertClose((mortality?.early ?? 0) / (mortality?.later ?? 1), usual.early / usual.later);
  });

  it('takes fish that were culled, sold or kept for alive as long as they were there', () => {
    const rate = 0.005;
    const left = 100 * Math.exp(-rate * 40) - 20 * Math.exp(-rate * 25);
    const mortality = countedMortality([{ days: 30, alive: 100 }, { days: 70, alive: left }], [{ days: 10, fish: 5 }, { days: 45, fish: 20 }, { days: 80, fish: 9 }], undefined);
    assertClose(mortality?.later, rate, 1e-6);
  });

  it('is none where more were counted than there were, and unknown with one count, within a week, or with none left', () => {
    assertClose(countedMortality([{ days: 30, alive: 50 }, { days: 60, alive: 55 }], [], undefined)?.later, 0);
    assertClose(countedMortality([{ days: 30, alive: 50 }, { days: 60, alive: 45 }], [{ days: 40, fish: 5 }], undefined)?.later, 0);
    assert.equal(countedMortality([{ days: 30, alive: 50 }], [], undefined), undefined);
    assert.equal(countedMortality([{ days: 30, alive: 50 }, { days: 36, alive: 40 }], [], undefined), undefined);
    assert.equal(countedMortality([{ days: 30, alive: 50 }, { days: 60, alive: 0 }], [], undefined), undefined);
    assert.equal(countedMortality([{ days: -40, alive: 50 }, { days: -20, alive: 40 }], [], undefined), undefined);
    assert.equal(countedMortality([{ days: -40, alive: 50 }, { days: 2, alive: 40 }], [], undefined), undefined);
  });

  it('is read from the log of a brood: exact counts, and what left it alive', () => {
    const birth = moment('2026-03-04T10:00');
    const of = (log: string): string | undefined => mortalityOf(studyOf({ profile, hatched: '2026-03-04T10:00', log }), birth)?.basis;
    assert.equal(of('2026-04-01T10:00 counted A 50; 2026-05-01T10:00 counted A 45'), 'counts');
    assert.equal(of('2026-04-01T10:00 counted A 50; 2026-05-01T10:00 lost A 5'), 'profile');
    assert.equal(of('2026-04-01T10:00 counted A 50; 2026-05-01T10:00 counted A ~45'), 'profile');
    assert.equal(of('~2026-04-01T10:00 counted A 50; 2026-05-01T10:00 counted A 45'), 'profile');
    assert.equal(of(''), 'profile');
    const log = '2026-04-01T10:00 counted A 50; 2026-04-11T10:00 moved A 20 B; 2026-04-12T10:00 sold A 10; 2026-05-01T10:00 counted A 18; 2026-05-01T10:00 counted B 20';
    const exact = mortalityOf(studyOf({ profile, hatched: '2026-03-04T10:00', log }), birth)?.later ?? 0;
    // By hand, from 50 to 38 with 10 sold after 11 of the 30 days.
    assertClose(50 * Math.exp(-exact * 30) - 10 * Math.exp(-exact * 19), 38, 1e-6);
  });
});

describe('the head count forward', () => {
  it('falls from what is alive now', () => {
    const days = (moment('2026-06-30T12:00').instant - moment('2026-05-01T12:00').instant) / DAY;
    assertClose(aliveAt({ log: '2026-04-20T10:00 counted A 50' }, '2026-06-30T12:00'), 50 * 0.6 ** (days / 119 / 3));
    assert.equal(aliveAt({ log: '2026-04-20T10:00 counted A 50' }, '2026-05-01T12:00'), 50);
    assert.equal(aliveAt({ log: '2026-04-20T10:00 counted A 50; 2026-04-21T10:00 sold A 50' }, '2026-06-30T12:00'), 0);
  });

  it('is not known of a brood that is uncounted, has ended, is unanswered, or of whose mortality nothing is known', () => {
    const at = '2026-06-30T12:00';
    assert.equal(aliveAt({}, at), undefined);
    assert.equal(aliveAt({ log: '2026-04-20T10:00 counted A 50; 2026-04-21T10:00 ended' }, at), undefined);
    const silent = studyOf({ profile, now: '2026-05-01T12:00' });
    assert.equal(expectedAlive(silent, timelineOf(silent, aQuarter, berlin), moment(at)), undefined);
    assert.equal(aliveAt({ profile: cave, log: '2026-04-20T10:00 counted A 50' }, at), undefined);
  });

  it('is never below 0, never above what is there, and never rises', () => {
    const anyCount = fc.record({ day: fc.integer({ min: 1, max: 57 }), fish: fc.integer({ min: 0, max: 300 }), event: fc.constantFrom('counted', 'counted', 'counted', 'sold', 'culled', 'lost') });
    fc.assert(
      fc.property(fc.array(anyCount, { maxLength: 6 }), fc.integer({ min: 0, max: 900 }), fc.integer({ min: 0, max: 900 }), fc.option(fc.integer({ min: 1, max: 100 }), { nil: undefined }), (rows, first, more, survival) => {
        const log = [...rows].sort((a, b) => a.day - b.day).map(({ day, fish, event }) => `${formatMoment(momentAt(moment('2026-03-04T10:00').instant + day * DAY, berlin), berlin)} ${event} A ${fish}`).join('; ');
        const study = studyOf({ profile: { ...cave, ...(survival === undefined ? {} : { survival_pct: survival }) }, hatched: '2026-03-04T10:00', log, now: '2026-05-01T12:00' });
        const timeline = timelineOf(study, aQuarter, berlin);
        const [a, b] = [first, first + more].map((days) => expectedAlive(study, timeline, momentAt(study.now.instant + days * DAY, berlin)));
        if (study.heads.alive.count === undefined) assert.equal(a, undefined);
        if (a === undefined || b === undefined) return;
        assert.ok(b >= 0 && b <= a && a <= (study.heads.alive.count as number), `${study.heads.alive.count} ${a} ${b}`);
      }),
    );
  });
});
