import assert from 'node:assert/strict';
import fc from 'fast-check';
import { compareMoments, formatMoment, momentAt } from '../../../src/base/moment';
import { stageAt, timelineOf } from '../../../src/domain/timeline';
import type { LearnedWindow, MilestoneTime, Timeline } from '../../../src/domain/timeline';
import type { ClutchEvent } from '../../../src/domain/things';
import { aQuarter, cave, livebearer, mouthbrooder, studyOf } from '../../support/clutches';
import type { WrittenClutch } from '../../support/clutches';
import { berlin, moment } from '../../support/moments';

function timeline(written: WrittenClutch, learn: (quantity: string) => LearnedWindow = aQuarter): Timeline {
  return timelineOf(studyOf(written), (_study, quantity) => learn(quantity), berlin);
}

/** `hatched expected 2026-03-04T10:00` for each milestone of which something is known. */
function milestonesOf(written: WrittenClutch): readonly string[] {
  return timeline(written).milestones.flatMap((milestone) => (milestone === undefined ? [] : [`${milestone.rung.milestone} ${milestone.basis} ${formatMoment(milestone.time, berlin)}`]));
}

/** `2026-03-03T16:00 to 2026-03-05T04:00`. */
function windowOf(written: WrittenClutch, name: string, learn?: () => LearnedWindow): string {
  const found = timeline(written, learn).milestones.find((milestone) => milestone?.rung.milestone === name) as MilestoneTime;
  return `${formatMoment(found.from, berlin)} to ${formatMoment(found.to, berlin)}`;
}

/** `egg recorded` at now, or at another moment. */
function stageOf(written: WrittenClutch, at = written.now ?? '2026-09-01T12:00'): string {
  const stage = stageAt(timeline(written), moment(at));
  return stage === undefined ? 'none' : [stage.stage, stage.basis].filter((part) => part !== undefined).join(' ');
}

describe('timelineOf', () => {
  it('expects each milestone at the one that its duration counts from, plus that duration', () => {
    assert.deepEqual(milestonesOf({ now: '2026-03-01T12:00' }), [
      'spawned recorded 2026-03-01T10:00',
      'hatched expected 2026-03-04T10:00',
      'free_swimming expected 2026-03-14T10:00',
      'juvenile expected 2026-04-13T11:00', // 40 days of 24 h, over the beginning of summer time
      'sale_size expected 2026-07-22',
    ]);
  });

  it('counts from what is recorded', () => {
    assert.deepEqual(milestonesOf({ hatched: '2026-03-05T08:00', free_swimming: '2026-03-13' }), [
      'spawned recorded 2026-03-01T10:00',
      'hatched recorded 2026-03-05T08:00',
      'free_swimming recorded 2026-03-13',
      'juvenile expected 2026-04-14T09:00',
      'sale_size expected 2026-07-23',
    ]);
  });

  it('counts from the noon of a bare day, and has hours then', () => {
    assert.deepEqual(milestonesOf({ spawned: '2026-03-01', now: '2026-03-01T12:00' }).slice(0, 2), ['spawned recorded 2026-03-01', 'hatched expected 2026-03-04T12:00']);
  });

  it('keeps a recorded moment as it is written', () => {
    assert.deepEqual(milestonesOf({ hatched: '~2026-03-04T06:00' })[1], 'hatched recorded ~2026-03-04T06:00');
  });

  it('expects mouthbrooders to be released and to grow from there', () => {
    assert.deepEqual(milestonesOf({ profile: mouthbrooder, now: '2026-03-02' }), [
      'spawned recorded 2026-03-01T10:00',
      'released expected 2026-03-25T10:00',
      'juvenile expected 2026-04-24T11:00',
      'sale_size expected 2026-06-23',
    ]);
  });

  it('expects livebearers to grow from the drop', () => {
    assert.deepEqual(milestonesOf({ profile: livebearer, now: '2026-03-02' }), [
      'spawned recorded 2026-03-01T10:00',
      'juvenile expected 2026-03-29T11:00',
      'sale_size expected 2026-05-15',
    ]);
  });

  it('expects nothing after a duration that is blank', () => {
    assert.deepEqual(milestonesOf({ profile: { species: 'x', care: 'cave', free_swim_h: 240, juvenile_d: 40 }, now: '2026-03-02' }), ['spawned recorded 2026-03-01T10:00']);
  });

  it('expects what doesn’t hang on a blank duration', () => {
    assert.deepEqual(milestonesOf({ profile: { species: 'x', care: 'cave', hatch_h: 72, sale_d: 140 }, now: '2026-03-02' }), [
      'spawned recorded 2026-03-01T10:00',
      'hatched expected 2026-03-04T10:00',
      'sale_size expected 2026-07-22',
    ]);
  });

  it('has no milestones without a species', () => {
    assert.deepEqual(milestonesOf({ profile: undefined, hatched: '2026-03-04' }), []);
  });

  describe('evidence', () => {
    it('makes a milestone no later than a later one that is recorded', () => {
      assert.deepEqual(milestonesOf({ free_swimming: '2026-03-03T08:00' }).slice(0, 3), [
        'spawned recorded 2026-03-01T10:00',
        'hatched expected 2026-03-03T08:00',
        'free_swimming recorded 2026-03-03T08:00',
      ]);
    });

    it('leaves a milestone earlier than it as it is', () => {
      assert.deepEqual(milestonesOf({ free_swimming: '2026-03-10T08:00' })[1], 'hatched expected 2026-03-04T10:00');
    });

    it('makes the hatch no later than the first row about fry', () => {
      assert.deepEqual(milestonesOf({ log: '2026-03-03T09:00 fed; 2026-03-03T20:00 counted A 30' })[1], 'hatched expected 2026-03-03T09:00');
    });

    it('goes by the earlier of a row and a later milestone', () => {
      assert.deepEqual(milestonesOf({ free_swimming: '2026-03-03T08:00', log: '2026-03-02T20:00 fed' })[1], 'hatched expected 2026-03-02T20:00');
    });

    it('of a bare day leaves what is expected on that day as it is', () => {
      assert.deepEqual(milestonesOf({ log: '2026-03-04 fed' })[1], 'hatched expected 2026-03-04T10:00');
    });

    it('of a bare day makes an earlier hatch one of that day', () => {
      assert.deepEqual(milestonesOf({ log: '2026-03-03 fed' })[1], 'hatched expected 2026-03-03');
    });

    it('of a bare day holds from its morning on', () => {
      assert.deepEqual(stageOf({ log: '2026-03-03 fed', now: '2026-03-03T06:00' }), 'wriggler expected');
    });

    it('does not make a hatch that is recorded any other', () => {
      assert.deepEqual(milestonesOf({ hatched: '2026-03-04T10:00', log: '2026-03-03T09:00 lost A 2' })[1], 'hatched recorded 2026-03-04T10:00');
    });

    it('stands in for a duration that is blank', () => {
      assert.deepEqual(milestonesOf({ profile: { species: 'x', care: 'cave', free_swim_h: 240 }, log: '2026-03-03T09:00 fed' }), [
        'spawned recorded 2026-03-01T10:00',
        'hatched expected 2026-03-03T09:00',
        'free_swimming expected 2026-03-13T09:00',
      ]);
    });

    it('never puts a hatch before the spawn', () => {
      assert.deepEqual(milestonesOf({ log: '2026-02-27T09:00 fed' })[1], 'hatched expected 2026-03-01T10:00');
    });

    it('of the day of the spawn puts the hatch on that day', () => {
      assert.deepEqual(milestonesOf({ log: '2026-03-01 lost A 2' })[1], 'hatched expected 2026-03-01');
    });

    it('is told with the milestone', () => {
      const { evidence } = timeline({ log: '2026-03-09 fed' }).milestones[1] as MilestoneTime;
      assert.deepEqual(evidence, moment('2026-03-09'));
    });

    it('makes a release no later than the first row about fry', () => {
      assert.deepEqual(milestonesOf({ profile: mouthbrooder, log: '2026-03-20T09:00 fed' })[1], 'released expected 2026-03-20T09:00');
    });

    it('is none for the release of a brood that was stripped', () => {
      assert.deepEqual(milestonesOf({ profile: mouthbrooder, log: '2026-03-18T09:00 stripped A 24; 2026-03-20T09:00 fed' })[1], 'released expected 2026-03-25T10:00');
    });
  });

  describe('windows', () => {
    it('go from the milestone that the duration counts from', () => {
      assert.deepEqual(windowOf({ now: '2026-03-02' }, 'hatched'), '2026-03-03T16:00 to 2026-03-05T04:00');
    });

    it('count from the expected moment of the milestone before', () => {
      assert.deepEqual(windowOf({ now: '2026-03-02' }, 'free_swimming'), '2026-03-11T22:00 to 2026-03-16T22:00');
    });

    it('of a recorded milestone are the record itself', () => {
      assert.deepEqual(windowOf({ hatched: '~2026-03-05' }, 'hatched'), '~2026-03-05 to ~2026-03-05');
    });

    it('end with the evidence', () => {
      assert.deepEqual(windowOf({ log: '2026-03-04T12:00 fed' }, 'hatched'), '2026-03-03T16:00 to 2026-03-04T12:00');
    });

    it('are the evidence where it comes before them', () => {
      assert.deepEqual(windowOf({ log: '2026-03-02T12:00 fed' }, 'hatched'), '2026-03-02T12:00 to 2026-03-02T12:00');
    });

    it('of sale size are days, late where growth is slow', () => {
      // 140 d at 1.25 and at 0.75 times the usual speed: 112 d and 186.7 d after 4 March.
      assert.deepEqual(windowOf({ now: '2026-03-02' }, 'sale_size'), '2026-06-24 to 2026-09-07');
    });

    it('are none where nothing can be learned', () => {
      assert.deepEqual(windowOf({ now: '2026-03-02' }, 'juvenile'), '2026-04-13T11:00 to 2026-04-13T11:00');
    });

    it('are in whole milliseconds', () => {
      const { from, to } = timeline({ now: '2026-03-02' }, () => ({ n: 1, from: 1 / 1.3, expected: 1, to: 1.3 / 1.1 })).milestones[1] as MilestoneTime;
      assert.deepEqual([from.instant, to.instant].map(Number.isInteger), [true, true]);
    });

    it('move with what was learned', () => {
      assert.deepEqual(windowOf({ now: '2026-03-02' }, 'hatched', () => ({ n: 3, from: 0.5, expected: 0.75, to: 1 })), '2026-03-02T22:00 to 2026-03-04T10:00');
    });
  });
});

describe('stageAt', () => {
  const cases: readonly (readonly [behaviour: string, written: WrittenClutch, stage: string])[] = [
    ['is an egg from the spawn on', { now: '2026-03-01T10:00' }, 'egg recorded'],
    ['is an egg until the hatch is expected', { now: '2026-03-04T09:59' }, 'egg recorded'],
    ['is a wriggler from the expected hatch on', { now: '2026-03-04T10:00' }, 'wriggler expected'],
    ['is a wriggler from the recorded hatch on', { now: '2026-03-03T08:00', hatched: '2026-03-03T08:00' }, 'wriggler recorded'],
    ['is an egg while the recorded hatch is to come', { now: '2026-03-03T07:59', hatched: '2026-03-03T08:00' }, 'egg recorded'],
    ['is free-swimming when that is expected', { now: '2026-03-14T10:00', hatched: '2026-03-04T10:00' }, 'free-swimming expected'],
    ['is juvenile when that is expected', { now: '2026-04-13T11:00', hatched: '2026-03-04T10:00' }, 'juvenile expected'],
    ['is of sale size from the day at which that is expected', { now: '2026-07-22T00:00', hatched: '2026-03-04T10:00' }, 'sale-size expected'],
    ['goes by the last milestone of the ladder, also when one before it is recorded later', { now: '2026-03-06T08:00', hatched: '2026-03-05T08:00', free_swimming: '2026-03-04T08:00' }, 'free-swimming recorded'],
    ['has ended from the end on', { now: '2026-03-20T08:00', ended: '2026-03-20T08:00' }, 'ended'],
    ['has not ended before', { now: '2026-03-20T07:59', ended: '2026-03-20T08:00', hatched: '2026-03-04' }, 'free-swimming expected'],
    ['is none without a species', { now: '2026-03-20', profile: undefined, hatched: '2026-03-04' }, 'none'],
    ['has ended also without a species', { now: '2026-03-20', profile: undefined, ended: '2026-03-20' }, 'ended'],
    // mouthbrooders
    ['of a mouthbrooder is holding from the spawn on', { profile: mouthbrooder, now: '2026-03-25T09:59' }, 'holding recorded'],
    ['of a mouthbrooder is free-swimming from the expected release on', { profile: mouthbrooder, now: '2026-03-25T10:00' }, 'free-swimming expected'],
    ['of a mouthbrooder is a wriggler from stripping on', { profile: mouthbrooder, now: '2026-03-18T09:00', log: '2026-03-18T09:00 stripped A 24' }, 'wriggler recorded'],
    ['of a stripped mouthbrooder is free-swimming from the expected release on', { profile: mouthbrooder, now: '2026-03-25T10:00', log: '2026-03-18T09:00 stripped A 24' }, 'free-swimming expected'],
    ['of a stripped mouthbrooder is free-swimming from the recorded release on', { profile: mouthbrooder, now: '2026-03-22T10:00', log: '2026-03-18T09:00 stripped A 24; 2026-03-22T10:00 released' }, 'free-swimming recorded'],
    ['of a mouthbrooder that swims free is free-swimming', { profile: mouthbrooder, now: '2026-03-22T10:00', free_swimming: '2026-03-22' }, 'free-swimming recorded'],
    // livebearers
    ['of a livebearer is free-swimming from the drop on', { profile: livebearer, now: '2026-03-01T10:00' }, 'free-swimming recorded'],
    ['of a livebearer is juvenile when that is expected', { profile: livebearer, now: '2026-03-29T11:00' }, 'juvenile expected'],
    // unanswered: the window of the hatch ends on 5 March at four, so two days later
    ['is expected until two days after the window', { now: '2026-03-07T04:00' }, 'wriggler expected'],
    ['is unanswered later than two days after the window', { now: '2026-03-07T04:01' }, 'egg unanswered'],
    ['stays unanswered as long as it takes', { now: '2027-03-07' }, 'egg unanswered'],
    ['is not unanswered with a record', { now: '2026-03-20', hatched: '2026-03-06' }, 'free-swimming expected'],
    ['is not unanswered with a later record', { now: '2026-03-20', free_swimming: '2026-03-15' }, 'free-swimming recorded'],
    ['is not unanswered with a row about fry', { now: '2026-03-20', log: '2026-03-15 fed' }, 'free-swimming expected'],
    ['is unanswered with rows that say nothing of fry', { now: '2026-03-20', log: '2026-03-02 checked; 2026-03-02 fungus A 3; 2026-03-03 moved A - B' }, 'egg unanswered'],
    ['is not unanswered after the end', { now: '2026-03-20', ended: '2026-03-20' }, 'ended'],
    ['of a mouthbrooder stays holding while unanswered', { profile: mouthbrooder, now: '2026-04-20' }, 'holding unanswered'],
    ['of a mouthbrooder is not unanswered once stripped', { profile: mouthbrooder, now: '2026-04-20', log: '2026-03-18 stripped A 24' }, 'free-swimming expected'],
    ['of an egg-layer is not answered by stripping', { now: '2026-04-20', log: '2026-03-02 stripped A 24' }, 'egg unanswered'],
    ['of a livebearer is never unanswered', { profile: livebearer, now: '2026-04-20' }, 'juvenile expected'],
    ['is never unanswered where no hatch can be expected', { profile: { species: 'x', care: 'cave' }, now: '2026-04-20' }, 'egg recorded'],
  ];
  for (const [behaviour, written, stage] of cases) {
    it(behaviour, () => assert.deepEqual(stageOf(written), stage));
  }

  it('is none before the spawn', () => {
    assert.deepEqual(stageOf({ now: '2026-03-02' }, '2026-03-01T09:59'), 'none');
  });

  it('at an earlier moment goes by what is known now', () => {
    const written: WrittenClutch = { hatched: '2026-03-05T08:00', ended: '2026-05-01', now: '2026-06-01' };
    const at = ['2026-03-05T07:59', '2026-03-05T08:00', '2026-03-15T08:00', '2026-04-30', '2026-05-01', '2026-05-02'];
    assert.deepEqual(at.map((moment) => stageOf(written, moment)), ['egg recorded', 'wriggler recorded', 'free-swimming expected', 'juvenile expected', 'ended', 'ended']);
  });
});

describe('any timeline', () => {
  const profile = fc.constantFrom(cave, mouthbrooder, livebearer);
  const start = moment('2026-03-01T10:00').instant;
  const time = fc.record({ hours: fc.integer({ min: 0, max: 200 * 24 }), bare: fc.boolean(), about: fc.boolean() }).map(({ hours, bare, about }) => {
    const text = formatMoment(momentAt(start + hours * 3_600_000, berlin), berlin);
    return `${about ? '~' : ''}${bare ? text.slice(0, 10) : text}`;
  });
  const event = fc.constantFrom<ClutchEvent>('checked', 'hatched', 'first_feed', 'fed', 'free_swimming', 'released', 'stripped', 'lost', 'counted');
  const log = fc.array(fc.tuple(time, event), { maxLength: 5 }).map((rows) => rows.map(([at, name]) => `${at} ${name} A 3`).join('; '));
  const factors = fc.tuple(fc.double({ min: 0.3, max: 1, noNaN: true }), fc.double({ min: 1, max: 2, noNaN: true }), fc.double({ min: 1, max: 2, noNaN: true }));
  const learned = factors.map(([low, middle, high]): LearnedWindow => ({ n: 2, from: low, expected: middle, to: middle * high }));
  const cell = fc.option(time, { nil: undefined });
  const clutch = fc
    .record({ profile, log, hatched: cell, free_swimming: cell })
    .map(({ hatched, free_swimming, ...rest }): WrittenClutch => ({ ...rest, ...(hatched === undefined ? {} : { hatched }), ...(free_swimming === undefined ? {} : { free_swimming }), now: '2026-12-01' }));

  it('has windows that never cross', () => {
    fc.assert(
      fc.property(clutch, learned, (written, window) => {
        for (const milestone of timeline(written, () => window).milestones) {
          if (milestone === undefined) continue;
          assert.ok(compareMoments(milestone.from, milestone.time) <= 0 && compareMoments(milestone.time, milestone.to) <= 0);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('expects nothing before what it counts from, nor after what shows that it was past', () => {
    fc.assert(
      fc.property(clutch, learned, (written, window) => {
        const { milestones } = timeline(written, () => window);
        for (const milestone of milestones) {
          if (milestone?.basis !== 'expected') continue;
          const base = milestones.find((other) => other?.rung.milestone === milestone.rung.after) as MilestoneTime;
          const later = milestones.slice(milestones.indexOf(milestone) + 1).filter((other) => other?.basis === 'recorded') as MilestoneTime[];
          assert.ok(compareMoments(milestone.from, base.time) >= 0, 'before its base');
          const seen = milestone.evidence;
          if (seen !== undefined && compareMoments(seen, base.time) >= 0) assert.ok(compareMoments(milestone.to, seen) <= 0, 'after the evidence');
          for (const { time } of later) assert.ok(compareMoments(time, base.time) < 0 || compareMoments(milestone.to, time) <= 0, 'after a later record');
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('goes up the ladder as time passes', () => {
    fc.assert(
      fc.property(profile, fc.array(fc.nat({ max: 300 * 24 }), { minLength: 2, maxLength: 8 }), (species, hours) => {
        const known = timeline({ profile: species, log: '2026-03-30 released; 2026-03-30 fed', now: '2026-12-01' });
        const stages = known.milestones.map((milestone) => milestone?.rung.stage);
        const reached = hours.sort((a, b) => a - b).map((hour) => stages.indexOf(stageAt(known, momentAt(start + hour * 3_600_000, berlin))?.stage as never));
        assert.deepEqual(reached, [...reached].sort((a, b) => a - b));
      }),
      { numRuns: 500 },
    );
  });
});
