import type { ClutchState } from './states';

export type Outcome = 'sold' | 'eaten' | 'lost' | 'fungus' | 'infertile' | 'kept' | 'culled' | 'unknown';

/** How a brood may have gone, the likeliest first, by whether its fry were ever seen. */
const LIKELY = { unborn: ['eaten', 'fungus', 'infertile', 'unknown'], born: ['sold', 'eaten', 'lost', 'unknown'] } as const;

/** The outcomes that are likely of a brood as it stands. */
export function outcomesOf(state: ClutchState): readonly Outcome[] {
  return LIKELY[isBorn(state) ? 'born' : 'unborn'];
}

/** Whether its fry were seen, or there never were eggs to be seen. */
export function isBorn({ study, timeline }: ClutchState): boolean {
  const question = study.ladder?.question;
  const asked = question === undefined ? undefined : timeline.of(question);
  return question === undefined || asked?.basis === 'recorded' || asked?.evidence !== undefined;
}
