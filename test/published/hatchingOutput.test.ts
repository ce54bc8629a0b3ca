import assert from 'node:assert/strict';
import { gramsFor } from '../../src/domain/liveFood';

// Definitions: "New concepts on hatching quality" (seen, en.engormix.com): hatching efficiency HE, nauplii from a gram of
// product; hatching percentage HP, nauplii from 100 full cysts; hatching output HO = HE × dry weight of one instar I, the
// best about 600 mg from a gram. Hatching rate is a time there, and a percentage in none of them.
// Values: strain KKT1, HE 230,600, HO 661 mg/g, HP 69.2 % (seen, jbr.gr); Great Salt Lake, instar I of 2.42 µg (seen,
// blog.algova.com). What follows from two of them is reckoned here and not published.
describe('hatching output', () => {
  it('of Great Salt Lake cysts with 250,000 nauplii to the gram is 605 mg', () => {
    const nauplii = 250_000;
    assert.equal(gramsFor(nauplii, 250_000), 1);
    assert.ok(Math.abs((nauplii * 2.42) / 1000 - 605) < 1e-9);
  });

  it('of KKT1 comes from a gram, its 230,600 nauplii of 2.866 µg each, and from 333,200 full cysts', () => {
    const grams = gramsFor(230_600, 230_600);
    assert.equal(grams, 1);
    assert.equal(Number(((661 * 1000 * grams) / 230_600).toPrecision(4)), 2.866);
    assert.equal(Number((230_600 / 0.692).toPrecision(4)), 333_200);
  });

  it('tells how much more of a poorer strain the same food takes', () => {
    const fed = 1_000_000;
    assert.equal(Number((gramsFor(fed, 200_000) / gramsFor(fed, 230_600)).toPrecision(4)), 1.153);
  });
});
