import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatDay, parseDay } from '../../../../src/base/moment';
import { dayTicks, roundScale } from '../../../../src/views/charts/ticks';

describe('roundScale', () => {
  it('has round numbers around the values', () => {
    const texts = (low: number, high: number): readonly string[] => roundScale(low, high, 4).ticks.map(({ text }) => text);
    assert.deepEqual(texts(0, 31), ['0', '10', '20', '30', '40']);
    assert.deepEqual(texts(24, 28), ['24', '25', '26', '27', '28']);
    assert.deepEqual(texts(6.9, 7.3), ['6.9', '7.0', '7.1', '7.2', '7.3']);
    assert.deepEqual(texts(0, 0.02), ['0.000', '0.005', '0.010', '0.015', '0.020']);
    assert.deepEqual(texts(7, 7), ['6.90', '6.95', '7.00', '7.05', '7.10']);
    assert.deepEqual(texts(0, 0), ['-1.0', '-0.5', '0.0', '0.5', '1.0']);
  });

  it('holds all values and has few ticks, each with its own text', () => {
    const any = fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((value) => (Math.abs(value) < 1e-6 ? 0 : value));
    fc.assert(
      fc.property(any, any, (a, b) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        fc.pre(high - low > 1e-6 * Math.abs(high) || high === low);
        const { from, to, ticks } = roundScale(low, high, 4);
        // But for what can't be seen: a rounding error may not cost a step.
        const unseen = 1e-8 * (to - from);
        assert.ok(from <= low + unseen && to >= high - unseen && from < to);
        assert.ok(ticks.length >= 2 && ticks.length <= 7);
        assert.equal(new Set(ticks.map(({ text }) => text)).size, ticks.length);
      }),
    );
  });
});

describe('dayTicks', () => {
  const between = (from: string, to: string): readonly string[] => {
    const { days, unit } = dayTicks(parseDay(from) as number, parseDay(to) as number, 6);
    return [unit, ...days.map(formatDay)];
  };

  it('are days, Mondays, firsts of months or of years', () => {
    assert.deepEqual(between('2026-06-10', '2026-06-13'), ['day', '2026-06-10', '2026-06-11', '2026-06-12', '2026-06-13']);
    assert.deepEqual(between('2026-06-10', '2026-07-10'), ['day', '2026-06-15', '2026-06-22', '2026-06-29', '2026-07-06']);
    assert.deepEqual(between('2025-11-10', '2026-03-10'), ['month', '2025-12-01', '2026-01-01', '2026-02-01', '2026-03-01']);
    assert.deepEqual(between('2024-02-10', '2026-03-10'), ['month', '2024-07-01', '2025-01-01', '2025-07-01', '2026-01-01']);
    assert.deepEqual(between('0001-01-01', '9999-12-31'), ['year', '2000-01-01', '4000-01-01', '6000-01-01', '8000-01-01']);
  });

  it('are never more than asked for, in order, inside', () => {
    const day = fc.integer({ min: -719_000, max: 3_000_000 });
    fc.assert(
      fc.property(day, fc.integer({ min: 1, max: 3_000_000 }), (from, length) => {
        const { days } = dayTicks(from, from + length, 6);
        assert.ok(days.length <= 6 && (length < 4 || days.length > 0));
        assert.ok(days.every((one, i) => one >= from && one <= from + length && one > (days[i - 1] ?? -Infinity)));
      }),
    );
  });
});
