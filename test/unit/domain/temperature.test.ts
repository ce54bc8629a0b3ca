import assert from 'node:assert/strict';
import { modelDuration } from '../../../src/domain/temperature';
import type { TankTemperatures, TemperatureSource } from '../../../src/domain/temperature';
import type { Profile } from '../../../src/domain/things';
import { entriesOf } from '../../support/clutchLog';
import { moment } from '../../support/moments';

/** 72 h at 26 °C, standing still at 16 °C: 10 °C above it, so 720 degree-hours. */
const species: Profile = { species: 'kribensis', care: 'cave', hatch_h: 72, ref_temp_c: 26, zero_temp_c: 16, temp_min_c: 24, temp_max_c: 28 };

/** `2026-03-01T10:00 25.5; …; usual 25` of one tank. */
function logged(text: string): TankTemperatures {
  const words = text.split('; ').map((row) => row.split(' ') as [string, string]);
  const readings = words.filter(([time]) => time !== 'usual').map(([time, celsius]) => ({ instant: moment(time).instant, celsius: Number(celsius), row: { time } }));
  const usual = words.find(([time]) => time === 'usual');
  return {
    instants: readings.map(({ instant }) => instant),
    celsius: readings.map(({ celsius }) => celsius),
    rows: readings.map(({ row }) => row),
    usual: usual === undefined ? undefined : Number(usual[1]),
  };
}

interface Asked {
  readonly profile?: Profile;
  readonly tanks?: Readonly<Record<string, string>>;
  readonly start?: string;
  readonly end?: string;
  /** `end` is the interval's own, not that of something later. */
  readonly ended?: boolean;
  readonly now?: string;
  /** `2026-03-02T10:00 A B; …` */
  readonly moves?: string;
}

/** The temperature of the hatch of a clutch that was spawned in tank A on 1 March at ten, `25.5 logged A`, and its hours. */
function answerOf({ profile = species, tanks = {}, start = '2026-03-01T10:00', end, ended = false, now = '2026-06-01T12:00', moves = '' }: Asked): string {
  const wholeMoves = moves === '' ? [] : moves.split('; ').map((move) => {
    const [time, from, to] = move.split(' ') as [string, string, string];
    return { entry: entriesOf(`${time} moved ${from} - ${to}`)[0] as ReturnType<typeof entriesOf>[number], from, to };
  });
  const duration = modelDuration({
    profile,
    duration: 'hatch_h',
    unit: 'h',
    start: moment(start),
    end: end === undefined ? undefined : moment(end),
    endRecorded: ended,
    now: moment(now),
    stay: { tank: 'A', moves: wholeMoves },
    temperaturesOf: (tank) => (tanks[tank] === undefined ? undefined : logged(tanks[tank])),
  });
  if (duration === undefined) return 'none';
  const { ms, temperature, outsideModel } = duration;
  const source: TemperatureSource | undefined = temperature?.source;
  const hours = `${Number((ms / 3_600_000).toFixed(2))} h`;
  const told = temperature === undefined ? 'unadjusted' : `${temperature.celsius} ${source} ${temperature.tank}, ${temperature.rows.length} rows`;
  return `${hours}, ${told}${outsideModel ? ', outside' : ''}`;
}

describe('modelDuration', () => {
  const cases: readonly (readonly [behaviour: string, asked: Asked, answer: string])[] = [
    // where a temperature comes from
    ['is none where the species has no such duration', { profile: { species: 'x', care: 'cave' } }, 'none'],
    ['is not adjusted without a developmental zero', { profile: { species: 'x', care: 'cave', hatch_h: 72, ref_temp_c: 26 }, tanks: { A: '2026-03-02 22' } }, '72 h, unadjusted'],
    ['is not adjusted without a reference', { profile: { species: 'x', care: 'cave', hatch_h: 72, zero_temp_c: 16 }, tanks: { A: '2026-03-02 22' } }, '72 h, unadjusted'],
    ['goes by the readings since its start', { tanks: { A: '2026-03-01T12:00 24; 2026-03-02T12:00 25' } }, '84.71 h, 24.5 logged A, 2 rows'],
    ['takes a reading at the very start', { tanks: { A: '2026-03-01T10:00 24' } }, '90 h, 24 logged A, 1 rows'],
    ['is longer where it is cooler', { tanks: { A: '2026-03-01T12:00 22' } }, '120 h, 22 logged A, 1 rows'],
    ['is shorter where it is warmer', { tanks: { A: '2026-03-01T12:00 28' } }, '60 h, 28 logged A, 1 rows'],
    ['else goes by the latest reading of the 14 days before', { tanks: { A: '2026-02-16T10:00 23; 2026-02-20T10:00 24; usual 27' } }, '90 h, 24 latest A, 1 rows'],
    ['takes a reading of exactly 14 days before', { tanks: { A: '2026-02-15T10:00 24; usual 27' } }, '90 h, 24 latest A, 1 rows'],
    ['takes no reading of more than 14 days before', { tanks: { A: '2026-02-15T09:59 24; usual 27' } }, '65.45 h, 27 tank A, 0 rows'],
    ['else goes by what the tank usually has', { tanks: { A: 'usual 27' } }, '65.45 h, 27 tank A, 0 rows'],
    ['else goes by the reference', {}, '72 h, 26 reference A, 0 rows'],
    // where the interval ends
    ['ends the readings at the recorded end', { tanks: { A: '2026-03-01T12:00 24; 2026-03-04T10:00 26; 2026-03-04T10:01 30' }, end: '2026-03-04T10:00', ended: true }, '80 h, 25 logged A, 2 rows'],
    ['goes on to a recorded end that is far away', { tanks: { A: '2026-03-01T12:00 24; 2026-03-09T10:00 26' }, end: '2026-03-10', ended: true }, '80 h, 25 logged A, 2 rows'],
    ['without a record ends the readings at something later', { tanks: { A: '2026-03-01T12:00 24; 2026-03-03T12:00 30' }, end: '2026-03-03T10:00' }, '90 h, 24 logged A, 1 rows'],
    ['without a record ends the readings at now', { tanks: { A: '2026-03-01T12:00 24; 2026-03-03T12:00 30' }, now: '2026-03-03T10:00' }, '90 h, 24 logged A, 1 rows'],
    ['without a record ends the readings after half as long again as usual', { tanks: { A: '2026-03-01T12:00 24; 2026-03-05T22:00 26; 2026-03-05T22:01 30' } }, '80 h, 25 logged A, 2 rows'],
    ['takes a bare day for its noon', { tanks: { A: '2026-03-01 25; 2026-03-02 27' }, start: '2026-03-01T12:01' }, '65.45 h, 27 logged A, 1 rows'],
    ['counts from the noon of a bare start', { tanks: { A: '2026-03-01T11:59 25; 2026-03-02 27' }, start: '2026-03-01' }, '65.45 h, 27 logged A, 1 rows'],
    // a start still to come
    ['of a start still to come goes by the latest reading up to now', { start: '2026-03-10', now: '2026-03-05', tanks: { A: '2026-02-20 24; 2026-03-04 25; 2026-03-07 27' } }, '80 h, 25 latest A, 1 rows'],
    ['of a start still to come goes back 14 days from now', { start: '2026-03-10', now: '2026-03-05', tanks: { A: '2026-02-18 24; usual 27' } }, '65.45 h, 27 tank A, 0 rows'],
    // what it follows
    ['follows a move that takes all', { moves: '2026-03-02T10:00 A B', tanks: { A: '2026-03-01T12:00 24; 2026-03-02T12:00 30', B: '2026-03-01T12:00 30; 2026-03-02T12:00 26' } }, '80 h, 25 logged B, 2 rows'],
    ['begins where it stood at the start', { moves: '2026-03-01T09:00 A B', tanks: { A: '2026-03-01T12:00 30', B: '2026-03-01T12:00 25' } }, '80 h, 25 logged B, 1 rows'],
    ['looks before the start in the tank that it stood in at the start', { moves: '2026-03-01T09:00 A B; 2026-03-02T09:00 B C', tanks: { A: '2026-02-28 30', B: '2026-02-28 25', C: '2026-02-28 22' } }, '80 h, 25 latest B, 1 rows'],
    ['stays where it is after a move behind its end', { moves: '2026-03-20T10:00 A B', tanks: { A: '2026-03-01T12:00 25', B: '2026-03-02T12:00 30' } }, '80 h, 25 logged A, 1 rows'],
    ['counts no hour in two tanks where a move is of a bare day', { moves: '2026-03-02T18:00 A B; 2026-03-02 B C', tanks: { A: '2026-03-02T15:00 25', C: '2026-03-02T15:00 30' } }, '80 h, 25 logged C, 1 rows'],
    // what the model covers
    ['is adjusted up to 3 °C outside the range of the species', { tanks: { A: '2026-03-02 31' } }, '48 h, 31 logged A, 1 rows'],
    ['is not adjusted more than 3 °C above the range', { tanks: { A: '2026-03-02 31.1' } }, '72 h, 31.1 logged A, 1 rows, outside'],
    ['is not adjusted more than 3 °C below the range', { tanks: { A: '2026-03-02 20.9' } }, '72 h, 20.9 logged A, 1 rows, outside'],
    ['is not adjusted at 1 °C above the developmental zero', { profile: { species: 'x', care: 'cave', hatch_h: 72, ref_temp_c: 26, zero_temp_c: 16 }, tanks: { A: '2026-03-02 17' } }, '72 h, 17 logged A, 1 rows, outside'],
    ['is not adjusted where the reference is not above the zero', { profile: { species: 'x', care: 'cave', hatch_h: 72, ref_temp_c: 16, zero_temp_c: 16 }, tanks: { A: '2026-03-02 25' } }, '72 h, 25 logged A, 1 rows, outside'],
  ];
  for (const [behaviour, asked, answer] of cases) {
    it(behaviour, () => assert.deepEqual(answerOf(asked), answer));
  }

  it('reads days where a duration is in days', () => {
    const duration = modelDuration({
      profile: { species: 'x', care: 'mouthbrooder', release_d: 20 },
      duration: 'release_d',
      unit: 'd',
      start: moment('2026-03-01'),
      end: undefined,
      endRecorded: false,
      now: moment('2026-03-02'),
      stay: { tank: 'A', moves: [] },
      temperaturesOf: () => undefined,
    });
    assert.deepEqual(duration, { ms: 20 * 86_400_000, unadjustedMs: 20 * 86_400_000, temperature: undefined, outsideModel: false });
  });

  it('names the rows that it took', () => {
    const temperatures = logged('2026-02-28 30; 2026-03-01T12:00 24; 2026-03-02T12:00 25');
    const duration = modelDuration({
      profile: species,
      duration: 'hatch_h',
      unit: 'h',
      start: moment('2026-03-01T10:00'),
      end: undefined,
      endRecorded: false,
      now: moment('2026-06-01'),
      stay: { tank: 'A', moves: [] },
      temperaturesOf: () => temperatures,
    });
    assert.deepEqual(duration?.temperature?.rows, [{ time: '2026-03-01T12:00' }, { time: '2026-03-02T12:00' }]);
  });
});
