import assert from 'node:assert/strict';
import { parseDuration } from '../../../src/base/duration';
import { formatMoment } from '../../../src/base/moment';
import { isRunning, readyOf, renewDueOf } from '../../../src/domain/cultures';
import type { Culture } from '../../../src/domain/cultures';
import { berlin, moment } from '../../support/moments';

function culture({ started = '2026-06-01', ended, ...more }: Partial<Omit<Culture, 'started' | 'ended'>> & { readonly started?: string; readonly ended?: string }): Culture {
  return { culture: 'C', food: 'brine_shrimp', grams: undefined, tempC: undefined, yieldPerG: undefined, renewEvery: undefined, started: moment(started), ended: ended === undefined ? undefined : moment(ended), ...more };
}

function shown(time: ReturnType<typeof readyOf>): string {
  return time === undefined ? '' : formatMoment(time, berlin);
}

describe('a culture is ready', () => {
  const ready = (...given: Parameters<typeof culture>): string => shown(readyOf(culture(...given), berlin));

  it('a day after brine shrimp were started at 28 °C, a day and a half where it is cooler or not known', () => {
    const at = (tempC: number | undefined): string => ready({ started: '2026-06-01T19:30', tempC });
    assert.deepEqual([28, 30, 27.9, 25, undefined].map(at), ['2026-06-02T19:30', '2026-06-02T19:30', '2026-06-03T07:30', '2026-06-03T07:30', '2026-06-03T07:30']);
  });

  it('takes 82.4 °F for the 28 °C that it is', () => {
    assert.equal(ready({ started: '2026-06-01T19:30', tempC: (82.4 - 32) * 0.5555555555555556 }), '2026-06-02T19:30');
  });

  it('at no time where cysts are too warm to hatch', () => {
    assert.deepEqual([ready({ tempC: 33 }), ready({ tempC: 33.1 })], ['2026-06-02T12:00', '']);
  });

  it('by the clock where a hatch is counted in hours, from the noon of a day without a time', () => {
    assert.equal(ready({ started: '2026-03-28T19:30' }), '2026-03-30T08:30', 'over the beginning of summer time');
    assert.equal(ready({ started: '~2026-06-01' }), '~2026-06-03T00:00');
  });

  it('some days after other food was set up, to the day where only the day is known', () => {
    const foods = ['microworm', 'infusoria', 'vinegar_eel'] as const;
    assert.deepEqual(foods.map((food) => ready({ food })), ['2026-06-06', '2026-06-05', '2026-06-29']);
    assert.equal(ready({ food: 'microworm', started: '2026-06-01T19:30' }), '2026-06-06T19:30');
  });

  it('at no time that can be known for other food', () => {
    assert.deepEqual([ready({ food: 'other' }), ready({ food: undefined })], ['', '']);
  });
});

describe('a culture is renewed', () => {
  const due = (...given: Parameters<typeof culture>): string => shown(renewDueOf(culture(...given), berlin));

  it('as often as its row says', () => {
    const every = (text: string, started: string): string => due({ food: 'microworm', started, renewEvery: parseDuration(text) });
    assert.deepEqual([every('P18D', '2026-06-01'), every('P18D', '2026-03-20T19:30'), every('PT36H', '2026-06-01')], ['2026-06-19', '2026-04-07T19:30', '2026-06-03T00:00']);
  });

  it('as is usual for its food where the row is silent; brine shrimp are used up', () => {
    const foods = ['microworm', 'infusoria', 'vinegar_eel', 'brine_shrimp', 'other'] as const;
    assert.deepEqual(foods.map((food) => due({ food })), ['2026-06-15', '2026-06-15', '2026-11-28', '', '']);
  });

  it('at no time beyond every calendar', () => {
    assert.equal(due({ renewEvery: parseDuration('P999999999D') }), '');
  });
});

describe('a culture is running', () => {
  const now = moment('2026-06-10T09:00');

  it('from its start to its end', () => {
    const told = [
      { started: '2026-06-10T08:59' },
      { started: '2026-06-10' },
      { started: '2026-06-10T09:01' },
      { ended: '2026-06-10T09:00' },
      { ended: '2026-06-10T09:01' },
      { ended: '2026-06-10' },
    ].map((given) => isRunning(culture(given), now));
    assert.deepEqual(told, [true, true, false, false, true, false]);
  });
});
