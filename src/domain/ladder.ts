import type { Care, ClutchEvent, SpeciesNumber } from './things';
import type { Quantity } from './learning';

export type Milestone = 'spawned' | 'hatched' | 'first_feed' | 'stripped' | 'released' | 'free_swimming' | 'juvenile' | 'sale_size';

export type Stage =
  | 'egg'
  | 'holding'
  | 'wriggler'
  | 'free-swimming'
  | 'juvenile'
  | 'sale-size'
  | 'ended';

/** How long after which milestone a milestone is expected, by which column of species.csv. */
export interface Rung {
  readonly milestone: Milestone;
  readonly stage: Stage;
  readonly after: Milestone | undefined;
  readonly duration: SpeciesNumber | undefined;
  readonly unit: 'h' | 'd';
  /** Set where the keeper's own records can teach the duration. */
  readonly quantity: Quantity | undefined;
  /** Thermal time applies: the duration is embryonic. */
  readonly embryonic: boolean;
}

/** Milestones in their order, the stage that begins at each, and the one question that a brood leaves open. */
export interface Ladder {
  readonly rungs: readonly Rung[];
  readonly question: 'hatched' | 'released' | undefined;
  /** The milestone at which the fry are out and growth begins. */
  readonly birth: 'hatched' | 'released' | 'spawned';
  /** When the yolk is gone, no stage of its own; undefined where the fry eat from their birth on. */
  readonly firstFeed: Rung | undefined;
  /** The rungs of which the keeper's own records teach how long they took. */
  readonly observed: readonly Rung[];
}

function laddered(ladder: Omit<Ladder, 'observed'>): Ladder {
  const all = ladder.firstFeed === undefined ? ladder.rungs : [...ladder.rungs, ladder.firstFeed];
  return { ...ladder, observed: all.filter(({ embryonic, quantity, after }) => embryonic && quantity !== undefined && after !== undefined) };
}

const spawned = (stage: Stage): Rung => ({
  milestone: 'spawned',
  stage,
  after: undefined,
  duration: undefined,
  unit: 'h',
  quantity: undefined,
  embryonic: false,
});

const grown = (after: Milestone): readonly Rung[] => [
  { milestone: 'juvenile', stage: 'juvenile', after, duration: 'juvenile_d', unit: 'd', quantity: undefined, embryonic: false },
  { milestone: 'sale_size', stage: 'sale-size', after, duration: 'sale_d', unit: 'd', quantity: 'growth', embryonic: false },
];

const eggLayer = laddered({
  rungs: [
    spawned('egg'),
    { milestone: 'hatched', stage: 'wriggler', after: 'spawned', duration: 'hatch_h', unit: 'h', quantity: 'hatch', embryonic: true },
    {
      milestone: 'free_swimming',
      stage: 'free-swimming',
      after: 'hatched',
      duration: 'free_swim_h',
      unit: 'h',
      quantity: 'freeSwimming',
      embryonic: true,
    },
    ...grown('hatched'),
  ],
  question: 'hatched',
  birth: 'hatched',
  firstFeed: { milestone: 'first_feed', stage: 'wriggler', after: 'hatched', duration: 'first_feed_h', unit: 'h', quantity: 'firstFeed', embryonic: true },
});

const mouthbrooder = laddered({
  rungs: [
    spawned('holding'),
    { milestone: 'released', stage: 'free-swimming', after: 'spawned', duration: 'release_d', unit: 'd', quantity: 'release', embryonic: true },
    ...grown('released'),
  ],
  question: 'released',
  birth: 'released',
  firstFeed: undefined,
});

const livebearer = laddered({ rungs: [spawned('free-swimming'), ...grown('spawned')], question: undefined, birth: 'spawned', firstFeed: undefined });

/** The ladder of a way of care. Source of its rungs: common practice. */
export function ladderOf(care: Care): Ladder {
  if (care === 'mouthbrooder') return mouthbrooder;
  if (care === 'livebearer') return livebearer;
  return eggLayer;
}

/** Rows that show that fry were out, whatever else they say. */
export const evidenceOfBirth: ReadonlySet<ClutchEvent> = new Set<ClutchEvent>([
  'first_feed',
  'fed',
  'counted',
  'measured',
  'sold',
  'kept',
  'lost',
  'culled',
]);

/** Events that a ladder doesn't have: a mouthbrooder's are kept, since eggs taken early do hatch in a tumbler. */
export function isImpossible(event: ClutchEvent, care: Care): boolean {
  if (event === 'released' || event === 'stripped') return care !== 'mouthbrooder';
  return (event === 'hatched' || event === 'fungus') && care === 'livebearer';
}

export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;
