import assert from 'node:assert/strict';
import { afterChanges, changesNeeded, dailyRise, shareNeeded, steadyState, volumesNeeded } from '../../src/domain/water';

// Arithmetic on C·(1−f)^n, common practice, no source.
describe('water changes', () => {
  it('leave what is not changed, each time', () => {
    assert.deepEqual([afterChanges(1, 0.5, 4), Number(afterChanges(1, 0.25, 4).toPrecision(4)), Number(afterChanges(1, 0.25, 8).toPrecision(4))], [0.0625, 0.3164, 0.1001]);
    assert.deepEqual([Number(afterChanges(1, 0.1, 7).toPrecision(4)), Number(afterChanges(1, 0.7, 1).toPrecision(4))], [0.4783, 0.3]);
  });

  it('of a quarter bring it down to a tenth with the ninth, since eight leave 10.01 %', () => {
    assert.deepEqual([changesNeeded(1, 0.1, 0.25), changesNeeded(1, 0.5, 0.5), changesNeeded(1, 0.0625, 0.5), changesNeeded(1, 2, 0.1), changesNeeded(1, 0, 0.5)], [9, 1, 4, 0, Number.POSITIVE_INFINITY]);
    assert.deepEqual([shareNeeded(80, 20), shareNeeded(10, 20)], [0.75, 0]);
  });

  it('of a quarter against five a day settle at twenty before and fifteen after', () => {
    assert.deepEqual(steadyState(5, 0.25), { before: 20, after: 15 });
  });

  it('by dripping leave e^−1, e^−2, e^−3 after one, two and three volumes', () => {
    assert.deepEqual([0.3679, 0.1353, 0.04979].map((left) => Number(volumesNeeded(1, left).toFixed(2))), [1, 2, 3]);
    assert.deepEqual([volumesNeeded(1, 2), volumesNeeded(1, 0)], [0, Number.POSITIVE_INFINITY]);
  });

  // IMO ballast water regulation D-1: three volumes pumped through equal an exchange of 95 %.
  it('by dripping three volumes are an exchange of 95 %', () => {
    assert.ok(volumesNeeded(1, 0.05) < 3 && volumesNeeded(1, 0.0498) > 2.99);
  });

  it('tell the daily rise apart from what was changed', () => {
    const day = (n: number): number => n * 86_400_000;
    const changes = [{ instant: day(7), share: 0.25 }, { instant: day(14), share: 0.25 }];
    // From the steady state above, 5 a day and a quarter a day: 15 after a change, 20 before the next.
    assert.equal(dailyRise({ instant: 0, concentration: 15 }, { instant: day(1), concentration: 20 }, []), 5);
    assert.equal(dailyRise({ instant: 0, concentration: 20 }, { instant: day(1), concentration: 20 }, [{ instant: 0, share: 0.25 }]), 5);
    // 10 + 7·2 = 24, a quarter less is 18, 18 + 14 = 32, a quarter less 24, and two days more.
    assert.equal(dailyRise({ instant: 0, concentration: 10 }, { instant: day(16), concentration: 28 }, changes), 2);
    assert.equal(dailyRise({ instant: 0, concentration: 10 }, { instant: day(16), concentration: 28 }, [...changes].reverse()), 2);
    assert.deepEqual([dailyRise({ instant: 0, concentration: 10 }, { instant: day(2), concentration: 10 }, []), dailyRise({ instant: 0, concentration: 1 }, { instant: day(0.5), concentration: 9 }, [])], [undefined, undefined]);
  });
});
