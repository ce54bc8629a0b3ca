import { Scoring } from '../domain/skill';
import type { Forecast, Score } from '../domain/skill';
import type { Trial } from '../domain/spawnTrials';

/** What is forecast, by the names of the report and in its order. */
const quantities = ['hatch', 'first_feed', 'free_swimming', 'release', 'spawn_interval', 'growth'] as const;
export type SkillQuantity = (typeof quantities)[number];

/** Hours, or days. */
export type SkillUnit = 'h' | 'd';

/** How good the forecasts of a quantity were: of all, of a species (`pair` undefined) or of a pair (`species` undefined). */
export interface SkillLine extends Score {
  readonly quantity: SkillQuantity;
  readonly species: string | undefined;
  readonly pair: string | undefined;
  readonly unit: SkillUnit;
}

/**
 * `late-hatch`: a hatch is taken for half-way between the last look before it and its record. `unseen-spawn`: intervals
 * of about twice their neighbours are left out. `fate`: intervals after lost and after reared broods are learned apart.
 */
const trialNames = ['late-hatch', 'unseen-spawn', 'fate'] as const;
export type TrialName = (typeof trialNames)[number];

/** Another way to forecast, which fills no column, beside the way that does; both judged alike on the same broods. */
export interface TrialLine {
  readonly trial: TrialName;
  readonly quantity: SkillQuantity;
  readonly unit: SkillUnit;
  readonly tried: Score;
  readonly filled: Score;
}

/** A trial, and how far an expectation is from what came about, where that isn't told by `actual`. */
export interface JudgedTrial extends Trial {
  readonly error?: (expected: number) => number;
}

export interface SkillReport {
  /** Of each quantity first of all, then species by species, then pair by pair where there are enough. */
  readonly lines: readonly SkillLine[];
  readonly trials: readonly TrialLine[];
}

/** Of fewer forecasts no share is worth telling: of ten windows of 80 % from 6 to 10 hold, nine times in ten or more. */
export const FEWEST = 10;

/** Whose forecast it is. */
interface Subject {
  readonly quantity: SkillQuantity;
  readonly unit: SkillUnit;
  readonly species: string | undefined;
  readonly pair: string | undefined;
}

/** Adds up forecasts by quantity, species and pair, and trials by name. */
export class SkillTally {
  readonly #scorings = new Map<string, { readonly subject: Subject; readonly scoring: Scoring }>();
  readonly #trials = new Map<TrialName, { readonly about: Pick<TrialLine, 'trial' | 'quantity' | 'unit'>; readonly tried: Scoring; readonly filled: Scoring; differs: boolean }>();

  add(subject: Subject, forecast: Forecast): void {
    this.#scoring({ ...subject, species: undefined, pair: undefined }).add(forecast);
    if (subject.species !== undefined) this.#scoring({ ...subject, pair: undefined }).add(forecast);
    if (subject.pair !== undefined) this.#scoring({ ...subject, species: undefined }).add(forecast);
  }

  /** `about.differs`: whether something was done otherwise here. Of a trial that never differs nothing is told. */
  try(about: Pick<TrialLine, 'trial' | 'quantity' | 'unit'> & { readonly differs: boolean }, { tried, filled, error }: JudgedTrial): void {
    const { differs, ...named } = about;
    let trial = this.#trials.get(about.trial);
    if (trial === undefined) this.#trials.set(about.trial, (trial = { about: named, tried: new Scoring(), filled: new Scoring(), differs: false }));
    trial.tried.add(tried, error);
    trial.filled.add(filled, error);
    if (differs) trial.differs = true;
  }

  get report(): SkillReport {
    const lines: SkillLine[] = [];
    for (const { subject, scoring } of [...this.#scorings.values()].sort((a, b) => compareSubjects(a.subject, b.subject))) {
      const { score } = scoring;
      if (score !== undefined && (subject.pair === undefined || score.n >= FEWEST)) lines.push({ ...subject, ...score });
    }
    const trials: TrialLine[] = [];
    for (const name of trialNames) {
      const trial = this.#trials.get(name);
      if (trial?.differs !== true) continue;
      const { about, tried, filled } = trial;
      if (tried.score !== undefined && filled.score !== undefined) trials.push({ ...about, tried: tried.score, filled: filled.score });
    }
    return { lines, trials };
  }

  #scoring(subject: Subject): Scoring {
    // No name holds a blank.
    const key = `${subject.quantity} ${subject.species ?? ''} ${subject.pair ?? ''}`;
    let known = this.#scorings.get(key);
    if (known === undefined) this.#scorings.set(key, (known = { subject, scoring: new Scoring() }));
    return known.scoring;
  }
}

function compareSubjects(a: Subject, b: Subject): number {
  return (
    quantities.indexOf(a.quantity) - quantities.indexOf(b.quantity) ||
    Number(a.pair !== undefined) - Number(b.pair !== undefined) ||
    compareNames(a.species, b.species) ||
    compareNames(a.pair, b.pair)
  );
}

/** Nobody's first. */
function compareNames(a: string | undefined, b: string | undefined): number {
  if (a === b) return 0;
  if (a === undefined || b === undefined) return a === undefined ? -1 : 1;
  return a < b ? -1 : 1;
}
