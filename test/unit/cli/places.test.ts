import { deepStrictEqual, equal } from 'node:assert/strict';
import { zoneOf } from '../../../src/base/zone';
import type { Zone } from '../../../src/base/zone';
import { Places } from '../../../src/cli/places';
import { Plan } from '../../../src/planner/plan';

function planOf(text: string): Plan {
  const plan = new Plan({ machineZone: zoneOf('UTC') as Zone, now: 0 });
  plan.apply([{ path: 'tanks.csv', file: { text } }]);
  return plan;
}

describe('Places', () => {
  it('counts lines and columns from 1, whatever the line ends', () => {
    const places = new Places(planOf('tank,room\r\nT1,A\nT2,B\rT3,C'), '');
    deepStrictEqual(places.at('tanks.csv', 5), { line: 1, column: 6 });
    deepStrictEqual(places.at('tanks.csv', 11), { line: 2, column: 1 });
    deepStrictEqual(places.at('tanks.csv', 19), { line: 3, column: 4 });
    deepStrictEqual(places.at('tanks.csv', 24), { line: 4, column: 4 });
  });

  it('does not count a byte order mark', () => {
    const places = new Places(planOf('\ufefftank,room\nT1,A\n'), '');
    deepStrictEqual([0, 1, 6, 11].map((offset) => places.at('tanks.csv', offset)), [
      { line: 1, column: 1 },
      { line: 1, column: 1 },
      { line: 1, column: 6 },
      { line: 2, column: 1 },
    ]);
  });

  it('follows the text', () => {
    const plan = planOf('tank,room\nT1,A\n');
    const places = new Places(plan, '');
    deepStrictEqual(places.at('tanks.csv', 12), { line: 2, column: 3 });
    plan.apply([{ path: 'tanks.csv', edits: [{ start: 9, end: 9, text: ',use' }] }]);
    deepStrictEqual(places.at('tanks.csv', 12), { line: 1, column: 13 });
  });

  it('finds the beginning of a line', () => {
    const places = new Places(planOf('tank,room\nT1,A'), '');
    deepStrictEqual([1, 2, 3, 0].map((line) => places.startOfLine('tanks.csv', line)), [0, 10, undefined, undefined]);
  });

  it('knows the text of fishroom.json too', () => {
    equal(new Places(planOf(''), '{}').textOf('fishroom.json'), '{}');
  });
});
