import { NOTHING_OBSERVED } from '../domain/clutchStudy';
import type { ClutchStudy, Observations } from '../domain/clutchStudy';
import { NOTHING_SEEN, posterior, predictive, priors, window, withOne, without } from '../domain/learning';
import type { Quantity, Sums } from '../domain/learning';
import type { LearnedWindow } from '../domain/timeline';
import type { Broods } from './broods';
import type { ClutchMemory } from './clutchMemory';

/** What one brood of a pair teaches all others. */
const taughtQuantities = ['hatch', 'firstFeed', 'freeSwimming', 'release'] as const satisfies readonly Quantity[];

/** What a pair's clutches teach about a quantity; the window of all of them is worked out once. */
interface Lesson {
  readonly sums: Sums;
  window: LearnedWindow | undefined;
}

/** What some broods teach together, but of growth. */
export class Taught {
  /** Whether any was measured. */
  isMeasured = false;
  readonly #sums: Partial<Record<Quantity, Sums>> = {};

  /** Takes what one more of them teaches. */
  add(observations: Observations): void {
    // Most broods that came to nothing.
    if (observations === NOTHING_OBSERVED) return;
    this.isMeasured ||= observations.growth !== undefined;
    for (const quantity of taughtQuantities) {
      const x = observations[quantity];
      if (x !== undefined) this.#sums[quantity] = withOne(this.#sums[quantity] ?? NOTHING_SEEN, x);
    }
  }

  of(quantity: Quantity): Sums | undefined {
    return this.#sums[quantity];
  }
}

/** What the clutches of each pair teach each other. */
export class Lessons {
  readonly #ofPair = new Map<string, Partial<Record<Quantity, Lesson>>>();
  /** Of pairs of which a brood was measured: what each brood learns about growth from those spawned on a day before, by its name. */
  readonly #growth = new Map<string, ReadonlyMap<string, Lesson>>();

  /** Takes what all clutches of a pair observed, in the order of their spawns, in place of what was known of it. */
  teach(pair: string, { taught: all, memories }: Pick<Broods, 'taught' | 'memories'>): void {
    const learned: Partial<Record<Quantity, Lesson>> = {};
    for (const quantity of taughtQuantities) {
      const sums = all.of(quantity);
      if (sums !== undefined) learned[quantity] = { sums, window: undefined };
    }
    this.#ofPair.set(pair, learned);
    if (all.isMeasured) this.#growth.set(pair, growthLessons(memories));
    else this.#growth.delete(pair);
  }

  /** What the pair's other clutches teach a clutch about a quantity: of growth those before it, beside what it shows itself. */
  learn(study: ClutchStudy, quantity: Quantity, own?: number): LearnedWindow {
    if (quantity === 'growth') return this.#learnGrowth(this.#growthBefore(study.clutch), own);
    const { pair } = study.clutch;
    const lesson = pair === undefined ? undefined : this.#ofPair.get(pair)?.[quantity];
    if (lesson === undefined) return priorWindow(quantity);
    const left = study.observations[quantity];
    // What is expected is not recorded, so nearly every clutch that asks has nothing of its own to leave out.
    if (left === undefined) return (lesson.window ??= windowFrom(quantity, lesson.sums));
    return windowFrom(quantity, without(lesson.sums, left));
  }

  /** A long register mostly has no measurements at all, so its broods need not be looked up. */
  #growthBefore(brood: Pick<ClutchStudy['clutch'], 'pair' | 'clutch'>): Lesson | undefined {
    if (this.#growth.size === 0 || brood.pair === undefined) return undefined;
    return this.#growth.get(brood.pair)?.get(brood.clutch);
  }

  #learnGrowth(lesson: Lesson | undefined, own: number | undefined): LearnedWindow {
    if (own !== undefined) return windowFrom('growth', withOne(lesson?.sums ?? NOTHING_SEEN, own));
    if (lesson === undefined) return priorWindow('growth');
    return (lesson.window ??= windowFrom('growth', lesson.sums));
  }
}

/** For each brood, what those spawned on a day before it teach; broods in a row that learn the same share one lesson. */
function growthLessons(all: readonly ClutchMemory[]): ReadonlyMap<string, Lesson> {
  const lessons = new Map<string, Lesson>();
  let lesson: Lesson | undefined;
  let sums = NOTHING_SEEN;
  let day: number | undefined;
  for (const { clutch, observations } of all) {
    if (clutch.spawned.day !== day && sums !== (lesson?.sums ?? NOTHING_SEEN)) lesson = { sums, window: undefined };
    day = clutch.spawned.day;
    if (lesson !== undefined) lessons.set(clutch.clutch, lesson);
    if (observations.growth !== undefined) sums = withOne(sums, observations.growth);
  }
  return lessons;
}

/** Whether the pair's other clutches can tell no difference, whatever they learn of growth. */
export function teachesTheSame(before: ClutchMemory | undefined, after: ClutchMemory | undefined): boolean {
  if (before === undefined || after === undefined) return before === after;
  const [a, b] = [before.clutch, after.clutch];
  if (a.pair !== b.pair || a.spawned.instant !== b.spawned.instant || a.spawned.bare !== b.spawned.bare || a.spawned.about !== b.spawned.about) return false;
  return taughtQuantities.every((quantity) => before.observations[quantity] === after.observations[quantity]);
}

/** The day after which broods of the pair learn something else of growth, from a clutch that teaches the same else; without end where none do. */
export function growsOtherwiseAfter(before: ClutchMemory | undefined, after: ClutchMemory | undefined): number {
  return after === undefined || before?.observations.growth === after.observations.growth ? Infinity : after.clutch.spawned.day;
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
