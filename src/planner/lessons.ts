import { NOTHING_OBSERVED } from '../domain/clutchStudy';
import type { ClutchStudy, Observations } from '../domain/clutchStudy';
import { NOTHING_SEEN, posterior, predictive, priors, sumsOf, window, without } from '../domain/learning';
import type { Quantity, Sums } from '../domain/learning';
import type { LearnedWindow } from '../domain/timeline';
import type { ClutchMemory } from './clutchMemory';

/** What one brood of a pair teaches about the others; growth is taken from the profile. */
const taughtQuantities = ['hatch', 'firstFeed', 'freeSwimming', 'release'] as const satisfies readonly Quantity[];

/** What a pair's clutches teach about a quantity; the window of all of them is worked out once. */
interface Lesson {
  readonly sums: Sums;
  window: LearnedWindow | undefined;
}

/** What the clutches of each pair teach each other. */
export class Lessons {
  readonly #ofPair = new Map<string, Partial<Record<Quantity, Lesson>>>();

  /** Takes what all clutches of a pair observed in place of what was known of it. */
  teach(pair: string, all: readonly Observations[]): void {
    const seen: Partial<Record<Quantity, number[]>> = {};
    for (const observations of all) {
      if (observations === NOTHING_OBSERVED) continue;
      for (const quantity of taughtQuantities) {
        const x = observations[quantity];
        if (x !== undefined) (seen[quantity] ??= []).push(x);
      }
    }
    const learned: Partial<Record<Quantity, Lesson>> = {};
    for (const quantity of taughtQuantities) if (seen[quantity] !== undefined) learned[quantity] = { sums: sumsOf(seen[quantity]), window: undefined };
    this.#ofPair.set(pair, learned);
  }

  /** What the pair's other clutches teach a clutch about a quantity. */
  learn(study: ClutchStudy, quantity: Quantity): LearnedWindow {
    const { pair } = study.clutch;
    const lesson = pair === undefined ? undefined : this.#ofPair.get(pair)?.[quantity];
    if (lesson === undefined) return priorWindow(quantity);
    const own = study.observations[quantity];
    // What is expected is not recorded, so nearly every clutch that asks has nothing of its own to leave out.
    if (own === undefined) return (lesson.window ??= windowFrom(quantity, lesson.sums));
    return windowFrom(quantity, without(lesson.sums, own));
  }
}

/** Whether the pair's other clutches can tell no difference. */
export function teachesTheSame(before: ClutchMemory | undefined, after: ClutchMemory | undefined): boolean {
  if (before === undefined || after === undefined) return before === after;
  const [a, b] = [before.clutch, after.clutch];
  if (a.pair !== b.pair || a.spawned.instant !== b.spawned.instant || a.spawned.bare !== b.spawned.bare || a.spawned.about !== b.spawned.about) return false;
  return taughtQuantities.every((quantity) => before.observations[quantity] === after.observations[quantity]);
}

const priorWindows = new Map<Quantity, LearnedWindow>();

function priorWindow(quantity: Quantity): LearnedWindow {
  let known = priorWindows.get(quantity);
  if (known === undefined) {
    known = windowFrom(quantity, NOTHING_SEEN);
    priorWindows.set(quantity, known);
  }
  return known;
}

function windowFrom(quantity: Quantity, sums: Sums): LearnedWindow {
  if (sums.n === 0 && priorWindows.has(quantity)) return priorWindow(quantity);
  const { from, expected, to } = window(predictive(posterior(priors[quantity], sums)));
  return { from, expected, to, n: sums.n };
}
