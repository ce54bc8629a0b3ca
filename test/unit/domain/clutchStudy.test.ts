import assert from 'node:assert/strict';
import { formatMoment } from '../../../src/base/moment';
import { durationOf, laterRecord, recordOf } from '../../../src/domain/clutchStudy';
import type { Rung } from '../../../src/domain/ladder';
import type { TankTemperatures } from '../../../src/domain/temperature';
import type { Profile } from '../../../src/domain/things';
import { cave, livebearer, mouthbrooder, studyOf } from '../../support/clutches';
import type { WrittenClutch } from '../../support/clutches';
import { berlin, moment } from '../../support/moments';

/** What a clutch teaches, as factors on the model's durations: `hatch 1.2500`. */
function lessonsOf(written: WrittenClutch): readonly string[] {
  return Object.entries(studyOf(written).observations).map(([quantity, x]) => `${quantity} ${Math.exp(x).toFixed(4)}`);
}

describe('observations of a clutch', () => {
  const cases: readonly (readonly [behaviour: string, written: WrittenClutch, lessons: readonly string[]])[] = [
    ['are the recorded durations over those of the model', { hatched: '2026-03-05T04:00', free_swimming: '2026-03-13T04:00' }, ['hatch 1.2500', 'freeSwimming 0.8000']],
    ['come from the log as well', { log: '2026-03-05T04:00 hatched' }, ['hatch 1.2500']],
    ['are none where nothing is recorded', {}, []],
    ['need both ends', { free_swimming: '2026-03-13T04:00' }, []],
    ['are none with a hatch as about', { hatched: '~2026-03-05T04:00', free_swimming: '2026-03-15T04:00' }, []],
    ['are none with a spawn as about', { spawned: '~2026-03-01T10:00', hatched: '2026-03-05T04:00' }, []],
    ['are none where the end is not after the start', { hatched: '2026-03-01T10:00' }, []],
    ['are none of what is later than now', { hatched: '2026-03-05T04:00', now: '2026-03-05T03:59' }, []],
    ['are none where the model has no duration', { profile: { species: 'x', care: 'cave' }, hatched: '2026-03-05T04:00' }, []],
    ['are none without a species', { profile: undefined, hatched: '2026-03-05T04:00' }, []],
    ['take bare days for their noon', { spawned: '2026-03-01', hatched: '2026-03-04' }, ['hatch 1.0000']],
    ['of a mouthbrooder are of the release', { profile: mouthbrooder, log: '2026-03-31T10:00 released' }, ['release 1.2483']], // an hour less, over the beginning of summer time
    ['of a livebearer are none', { profile: livebearer, free_swimming: '2026-03-01' }, []],
    ['are not of what is expected by the calendar', { hatched: '2026-03-04T10:00', log: '2026-05-01 fed' }, ['hatch 1.0000']],
  ];
  for (const [behaviour, written, lessons] of cases) {
    it(behaviour, () => assert.deepEqual(lessonsOf(written), lessons));
  }

  it('are seen against the model at the temperature of their own interval', () => {
    const profile: Profile = { ...cave, ref_temp_c: 26, zero_temp_c: 16 };
    const warmth: TankTemperatures = { instants: [moment('2026-03-02').instant, moment('2026-03-06').instant], celsius: [25, 28], rows: [{}, {}], usual: undefined };
    // At 25 °C the model has 80 h to the hatch, at 28 °C 200 h to the first swimming.
    assert.deepEqual(lessonsOf({ profile, temperaturesOf: () => warmth, hatched: '2026-03-04T18:00', free_swimming: '2026-03-14T22:00' }), ['hatch 1.0000', 'freeSwimming 1.2200']);
  });
});

describe('where a clutch stays', () => {
  const cases: readonly (readonly [behaviour: string, log: string, stay: string])[] = [
    ['is its register tank', '', 'A'],
    ['follows what is moved as a whole', '2026-03-02 moved A - B; 2026-03-03 moved B - C', 'A B C'],
    ['follows what is stripped into another tank', '2026-03-02 stripped A 24 B', 'A B'],
    ['stays when some are moved', '2026-03-02 moved A 10 B', 'A'],
    ['stays when a part of it is moved on from elsewhere', '2026-03-02 moved A 10 B; 2026-03-03 moved B - C', 'A'],
    ['follows the rest after a part of it was moved on from elsewhere', '2026-03-02 moved A 10 B; 2026-03-03 moved B - C; 2026-03-04 moved A - D', 'A D'],
    ['stays in the tank of the rest when some were moved before', '2026-03-02 moved A 10 B; 2026-03-03 moved A - C', 'A C'],
    ['stays when fry are counted elsewhere', '2026-03-02 counted B 5', 'A'],
  ];
  for (const [behaviour, log, stay] of cases) {
    it(behaviour, () => {
      const { tank, moves } = studyOf({ log }).stay;
      assert.deepEqual([tank, ...moves.map(({ to }) => to)].join(' '), stay);
    });
  }
});

describe('recordOf', () => {
  it('gives the record of each milestone that can be recorded', () => {
    const { recorded } = studyOf({ profile: mouthbrooder, hatched: '2026-03-05', log: '2026-03-18 stripped A 20; 2026-03-25 released; 2026-03-26 free_swimming' });
    const names = ['spawned', 'hatched', 'stripped', 'released', 'free_swimming', 'juvenile', 'sale_size'] as const;
    const told = names.map((name) => {
      const record = recordOf(name, recorded);
      return `${name} ${record === undefined ? 'none' : formatMoment(record.time, berlin)}`;
    });
    assert.deepEqual(told, ['spawned 2026-03-01T10:00', 'hatched 2026-03-05', 'stripped 2026-03-18', 'released 2026-03-25', 'free_swimming 2026-03-26', 'juvenile none', 'sale_size none']);
  });
});

describe('laterRecord', () => {
  it('is the next recorded milestone above a rung', () => {
    const study = studyOf({ hatched: '2026-03-04', free_swimming: '2026-03-14' });
    const rungs = study.ladder?.rungs as readonly Rung[];
    assert.deepEqual(rungs.map((rung) => laterRecord(study, rung)?.day), [moment('2026-03-04').day, moment('2026-03-14').day, undefined, undefined, undefined]);
  });
});

describe('durationOf', () => {
  const profile: Profile = { ...cave, ref_temp_c: 26, zero_temp_c: 16 };
  const warmth: TankTemperatures = {
    instants: ['2026-03-01T12:00', '2026-03-03T12:00', '2026-03-05T12:00'].map((text) => moment(text).instant),
    celsius: [24, 26, 31],
    rows: [{}, {}, {}],
    usual: undefined,
  };
  const cases: readonly (readonly [behaviour: string, written: WrittenClutch, celsius: number])[] = [
    ['goes on for half as long again as usual', {}, 27],
    ['ends with its own record', { hatched: '2026-03-03T12:00' }, 25],
    ['ends with a later record where it has none', { free_swimming: '2026-03-04' }, 25],
    ['ends with the clutch', { ended: '2026-03-02' }, 24],
    ['ends with the earlier of a later record and the end', { ended: '2026-03-02', free_swimming: '2026-03-04' }, 24],
    ['goes by its own record also where the clutch ended before', { ended: '2026-03-02', hatched: '2026-03-03T12:00' }, 25],
    ['ends now', { now: '2026-03-02' }, 24],
  ];
  for (const [behaviour, written, celsius] of cases) {
    it(behaviour, () => {
      const study = studyOf({ profile, temperaturesOf: () => warmth, ...written });
      assert.deepEqual(durationOf(study, study.ladder?.rungs[1] as Rung, moment('2026-03-01T10:00'))?.temperature?.celsius, celsius);
    });
  }

  it('is none of what grows by the calendar only', () => {
    const study = studyOf({});
    assert.deepEqual(durationOf(study, study.ladder?.rungs[0] as Rung, moment('2026-03-01')), undefined);
  });
});
