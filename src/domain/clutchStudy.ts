import type { Moment } from '../base/moment';
import { countHeads } from './headcount';
import type { Alive, HeadCount } from './headcount';
import { ladderOf } from './ladder';
import type { Ladder, Milestone, Rung } from './ladder';
import type { Quantity } from './learning';
import { PassingMilestones, recordedMilestones } from './recorded';
import type { RecordedMilestones, RecordedMoment, WrittenMilestones } from './recorded';
import { ownGrowth } from './measurements';
import { modelDuration } from './temperature';
import type { ModelDuration, Stay, TankTemperatures } from './temperature';
import type { Care, ClutchRecord, LogEntry, Profile } from './things';

export interface ClutchInput {
  readonly clutch: ClutchRecord;
  /** Undefined where the species is not known: nothing but age and head count can be said then. */
  readonly profile: Profile | undefined;
  /** The rows of its log in order, none later than now. */
  readonly entries: readonly LogEntry[];
  readonly now: Moment;
  readonly temperaturesOf: (tank: string) => TankTemperatures | undefined;
  readonly afterEach?: ((alive: Alive, index: number) => void) | undefined;
}

/** What a clutch's own records say, without any other clutch of its pair. */
export interface ClutchStudy extends Omit<ClutchInput, 'afterEach'> {
  readonly ladder: Ladder | undefined;
  readonly recorded: RecordedMilestones;
  readonly heads: HeadCount;
  readonly stay: Stay;
  /** ln(duration / model duration) of the intervals whose two ends are recorded and not as about; of growth ln(K / K of the species) where the birth is. */
  readonly observations: Observations;
}

export type Observations = Readonly<Partial<Record<Quantity, number>>>;

/** What most broods that came to nothing teach. */
export const NOTHING_OBSERVED: Observations = {};
const NO_MOVES: Stay['moves'] = [];

export function studyClutch(input: ClutchInput): ClutchStudy {
  return new Study(input, { recorded: undefined, heads: input.afterEach === undefined ? undefined : countHeads(input.clutch.tank, input.entries, input.afterEach) });
}

/** The same of broods that have ended and have no log, of one after the other in one object, so that nobody may keep what it gives. */
export class PassingStudies {
  readonly #recorded = new PassingMilestones();
  #study: Study | undefined;

  /** Undefined of any other brood. */
  of(input: ClutchInput & { readonly clutch: WrittenMilestones }): ClutchStudy | undefined {
    const recorded = this.#recorded;
    if (input.entries.length > 0 || recorded.turnTo(input.clutch, careOf(input.profile), input.now).ended === undefined) return undefined;
    const known = { recorded, heads: undefined };
    if (this.#study === undefined) this.#study = new Study(input, known);
    else this.#study.turnTo(input, known);
    return this.#study;
  }
}

function careOf(profile: Profile | undefined): Care {
  return profile?.care ?? 'cave';
}

interface Known {
  readonly recorded: RecordedMilestones | undefined;
  readonly heads: HeadCount | undefined;
}

/** What is asked is worked out then: of most broods of a long register that is little. */
class Study implements ClutchStudy {
  clutch!: ClutchRecord;
  profile: Profile | undefined;
  entries!: readonly LogEntry[];
  now!: Moment;
  temperaturesOf!: ClutchInput['temperaturesOf'];
  ladder: Ladder | undefined;
  #recorded: RecordedMilestones | undefined;
  #heads: HeadCount | undefined;
  #stay: Stay | undefined;
  #observations: Observations | undefined;

  constructor(input: ClutchInput, known: Known) {
    this.turnTo(input, known);
  }

  /** What isn't known yet is worked out when it is asked for. */
  turnTo({ clutch, profile, entries, now, temperaturesOf }: ClutchInput, { recorded, heads }: Known): void {
    this.clutch = clutch;
    this.profile = profile;
    this.entries = entries;
    this.now = now;
    this.temperaturesOf = temperaturesOf;
    this.ladder = profile === undefined ? undefined : ladderOf(profile.care);
    this.#recorded = recorded;
    this.#heads = heads;
    this.#stay = undefined;
    this.#observations = undefined;
  }

  get recorded(): RecordedMilestones {
    return (this.#recorded ??= recordedMilestones(this.clutch, careOf(this.profile), this.entries, this.now));
  }

  get heads(): HeadCount {
    return (this.#heads ??= countHeads(this.clutch.tank, this.entries));
  }

  get stay(): Stay {
    return (this.#stay ??= stayOf(this));
  }

  get observations(): Observations {
    return (this.#observations ??= observe(this));
  }
}

/** The record of a milestone of the ladder, where there is one. */
export function recordOf(milestone: Milestone, recorded: RecordedMilestones): RecordedMoment | undefined {
  switch (milestone) {
    case 'spawned':
      return recorded.spawned;
    case 'hatched':
      return recorded.hatched;
    case 'first_feed':
      return recorded.firstFeed;
    case 'released':
      return recorded.released;
    case 'stripped':
      return recorded.stripped;
    case 'free_swimming':
      return recorded.freeSwimming;
    default:
      return undefined;
  }
}

/** The model's duration of a rung that begins at `start`, at the temperature where the clutch stood. */
export function durationOf(study: ClutchStudy, rung: Rung, start: Moment): ModelDuration | undefined {
  if (rung.duration === undefined || study.profile === undefined) return undefined;
  const own = recordOf(rung.milestone, study.recorded);
  return modelDuration({
    profile: study.profile,
    duration: rung.duration,
    unit: rung.unit,
    start,
    end: own?.time ?? earliest(laterRecord(study, rung), study.recorded.ended?.time),
    endRecorded: own !== undefined,
    now: study.now,
    stay: study.stay,
    temperaturesOf: study.temperaturesOf,
  });
}

/** The next recorded milestone after a rung. */
export function laterRecord(study: ClutchStudy, rung: Rung): Moment | undefined {
  const rungs = (study.ladder as Ladder).rungs;
  // The first feed is none of the rungs: it comes after the one that it counts from.
  const place = rung.milestone === 'first_feed' ? rungs.findIndex(({ milestone }) => milestone === rung.after) : rungs.indexOf(rung);
  let found: Moment | undefined;
  for (let i = place + 1; i < rungs.length; i++) {
    found = earliest(found, recordOf((rungs[i] as Rung).milestone, study.recorded)?.time);
  }
  return found;
}

function earliest(a: Moment | undefined, b: Moment | undefined): Moment | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return b.instant < a.instant ? b : a;
}

function stayOf(study: ClutchStudy): Stay {
  const { clutch, entries } = study;
  // Without a log nothing moved, and no heads need be counted.
  if (entries.length === 0) return { tank: clutch.tank, moves: NO_MOVES };
  let tank = clutch.tank;
  const moves = study.heads.wholeMoves.filter((move) => {
    const left = move.from === tank;
    if (left) tank = move.to;
    return left;
  });
  return { tank: clutch.tank, moves };
}

function observe(study: ClutchStudy): Observations {
  let found: Partial<Record<Quantity, number>> | undefined;
  for (const rung of study.ladder?.observed ?? NO_RUNGS) {
    const x = observed(study, rung);
    if (x !== undefined) (found ??= {})[rung.quantity as Quantity] = x;
  }
  const growth = observedGrowth(study);
  if (growth !== undefined) (found ??= {}).growth = growth;
  return found ?? NOTHING_OBSERVED;
}

function observedGrowth(study: ClutchStudy): number | undefined {
  const birth = study.ladder === undefined ? undefined : recordOf(study.ladder.birth, study.recorded)?.time;
  return birth === undefined || birth.about ? undefined : ownGrowth(study, birth)?.x;
}

const NO_RUNGS: readonly Rung[] = [];

function observed(study: ClutchStudy, rung: Rung): number | undefined {
  const end = recordOf(rung.milestone, study.recorded)?.time;
  if (end === undefined) return undefined;
  const start = recordOf(rung.after as Milestone, study.recorded)?.time;
  if (start === undefined || start.about || end.about) return undefined;
  const took = end.instant - start.instant;
  if (took <= 0) return undefined;
  const model = durationOf(study, rung, start);
  if (model === undefined || model.ms <= 0) return undefined;
  return Math.log(took / model.ms);
}
