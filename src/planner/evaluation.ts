import { momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { studyClutch } from '../domain/clutchStudy';
import type { ClutchStudy } from '../domain/clutchStudy';
import { posterior, predictive, priors, window } from '../domain/learning';
import type { Quantity } from '../domain/learning';
import { predictSpawn } from '../domain/nextSpawn';
import { spawnIntervals } from '../domain/spawning';
import { timelineOf } from '../domain/timeline';
import type { LearnedWindow } from '../domain/timeline';
import { isFuture } from '../records/records';
import type { Records } from '../records/records';
import type { Changes } from '../records/changes';
import type { Row } from '../records/row';
import { clutchOf } from '../records/things';
import type { Clutch, Pair } from '../records/things';
import { FoundProblems } from './foundProblems';
import { jobRules, clutchRules, pairRules, speciesRules } from './rules/registry';
import { Staleness } from './staleness';
import type { ClutchState, NextSpawn, PairState, PlanView } from './states';
import { nextTurn } from './turns';

/**
 * Everything that follows from the records at now, clutch by clutch and pair by pair. Only what a change touches is
 * worked out again; the result equals an evaluation made afresh.
 */
export class Evaluation implements PlanView {
  readonly records: Records;
  readonly found = new FoundProblems();
  readonly #staleness: Staleness;
  readonly #clutches = new Map<string, ClutchState>();
  readonly #pairs = new Map<string, PairState>();
  readonly #standing = new Map<string, Set<string>>();
  readonly #profiles = new Map<string, string>();
  /** Clutches of the register that count for nothing yet. */
  readonly #waiting = new Set<string>();
  #instant: number;
  #now: Moment;

  constructor(records: Records, instant: number) {
    this.records = records;
    this.#instant = instant;
    this.#now = momentAt(instant, records.zone);
    this.#staleness = new Staleness(this);
  }

  get now(): Moment {
    return this.#now;
  }

  get zone(): Zone {
    return this.records.zone;
  }

  clutch(id: string): ClutchState | undefined {
    return this.#clutches.get(id);
  }

  pair(id: string): PairState | undefined {
    return this.#pairs.get(id);
  }

  standingIn(tank: string): readonly ClutchState[] {
    const ids = this.#standing.get(tank);
    return ids === undefined ? [] : [...ids].sort().map((id) => this.#clutches.get(id) as ClutchState);
  }

  pairsIn(tank: string): readonly string[] {
    return [...this.#pairs.values()].filter(({ pair }) => pair.tank === tank).map(({ pair }) => pair.pair).sort();
  }

  get nextChange(): number {
    return nextTurn(this.#clutches.values(), this);
  }

  setNow(instant: number): ReadonlySet<string> {
    const before = this.#now;
    this.#instant = instant;
    this.#now = momentAt(instant, this.zone);
    const touched = new Set<string>();
    const later = instant < before.instant ? undefined : before;
    for (const file of this.records.files()) if (file.latest > Math.min(before.instant, instant)) touched.add(file.path);
    const due = new Set<string>(this.#waiting);
    for (const [id, state] of this.#clutches) {
      if (later === undefined || state.study.recorded.ended === undefined || this.#hasFuture(id, before)) due.add(id);
    }
    this.#refresh({ clutches: due, pairs: new Set(this.#allPairs()), touched });
    return touched;
  }

  update(changes: Changes): ReadonlySet<string> {
    const touched = new Set(changes.files);
    this.#now = momentAt(this.#instant, this.zone);
    const clutches = new Set(changes.everything ? [...this.records.index('clutches').ids(), ...this.#clutches.keys()] : changes.clutches);
    const pairs = new Set(changes.everything ? this.#allPairs() : changes.pairs);
    for (const pair of changes.pairs) for (const { clutch } of this.records.clutchesOf(pair)) clutches.add(clutch);
    this.#addBySpecies(changes.species, clutches, pairs);
    if (changes.readings.size > 0 || changes.tanks.size > 0) {
      for (const [id, { study }] of this.#clutches) {
        const { tank, moves } = study.stay;
        if (changes.readings.has(tank) || moves.some(({ to }) => changes.readings.has(to))) clutches.add(id);
      }
    }
    this.#refresh({ clutches, pairs, touched, tanks: new Set([...changes.tanks, ...changes.readings]), rooms: changes.rooms });
    return touched;
  }

  #addBySpecies(species: ReadonlySet<string>, clutches: Set<string>, pairs: Set<string>): void {
    const different = new Set<string>();
    for (const id of species) if (JSON.stringify(this.records.profile(id)) !== this.#profiles.get(id)) different.add(id);
    if (different.size === 0) return;
    for (const [id, state] of this.#clutches) if (state.species !== undefined && different.has(state.species)) clutches.add(id);
    for (const [id, state] of this.#pairs) if (state.pair.species !== undefined && different.has(state.pair.species)) pairs.add(id);
  }

  /** Works out anew the given clutches and pairs, and all that hangs on them. */
  #refresh(work: { readonly clutches: ReadonlySet<string>; readonly pairs: Set<string>; readonly touched: Set<string>; readonly tanks?: Set<string>; readonly rooms?: ReadonlySet<string> }): void {
    const { pairs, touched } = work;
    const tanks = work.tanks ?? new Set<string>();
    const expecting = new Set(work.clutches);
    const taught = new Set<string>();
    for (const id of work.clutches) {
      const before = this.#clutches.get(id);
      this.#restudy(id, tanks);
      const after = this.#clutches.get(id);
      for (const pair of [before?.clutch.pair, after?.clutch.pair]) if (pair !== undefined) pairs.add(pair);
      if (teachesTheSame(before, after)) continue;
      for (const pair of [before?.clutch.pair, after?.clutch.pair]) if (pair !== undefined) taught.add(pair);
    }
    for (const pair of taught) for (const { clutch } of this.records.clutchesOf(pair)) expecting.add(clutch);
    for (const pair of pairs) this.#refreshPair(pair);
    for (const id of expecting) {
      const state = this.#clutches.get(id);
      if (state !== undefined) state.timeline = timelineOf(state.study, (quantity) => this.#learn(state.clutch, quantity), this.zone);
      if (state !== undefined) for (const tank of state.study.heads.stands.keys()) tanks.add(tank);
    }
    for (const id of expecting) {
      const state = this.#clutches.get(id);
      if (state !== undefined) {
        this.found.set(`clutch ${id}`, clutchRules.flatMap((rule) => rule(state, this)), touched);
      } else {
        this.found.set(`clutch ${id}`, [], touched);
      }
      this.#staleness.checkClutch(id, state, touched);
    }
    if (tanks.size > 0) for (const [id, { pair }] of this.#pairs) if (pair.tank !== undefined && tanks.has(pair.tank)) pairs.add(id);
    for (const id of pairs) {
      const state = this.#pairs.get(id);
      this.found.set(`pair ${id}`, state === undefined ? [] : pairRules.flatMap((rule) => rule(state, this)), touched);
      this.#staleness.checkPair(id, state, touched);
    }
    this.#staleness.checkTanks(tanks, touched);
    this.#staleness.checkRooms(work.rooms ?? new Set(), tanks, touched);
    const jobs = this.records.file('maintenance.csv');
    this.found.set('jobs', jobs === undefined ? [] : jobRules.flatMap((rule) => rule(jobs, this)), touched);
    const species = this.records.file('species.csv');
    if (species !== undefined && touched.has('species.csv')) this.found.set('species', speciesRules.flatMap((rule) => rule(species, this)), touched);
  }

  #restudy(id: string, tanks: Set<string>): void {
    const old = this.#clutches.get(id);
    if (old !== undefined) for (const tank of old.study.heads.stands.keys()) this.#leave(tank, id, tanks);
    const row = this.records.index('clutches').row(id);
    const clutch = row === undefined ? undefined : clutchOf(row);
    if (row === undefined || clutch === undefined || isFuture(clutch.spawned, this.#now)) {
      this.#clutches.delete(id);
      if (clutch === undefined) this.#waiting.delete(id);
      else this.#waiting.add(id);
      return;
    }
    this.#waiting.delete(id);
    const species = this.records.speciesOf(clutch);
    const profile = species === undefined ? undefined : this.records.profile(species);
    if (species !== undefined && !this.#profiles.has(species)) this.#profiles.set(species, JSON.stringify(profile));
    const study = this.study(clutch);
    this.#clutches.set(id, { row, clutch, species, study, timeline: NO_TIMELINE, interval: undefined });
    if (study.recorded.ended === undefined) {
      for (const tank of study.heads.stands.keys()) {
        let standing = this.#standing.get(tank);
        if (standing === undefined) this.#standing.set(tank, (standing = new Set()));
        standing.add(id);
        tanks.add(tank);
      }
    }
  }

  /** What a clutch's own records say at now; `afterEach` hears what is alive after each row of its log. */
  study(clutch: Clutch, afterEach?: ClutchStudy['afterEach']): ClutchStudy {
    const species = this.records.speciesOf(clutch);
    const all = this.records.entriesOf(clutch.clutch);
    const entries = all.some(({ time }) => isFuture(time, this.#now)) ? all.filter(({ time }) => !isFuture(time, this.#now)) : all;
    return studyClutch({
      clutch,
      profile: species === undefined ? undefined : this.records.profile(species),
      entries,
      now: this.#now,
      temperaturesOf: this.records.temperaturesOf,
      ...(afterEach === undefined ? {} : { afterEach }),
    });
  }

  /** Asks something as it would have been answered at an earlier moment; what the pair's other clutches teach is taken as of now. */
  at<Answer>(instant: number, ask: (then: Then) => Answer): Answer {
    const now = this.#now;
    this.#now = momentAt(instant, this.zone);
    try {
      return ask(this);
    } finally {
      this.#now = now;
    }
  }

  stateOf(clutch: Clutch, row: Row): ClutchState | undefined {
    if (isFuture(clutch.spawned, this.#now)) return undefined;
    const study = this.study(clutch);
    const timeline = timelineOf(study, (quantity) => this.#learn(clutch, quantity), this.zone);
    return { row, clutch, species: this.records.speciesOf(clutch), study, timeline, interval: this.#clutches.get(clutch.clutch)?.interval };
  }

  pairStateOf(pair: Pair): PairState {
    const spawns = this.records
      .clutchesOf(pair.pair)
      .filter(({ spawned }) => !isFuture(spawned, this.#now))
      .map(({ clutch, spawned }) => ({ clutch, time: spawned }));
    const state: PairState = { pair, spawns, intervals: spawnIntervals(spawns), next: undefined };
    return { ...state, next: this.#nextSpawn(state) };
  }

  #leave(tank: string, id: string, tanks: Set<string>): void {
    tanks.add(tank);
    const standing = this.#standing.get(tank);
    if (standing?.delete(id) === true && standing.size === 0) this.#standing.delete(tank);
  }

  #refreshPair(id: string): void {
    const pair = this.records.pair(id);
    const spawns = this.records.clutchesOf(id).filter(({ clutch }) => this.#clutches.has(clutch)).map(({ clutch, spawned }) => ({ clutch, time: spawned }));
    const intervals = spawnIntervals(spawns);
    for (const { clutch } of spawns) (this.#clutches.get(clutch) as ClutchState).interval = undefined;
    for (const interval of intervals) (this.#clutches.get(interval.to.clutch) as ClutchState).interval = interval;
    if (pair === undefined) this.#pairs.delete(id);
    else this.#pairs.set(id, this.pairStateOf(pair));
  }

  #nextSpawn({ pair, spawns, intervals }: PairState): NextSpawn | undefined {
    const last = spawns[spawns.length - 1];
    const profile = pair.species === undefined ? undefined : this.records.profile(pair.species);
    if (pair.species !== undefined) this.#profiles.set(pair.species, JSON.stringify(profile));
    const usualDays = profile?.interval_d;
    const retired = pair.retired !== undefined && !isFuture(pair.retired, this.#now);
    if (last === undefined || usualDays === undefined || retired || pair.kind !== 'pair') return undefined;
    const { window: factors, observations, fromDays, expectedDays, toDays } = predictSpawn(usualDays, intervals);
    const day = last.time.day;
    return { last, usualDays, window: factors, observations, from: day + fromDays, expected: day + expectedDays, to: day + toDays };
  }

  /** What the pair's other clutches teach about a quantity; growth is taken from the profile. */
  #learn(clutch: Clutch, quantity: Quantity): LearnedWindow {
    const observations: number[] = [];
    if (clutch.pair !== undefined && quantity !== 'growth') {
      for (const mate of this.#pairMembers(clutch.pair)) {
        if (mate === clutch.clutch) continue;
        const x = this.#clutches.get(mate)?.study.observations.get(quantity);
        if (x !== undefined) observations.push(x);
      }
    }
    if (observations.length === 0) return priorWindow(quantity);
    return { ...window(predictive(posterior(priors[quantity], observations))), n: observations.length };
  }

  #pairMembers(pair: string): readonly string[] {
    const spawns = this.#pairs.get(pair)?.spawns;
    return spawns === undefined ? this.records.clutchesOf(pair).map(({ clutch }) => clutch) : spawns.map(({ clutch }) => clutch);
  }

  #hasFuture(id: string, before: Moment): boolean {
    const state = this.#clutches.get(id) as ClutchState;
    const { hatched, freeSwimming, ended } = state.clutch;
    if ([hatched, freeSwimming, ended].some((time) => time !== undefined && isFuture(time, before))) return true;
    return this.records.entriesOf(id).length !== state.study.entries.length;
  }

  #allPairs(): readonly string[] {
    return [...this.#pairs.keys(), ...this.records.index('pairs').ids(), ...this.records.pairsWithClutches()];
  }
}

/** Whether the pair's other clutches can tell no difference. */
function teachesTheSame(before: ClutchState | undefined, after: ClutchState | undefined): boolean {
  if (before === undefined || after === undefined) return before === after;
  const [a, b] = [before.clutch, after.clutch];
  if (a.pair !== b.pair || a.spawned.instant !== b.spawned.instant || a.spawned.bare !== b.spawned.bare || a.spawned.about !== b.spawned.about) return false;
  const [x, y] = [before.study.observations, after.study.observations];
  return x.size === y.size && [...x].every(([quantity, value]) => y.get(quantity) === value);
}

/** What can be asked of an earlier moment. */
export type Then = PlanView & Pick<Evaluation, 'stateOf' | 'pairStateOf'>;

const NO_TIMELINE = { milestones: [], stripped: undefined, ended: undefined, unanswered: false };

const priorWindows = new Map<Quantity, LearnedWindow>();

function priorWindow(quantity: Quantity): LearnedWindow {
  let known = priorWindows.get(quantity);
  if (known === undefined) {
    known = { ...window(predictive(posterior(priors[quantity], []))), n: 0 };
    priorWindows.set(quantity, known);
  }
  return known;
}
