import assert from 'node:assert/strict';
import { formatMoment, momentAt } from '../../../src/base/moment';
import { lastMeasurement, lengthsOutside, measuredLengths, ownGrowth } from '../../../src/domain/measurements';
import { cave } from '../../support/clutches';
import { entriesOf } from '../../support/clutchLog';
import { berlin, moment } from '../../support/moments';

const profile = { ...cave, hatch_mm: 3.5, sale_mm: 25, max_mm: 80 };

function brood(log: string): Parameters<typeof ownGrowth>[0] {
  return { clutch: { tank: 'A' }, profile, entries: entriesOf(log) };
}

/** `12.4 mm on 2026-04-10T08:00 from 2`. */
function last(log: string): string | undefined {
  const found = lastMeasurement(brood(log), { hatchMm: 3.5, maxMm: 80 });
  return found && `${Number(found.mm.toFixed(4))} mm on ${formatMoment(momentAt(found.instant, berlin), berlin)} from ${found.rows.length}`;
}

const split = '2026-03-20T08:00 counted A 40; 2026-03-20T09:00 moved A 10 B;';

describe('the last measurement of a brood', () => {
  it('is its last row with a length', () => {
    assert.equal(last('2026-04-01T08:00 measured 9.5mm; 2026-04-10T08:00 measured 12mm; 2026-04-11T08:00 measured; 2026-04-12T08:00 counted A 30'), '12 mm on 2026-04-10T08:00 from 1');
    assert.equal(last('2026-04-12T08:00 counted A 30'), undefined);
  });

  it('passes over what was only about then, and over lengths that no growing fish has', () => {
    assert.equal(last('2026-04-01T08:00 measured 9.5mm; ~2026-04-10T08:00 measured 12mm; 2026-04-11T08:00 measured 3.5mm; 2026-04-12T08:00 measured 80mm'), '9.5 mm on 2026-04-01T08:00 from 1');
  });

  it('is the mean over the tanks, by the fish that are in each', () => {
    assert.equal(last(`${split} 2026-04-10T08:00 measured A 10mm; 2026-04-10T12:00 measured B 14mm`), '11 mm on 2026-04-10T09:00 from 2');
  });

  it('is the mean by the fish that were measured where each row tells how many', () => {
    assert.equal(last(`${split} 2026-04-10T08:00 measured A 5 10mm; 2026-04-10T12:00 measured B 15 14mm`), '13 mm on 2026-04-10T11:00 from 2');
    assert.equal(last(`${split} 2026-04-10T08:00 measured A 5 10mm; 2026-04-10T12:00 measured B 14mm`), '11 mm on 2026-04-10T09:00 from 2');
  });

  it('is the plain mean where the fish of a tank are not known', () => {
    assert.equal(last('2026-03-20T09:00 moved A 10 B; 2026-04-10T08:00 measured A 10mm; 2026-04-10T12:00 measured B 14mm'), '12 mm on 2026-04-10T10:00 from 2');
  });

  it('takes the other tanks no older than seven days, each by its last row', () => {
    assert.equal(last(`${split} 2026-04-03T08:00 measured A 10mm; 2026-04-10T08:00 measured B 14mm`), '11 mm on 2026-04-05T02:00 from 2');
    assert.equal(last(`${split} 2026-04-02T08:00 measured A 10mm; 2026-04-10T08:00 measured B 14mm`), '14 mm on 2026-04-10T08:00 from 1');
    assert.equal(last(`${split} 2026-04-09T08:00 measured A 9mm; 2026-04-10T08:00 measured A 10mm; 2026-04-10T08:00 measured B 14mm`), '11 mm on 2026-04-10T08:00 from 2');
    assert.equal(last('2026-04-09T08:00 measured A 9mm; 2026-04-10T08:00 measured 10mm'), '10 mm on 2026-04-10T08:00 from 1');
  });

  it('leaves out a tank that the fish have left since', () => {
    assert.equal(last('2026-03-20T08:00 counted A 40; 2026-04-08T08:00 measured 10mm; 2026-04-09T08:00 moved A - B; 2026-04-10T08:00 measured 10.5mm'), '10.5 mm on 2026-04-10T08:00 from 1');
  });

  it('stands for all tanks where a row names none of several', () => {
    assert.equal(last(`${split} 2026-04-09T08:00 measured A 10mm; 2026-04-10T08:00 measured 12mm`), '12 mm on 2026-04-10T08:00 from 1');
    assert.equal(last(`${split} 2026-04-09T08:00 measured 12mm; 2026-04-10T08:00 measured A 10mm`), '10 mm on 2026-04-10T08:00 from 1');
  });
});

describe('a brood’s own growth', () => {
  const birth = moment('2026-03-04T10:00');

  it('is the K that leads to the length, and how it differs from the species’', () => {
    const own = ownGrowth(brood('2026-04-13T10:00 measured 12mm'), birth);
    // By hand: 40 days less the hour of summer time.
    const days = 40 - 1 / 24;
    assert.ok(own !== undefined);
    assert.ok(Math.abs(own.days - days) < 1e-9);
    assert.ok(Math.abs(own.perDay - Math.log(76.5 / 68) / days) < 1e-12);
    assert.ok(Math.abs(own.x - Math.log(Math.log(76.5 / 68) / days / (Math.log(76.5 / 55) / 140))) < 1e-12);
  });

  it('is not known before the birth, without a measurement, or of a species without lengths', () => {
    assert.equal(ownGrowth(brood('2026-03-04T09:00 measured 12mm'), birth), undefined);
    assert.equal(ownGrowth(brood('2026-03-04T10:00 measured 12mm'), birth), undefined);
    assert.equal(ownGrowth(brood('2026-03-14T09:00 counted 12'), birth), undefined);
    assert.equal(ownGrowth({ ...brood('2026-04-13T10:00 measured 12mm'), profile: cave }, birth), undefined);
    assert.equal(ownGrowth({ ...brood('2026-04-13T10:00 measured 12mm'), profile: undefined }, birth), undefined);
  });

  it('may be drawn through all its rows, but those that tell nothing', () => {
    const log = '2026-03-03T10:00 measured 4mm; 2026-03-14T10:00 measured 6mm; ~2026-03-20T10:00 measured 7mm; 2026-03-24T10:00 measured 90mm; 2026-03-24T10:00 measured 8mm';
    assert.deepEqual(measuredLengths(brood(log), birth), [{ days: 10, mm: 6 }, { days: 20, mm: 8 }]);
    assert.deepEqual(lengthsOutside(brood(log)).map(({ lengthMm }) => lengthMm), [90]);
    assert.deepEqual(measuredLengths({ ...brood(log), profile: cave }, birth), []);
    assert.deepEqual(lengthsOutside({ ...brood(log), profile: cave }), []);
  });
});
