import { momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { studyClutch } from '../domain/clutchStudy';
import type { ClutchInput, ClutchStudy } from '../domain/clutchStudy';
import { NOTHING_SEEN, posterior, predictive, priors, sumsOf, window, without } from '../domain/learning';
import type { Quantity, Sums } from '../domain/learning';
import { predictSpawn } from '../domain/nextSpawn';
import { spawnIntervals } from '../domain/spawning';
import type { Spawn, SpawnInterval } from '../domain/spawning';
import { timelineOf } from '../domain/timeline';
import type { LearnedWindow, Timeline } from '../domain/timeline';
import { isFuture } from '../records/records';
import type { Records } from '../records/records';
import type { Changes } from '../records/changes';
import type { Row } from '../records/row';
import { clutchOf } from '../records/things';
import type { Clutch, Pair } from '../records/things';
import { ClutchMemory } from './clutchMemory';
import type { Known } from './clutchMemory';
import { askAll, FoundProblems } from './foundProblems';
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
  readonly #clutches = new Map<string, ClutchMemory>();
  readonly #pairs = new Map<string, PairState>();
  readonly #standing = new Map<string, Set<string>>();
  readonly #lessons = new Map<string, Partial<Record<Quantity, Lesson>>>();
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
      if (later === undefined || !state.isEnded || this.#hasFuture(id, state, before)) due.add(id);
    }
    this.#refresh({
      clutches: due,
      pairs: new Set(this.#allPairs()),
      touched,
      tanks: new Set(this.records.index('tanks').ids()),
      rooms: new Set(this.records.index('rooms').ids()),
    });
    return touched;
  }

  /** Works out what the changes touch; takes them over and adds what hangs on them. */
  update(changes: Changes): ReadonlySet<string> {
    const touched = new Set(changes.files);
    this.#now = momentAt(this.#instant, this.zone);
    const { clutches, pairs } = changes;
    const tanks = new Set([...changes.tanks, ...changes.readings]);
    const rooms = new Set(changes.rooms);
    for (const pair of changes.pairRows) {
      pairs.add(pair);
      for (const { clutch } of this.records.clutchesOf(pair)) clutches.add(clutch);
    }
    if (changes.everything) {
      for (const id of [...this.records.index('clutches').ids(), ...this.#clutches.keys()]) clutches.add(id);
      for (const id of this.#allPairs()) pairs.add(id);
    }
    if (changes.others.has('fish')) for (const id of this.#pairs.keys()) pairs.add(id);
    for (const path of changes.files) for (const file of this.found.filesNaming(path)) touched.add(file);
    this.#addBySpecies(changes.species, clutches, pairs);
    if (changes.readings.size > 0 || changes.tanks.size > 0) {
      for (const [id, { stays }] of this.#clutches) if (stays.some((tank) => changes.readings.has(tank))) clutches.add(id);
    }
    this.#refresh({ clutches, pairs, touched, tanks, rooms });
    return touched;
  }

  #addBySpecies(species: ReadonlySet<string>, clutches: Set<string>, pairs: Set<string>): void {
    const different = new Set<string>();
    for (const id of species) if (JSON.stringify(this.records.profile(id)) !== this.#profiles.get(id)) different.add(id);
    if (different.size === 0) return;
    for (const [id, state] of this.#clutches) if (state.species !== undefined && different.has(state.species)) clutches.add(id);
    for (const [id, state] of this.#pairs) if (state.pair.species !== undefined && different.has(state.pair.species)) pairs.add(id);
  }

  /**
   * Works out anew the given clutches and pairs, and all that hangs on them; pair by pair, so that what is worked out of
   * one need not be kept while the others wait.
   */
  #refresh(work: Work): void {
    const { pairs, touched } = work;
    const tanks = work.tanks ?? new Set<string>();
    for (const [pair, { ids, left }] of this.#byPair(work.clutches, pairs)) {
      const studies = new Map<string, ClutchStudy>();
      let taught = left;
      for (const id of ids) {
        const before = this.#clutches.get(id);
        const after = this.#restudy(id, before, tanks);
        if (after !== undefined) studies.set(id, after.study);
        if (!taught && !teachesTheSame(before, after?.memory)) taught = true;
      }
      if (pair === undefined) {
        for (const id of ids) this.#conclude(id, studies.get(id), { touched, tanks });
        continue;
      }
      const spawns = this.#refreshPair(pair);
      for (const id of ids) this.#conclude(id, studies.get(id), { touched, tanks });
      if (!taught) continue;
      for (const { clutch } of spawns) if (!studies.has(clutch)) this.#conclude(clutch, undefined, { touched, tanks });
    }
    if (tanks.size > 0) for (const [id, { pair }] of this.#pairs) if (pair.tank !== undefined && tanks.has(pair.tank)) pairs.add(id);
    for (const id of pairs) {
      const state = this.#pairs.get(id);
      this.found.set('pair', id, state === undefined ? [] : askAll(pairRules, state, this), touched);
      this.#staleness.checkPair(id, state, touched);
    }
    this.#staleness.checkTanks(tanks, touched);
    this.#staleness.checkRooms(work.rooms ?? new Set(), tanks, touched);
    const jobs = this.records.file('maintenance.csv');
    this.found.set('jobs', '', jobs === undefined ? [] : askAll(jobRules, jobs, this), touched);
    const species = this.records.file('species.csv');
    if (touched.has('species.csv')) this.found.set('species', '', species === undefined ? [] : askAll(speciesRules, species, this), touched);
  }

  /** The clutches by their pair, with every pair that one of them left or that is named itself. */
  #byPair(clutches: ReadonlySet<string>, pairs: Set<string>): ReadonlyMap<string | undefined, Group> {
    const groups = new Map<string | undefined, { readonly ids: string[]; left: boolean }>();
    const groupOf = (pair: string | undefined): { readonly ids: string[]; left: boolean } => {
      let group = groups.get(pair);
      if (group === undefined) groups.set(pair, (group = { ids: [], left: false }));
      return group;
    };
    for (const id of clutches) {
      const left = this.#clutches.get(id)?.clutch.pair;
      const pair = this.records.clutch(id)?.pair;
      groupOf(pair).ids.push(id);
      if (left !== undefined && left !== pair) groupOf(left).left = true;
    }
    for (const pair of pairs) groupOf(pair);
    for (const pair of groups.keys()) if (pair !== undefined) pairs.add(pair);
    return groups;
  }

  /** Reads a clutch's own records again; undefined where it is gone or spawns later than now. */
  #restudy(id: string, old: ClutchMemory | undefined, tanks: Set<string>): { readonly study: ClutchStudy; readonly memory: ClutchMemory } | undefined {
    if (old !== undefined && !old.isEnded) for (const tank of old.study.heads.stands.keys()) this.#leave(tank, id, tanks);
    const row = this.records.index('clutches').row(id);
    const clutch = row === undefined ? undefined : clutchOf(row);
    if (row === undefined || clutch === undefined || isFuture(clutch.spawned, this.#now)) {
      this.#clutches.delete(id);
      if (clutch === undefined) this.#waiting.delete(id);
      else this.#waiting.add(id);
      return undefined;
    }
    this.#waiting.delete(id);
    const species = this.records.speciesOf(clutch);
    if (species !== undefined && !this.#profiles.has(species)) this.#profiles.set(species, JSON.stringify(this.records.profile(species)));
    const study = this.study(clutch);
    const memory = new ClutchMemory(row, study, { species, workOut: this.#workOut });
    this.#clutches.set(id, memory);
    if (!memory.isEnded) {
      for (const tank of study.heads.stands.keys()) {
        let standing = this.#standing.get(tank);
        if (standing === undefined) this.#standing.set(tank, (standing = new Set()));
        standing.add(id);
        tanks.add(tank);
      }
    }
    return { study, memory };
  }

  /** What follows for a clutch once all of its pair have been read: its expectations, problems and cells. */
  #conclude(id: string, fresh: ClutchStudy | undefined, { touched, tanks }: { readonly touched: Set<string>; readonly tanks: Set<string> }): void {
    const memory = this.#clutches.get(id);
    if (memory === undefined) {
      this.found.set('clutch', id, [], touched);
      this.#staleness.checkClutch(id, undefined, touched);
      return;
    }
    const study = fresh ?? memory.study;
    const known = { study, timeline: this.#timeline(study) };
    memory.keep(known);
    if (!memory.isEnded) for (const tank of study.heads.stands.keys()) tanks.add(tank);
    const state: ClutchState = { row: memory.row, clutch: memory.clutch, species: memory.species, interval: memory.interval, ...known };
    this.found.set('clutch', id, askAll(clutchRules, state, this), touched);
    this.#staleness.checkClutch(id, state, touched);
  }

  readonly #workOut = ({ clutch }: ClutchMemory): Known => {
    const study = this.study(clutch);
    return { study, timeline: this.#timeline(study) };
  };

  #timeline(study: ClutchStudy): Timeline {
    return timelineOf(study, (quantity) => this.#learn(study, quantity), this.zone);
  }

  /** What a clutch's own records say at now; `afterEach` hears what is alive after each row of its log. */
  study(clutch: Clutch, afterEach?: ClutchInput['afterEach']): ClutchStudy {
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
    const interval = this.#clutches.get(clutch.clutch)?.interval;
    return { row, clutch, species: this.records.speciesOf(clutch), study, timeline: this.#timeline(study), interval };
  }

  pairStateOf(pair: Pair): PairState {
    const spawns = this.#spawnsOf(pair.pair);
    return this.#pairState(pair, spawns, spawnIntervals(spawns));
  }

  #leave(tank: string, id: string, tanks: Set<string>): void {
    tanks.add(tank);
    const standing = this.#standing.get(tank);
    if (standing?.delete(id) === true && standing.size === 0) this.#standing.delete(tank);
  }

  /** Works out a pair's spawns, and what its clutches teach each other. */
  #refreshPair(id: string): readonly Spawn[] {
    const pair = this.records.pair(id);
    const spawns = this.#spawnsOf(id);
    const intervals = spawnIntervals(spawns);
    const lessons: Partial<Record<Quantity, number[]>> = {};
    spawns.forEach(({ clutch }, i) => {
      const memory = this.#clutches.get(clutch);
      if (memory === undefined) throw new Error(`the clutch ${clutch} of the pair ${id} was not read`);
      memory.interval = intervals[i - 1];
      for (const quantity of taughtQuantities) {
        const x = memory.observations[quantity];
        if (x !== undefined) (lessons[quantity] ??= []).push(x);
      }
    });
    const learned: Partial<Record<Quantity, Lesson>> = {};
    for (const quantity of taughtQuantities) if (lessons[quantity] !== undefined) learned[quantity] = { sums: sumsOf(lessons[quantity]), window: undefined };
    this.#lessons.set(id, learned);
    if (pair === undefined) this.#pairs.delete(id);
    else this.#pairs.set(id, this.#pairState(pair, spawns, intervals));
    return spawns;
  }

  #spawnsOf(pair: string): readonly Spawn[] {
    const spawns: Spawn[] = [];
    for (const { clutch, spawned } of this.records.clutchesOf(pair)) if (!isFuture(spawned, this.#now)) spawns.push({ clutch, time: spawned });
    return spawns;
  }

  #pairState(pair: Pair, spawns: readonly Spawn[], intervals: readonly SpawnInterval[]): PairState {
    const state: PairState = { pair, spawns, intervals, next: undefined };
    return { ...state, next: this.#nextSpawn(state) };
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
  #learn(study: ClutchStudy, quantity: Quantity): LearnedWindow {
    const { pair } = study.clutch;
    const lesson = pair === undefined ? undefined : this.#lessons.get(pair)?.[quantity];
    if (lesson === undefined) return priorWindow(quantity);
    const own = study.observations[quantity];
    // What is expected is not recorded, so nearly every clutch that asks has nothing of its own to leave out.
    if (own === undefined) return (lesson.window ??= windowFrom(quantity, lesson.sums));
    return windowFrom(quantity, without(lesson.sums, own));
  }

  #hasFuture(id: string, { clutch }: ClutchMemory, before: Moment): boolean {
    const { hatched, freeSwimming, ended } = clutch;
    if ([hatched, freeSwimming, ended].some((time) => time !== undefined && isFuture(time, before))) return true;
    return this.records.entriesOf(id).some(({ time }) => isFuture(time, before));
  }

  #allPairs(): readonly string[] {
    return [...this.#pairs.keys(), ...this.records.index('pairs').ids(), ...this.records.pairsWithClutches()];
  }
}

/** Whether the pair's other clutches can tell no difference. */
function teachesTheSame(before: ClutchMemory | undefined, after: ClutchMemory | undefined): boolean {
  if (before === undefined || after === undefined) return before === after;
  const [a, b] = [before.clutch, after.clutch];
  if (a.pair !== b.pair || a.spawned.instant !== b.spawned.instant || a.spawned.bare !== b.spawned.bare || a.spawned.about !== b.spawned.about) return false;
  return taughtQuantities.every((quantity) => before.observations[quantity] === after.observations[quantity]);
}

/** What can be asked of an earlier moment. */
export type Then = PlanView & Pick<Evaluation, 'stateOf' | 'pairStateOf'>;

/** Clutches of one pair to read again; `left`: one that was the pair's is so no more. */
interface Group {
  readonly ids: readonly string[];
  readonly left: boolean;
}

/** What a pair's clutches teach about a quantity; the window of all of them is worked out once. */
interface Lesson {
  readonly sums: Sums;
  window: LearnedWindow | undefined;
}

interface Work {
  readonly clutches: ReadonlySet<string>;
  readonly pairs: Set<string>;
  readonly touched: Set<string>;
  readonly tanks?: Set<string>;
  readonly rooms?: ReadonlySet<string>;
}

/** What one brood of a pair teaches about the others. */
const taughtQuantities = ['hatch', 'freeSwimming', 'release'] as const satisfies readonly Quantity[];

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
