import assert from 'node:assert/strict';
import { gramsFor, USUAL_YIELD } from '../../src/domain/liveFood';

// Source: Treece, "Artemia Production for Marine Larval Fish Culture", SRAC Publication 702 (seen: the yield; author and
// title from memory): 200,000 to 300,000 nauplii hatch from a gram of cysts.
describe('brine shrimp after SRAC Publication 702', () => {
  it('yield at least what is reckoned with where the keeper knows no better', () => assert.equal(USUAL_YIELD, 200_000));

  it('take at most half as much again of cysts as of the best', () => {
    assert.equal(gramsFor(600_000, USUAL_YIELD), 3);
    assert.equal(gramsFor(600_000, 300_000), 2);
  });
});
