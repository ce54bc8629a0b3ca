import assert from 'node:assert/strict';
import { evidenceOfBirth, isImpossible, ladderOf } from '../../../src/domain/ladder';
import type { Care, ClutchEvent } from '../../../src/domain/things';

// The words, the milestones and what each is expected after are common practice, no source.
const eggLayers: readonly Care[] = ['cave', 'substrate', 'bubble-nest', 'scatterer', 'mop'];
const everyCare: readonly Care[] = [...eggLayers, 'mouthbrooder', 'livebearer'];

/** `hatched: wriggler, spawned + hatch_h` for each rung. */
function rungsOf(care: Care): readonly string[] {
  return ladderOf(care).rungs.map(({ milestone, stage, after, duration }) => `${milestone}: ${stage}${after === undefined ? '' : `, ${after} + ${duration}`}`);
}

describe('ladderOf', () => {
  for (const care of eggLayers) {
    it(`leads ${care} from the egg over the wriggler to sale size`, () => {
      assert.deepEqual(rungsOf(care), [
        'spawned: egg',
        'hatched: wriggler, spawned + hatch_h',
        'free_swimming: free-swimming, hatched + free_swim_h',
        'juvenile: juvenile, hatched + juvenile_d',
        'sale_size: sale-size, hatched + sale_d',
      ]);
    });
  }

  it('leads mouthbrooders from holding to the release', () => {
    assert.deepEqual(rungsOf('mouthbrooder'), [
      'spawned: holding',
      'released: free-swimming, spawned + release_d',
      'juvenile: juvenile, released + juvenile_d',
      'sale_size: sale-size, released + sale_d',
    ]);
  });

  it('lets livebearers swim from the drop on', () => {
    assert.deepEqual(rungsOf('livebearer'), ['spawned: free-swimming', 'juvenile: juvenile, spawned + juvenile_d', 'sale_size: sale-size, spawned + sale_d']);
  });

  it('asks the egg-layers whether they hatched, mouthbrooders whether they were released, livebearers nothing', () => {
    assert.deepEqual(everyCare.map((care) => ladderOf(care).question), [...eggLayers.map(() => 'hatched'), 'released', undefined]);
  });

  it('applies temperature to what comes before the first free swimming alone', () => {
    const embryonic = everyCare.flatMap((care) => ladderOf(care).rungs.filter((rung) => rung.embryonic).map(({ milestone }) => milestone));
    assert.deepEqual([...new Set(embryonic)], ['hatched', 'free_swimming', 'released']);
  });

  it('counts hours for what is given in hours and days for what is given in days', () => {
    const rungs = everyCare.flatMap((care) => ladderOf(care).rungs.filter(({ duration }) => duration !== undefined));
    assert.deepEqual(rungs.filter(({ duration, unit }) => !duration?.endsWith(`_${unit}`)), []);
  });
});

describe('evidenceOfBirth', () => {
  it('are the rows that can only be about fry', () => {
    assert.deepEqual([...evidenceOfBirth].sort(), ['counted', 'culled', 'fed', 'first_feed', 'kept', 'lost', 'measured', 'sold']);
  });
});

describe('isImpossible', () => {
  const cases: readonly (readonly [event: ClutchEvent, cares: readonly Care[]])[] = [
    ['released', [...eggLayers, 'livebearer']],
    ['stripped', [...eggLayers, 'livebearer']],
    ['hatched', ['livebearer']],
    ['fungus', ['livebearer']],
    ['free_swimming', []],
    ['first_feed', []],
    ['moved', []],
    ['ended', []],
  ];
  for (const [event, cares] of cases) {
    it(`${event} can't be with ${cares.join(', ') || 'none'}`, () => assert.deepEqual(everyCare.filter((care) => isImpossible(event, care)), cares));
  }
});
