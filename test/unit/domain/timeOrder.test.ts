import assert from 'node:assert/strict';
import fc from 'fast-check';
import { inTimeOrder } from '../../../src/domain/timeOrder';
import { moment } from '../../support/moments';

interface Written {
  readonly name: string;
  readonly time: string;
}

/** `a 2026-03-01T10:00; b 2026-03-01`: the names in the order of the times. */
function orderOf(rows: string): string {
  const written: readonly Written[] = rows.split('; ').map((row) => ({ name: row.slice(0, 1), time: row.slice(2) }));
  return inTimeOrder(written, ({ time }) => moment(time)).map(({ name }) => name).join('');
}

describe('inTimeOrder', () => {
  const cases: readonly (readonly [behaviour: string, rows: string, order: string])[] = [
    ['keeps what is in order', 'a 2026-03-01T10:00; b 2026-03-01T11:00; c 2026-03-02', 'abc'],
    ['sorts by time', 'a 2026-03-02T10:00; b 2026-03-01T11:00; c 2026-03-01T10:59', 'cba'],
    ['leaves equal times as written', 'a 2026-03-02T10:00; b 2026-03-01T10:00; c 2026-03-01T10:00; d 2026-03-01T10:00', 'bcda'],
    ['sorts by the instant where offsets differ', 'a 2026-03-01T12:00+03:00; b 2026-03-01T11:00+01:00; c 2026-03-01T08:30Z', 'cab'],
    ['sorts about moments by what they say', 'a ~2026-03-02T10:00; b 2026-03-01T10:00; c ~2026-03-01T09:00', 'cba'],
    ['sorts bare days by day', 'a 2026-03-03; b 2026-03-01; c 2026-03-02', 'bca'],
    ['puts a bare day first of its day where no time is written above it', 'a 2026-03-01; b 2026-03-01T08:00', 'ab'],
    ['puts a bare day first of its day also when a time is written below it only', 'a 2026-03-02T08:00; b 2026-03-01; c 2026-03-01T08:00', 'bca'],
    ['puts a bare day directly after the time written above it', 'a 2026-03-01T08:00; b 2026-03-01; c 2026-03-01T20:00', 'abc'],
    ['takes the nearest time above, not the latest', 'a 2026-03-01T20:00; b 2026-03-01T08:00; c 2026-03-01', 'bca'],
    ['looks past rows of other days for the time above', 'a 2026-03-01T08:00; b 2026-03-02T09:00; c 2026-03-01; d 2026-03-01T07:00', 'dacb'],
    ['looks past bare days for the time above', 'a 2026-03-01T08:00; b 2026-03-01; c 2026-03-01; d 2026-03-01T07:00', 'dabc'],
    ['leaves several bare days without a time as written', 'a 2026-03-02; b 2026-03-01; c 2026-03-01', 'bca'],
    ['does not take a time of another day', 'a 2026-03-02T08:00; b 2026-03-01', 'ba'],
    ['keeps a bare day directly after its time where an equal time follows', 'a 2026-03-01T08:00; b 2026-03-01; c 2026-03-01T08:00; d 2026-03-01T07:00', 'dabc'],
  ];
  for (const [behaviour, rows, order] of cases) {
    it(behaviour, () => assert.deepEqual(orderOf(rows), order));
  }

  it('gives the same order whatever order rows of distinct times are written in', () => {
    const day = fc.integer({ min: 1, max: 28 }).map((n) => `2026-03-${String(n).padStart(2, '0')}`);
    const clock = fc.tuple(fc.nat({ max: 23 }), fc.nat({ max: 59 })).map(([h, m]) => `T${String(h).padStart(2, '0')}:${String(m).padStart(2, '0')}`);
    const times = fc.uniqueArray(fc.tuple(day, clock).map(([d, c]) => d + c), { maxLength: 20, selector: (time) => moment(time).instant });
    fc.assert(
      fc.property(times.chain((written) => fc.tuple(fc.constant(written), fc.shuffledSubarray(written, { minLength: written.length }))), ([written, shuffled]) => {
        const order = (list: readonly string[]): readonly string[] => inTimeOrder(list, moment);
        assert.deepEqual(order(shuffled), order(written));
      }),
      { numRuns: 1000 },
    );
  });

  it('never changes the order of what it has ordered, and loses nothing', () => {
    const time = fc.tuple(fc.integer({ min: 1, max: 4 }), fc.option(fc.nat({ max: 23 }))).map(([d, h]) => `2026-03-0${d}${h === null ? '' : `T${String(h).padStart(2, '0')}:00`}`);
    fc.assert(
      fc.property(fc.array(time, { maxLength: 12 }), (times) => {
        const once = inTimeOrder(times.map((text, place) => ({ text, place })), ({ text }) => moment(text));
        const places = once.map(({ place }) => place);
        assert.deepEqual(inTimeOrder(once, ({ text }) => moment(text)).map(({ place }) => place), places);
        assert.deepEqual([...places].sort((a, b) => a - b), times.map((_, place) => place));
      }),
      { numRuns: 1000 },
    );
  });
});
