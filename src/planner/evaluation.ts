import { momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { studyClutch } from '../domain/clutchStudy';
import type { ClutchInput, ClutchStudy } from '../domain/clutchStudy';
import { predictSpawn } from '../domain/nextSpawn';
import { spawnIntervals } from '../domain/spawning';
import type { Spawn, SpawnInterval } from '../domain/spawning';
import { timelineOf } from '../domain/timeline';
import type { Timeline } from '../domain/timeline';
import { isFuture } from '../records/records';
import type { Records } from '../records/records';
import type { Changes } from '../records/changes';
import type { Row } from '../records/row';
import { clutchOf } from '../records/things';
import type { Clutch, Pair } from '../records/things';
import { ClutchMemory, memoryOf } from './clutchMemory';
import type { Known } from './clutchMemory';
import type { Found } from './found';
import { askAll, FoundProblems, NOTHING } from './foundProblems';
import { Lessons, teachesTheSame } from './lessons';
import { jobRules, clutchRules, pairRules, speciesRules } from './rules/registry';
import { Staleness } from './staleness';
import { Standing } from './standing';
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
  readonly #pairs = new Map<string, PairState>();
  readonly #pairFound = new Map<string, readonly Found[]>();
  #jobsFound = NOTHING;
  #speciesFound = NOTHING;
  readonly #pairsOfTank = new Map<string, Set<string>>();
  readonly #standing = new Standing();
  readonly #lessons = new Lessons();
  readonly #profiles = new Map<string, string>();
  /** Rows of the register that count for nothing yet. */
  readonly #waiting = new Set<Row>();
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
    return memoryOf(this.records.index('clutches').row(id));
  }

  pair(id: string): PairState | undefined {
    return this.#pairs.get(id);
  }

  standingIn(tank: string): readonly ClutchState[] {
    return this.#standing.in(tank);
  }

  pairsIn(tank: string): readonly string[] {
    return [...(this.#pairsOfTank.get(tank) ?? [])].sort();
  }

  get nextChange(): number {
    return nextTurn(this.#memories(), this);
  }

  setNow(instant: number): ReadonlySet<string> {
    const before = this.#now;
    this.#instant = instant;
    this.#now = momentAt(instant, this.zone);
    const touched = new Set<string>();
    const later = instant < before.instant ? undefined : before;
    for (const file of this.records.files()) if (file.latest > Math.min(before.instant, instant)) touched.add(file.path);
    const due = new Set<Row>(this.#waiting);
    for (const memory of this.#memories()) if (later === undefined || !memory.isEnded || this.#hasFuture(memory, before)) due.add(memory.row);
    this.#refresh({
      rows: due,
      orphans: [],
      gone: new Map(),
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
    const rows = changes.clutchRows;
    const all = this.records.file('clutches.csv')?.rowCount ?? 0;
    for (const pair of changes.pairRows) {
      pairs.add(pair);
      // When the whole register is read, they are all in.
      if (rows.size < all) for (const row of this.records.clutchRowsOf(pair)) rows.add(row);
    }
    if (changes.everything) {
      const index = this.records.index('clutches');
      for (const id of index.ids()) rows.add(index.row(id) as Row);
      for (const id of this.#allPairs()) pairs.add(id);
    }
    if (changes.others.has('fish')) for (const id of this.#pairs.keys()) pairs.add(id);
    for (const path of changes.files) for (const file of this.found.filesNaming(path)) touched.add(file);
    this.#addBySpecies(changes.species, rows, pairs);
    if (changes.readings.size > 0) {
      for (const { row, stays } of this.#memories()) if (stays.some((tank) => changes.readings.has(tank))) rows.add(row);
    }
    const gone = this.#forget(changes.clutchRowsGone, tanks, touched);
    for (const row of changes.clutchRowsGone) clutches.add(row.values[0] as string);
    const orphans = this.#settleIds(clutches, rows, { gone, tanks, touched });
    this.#refresh({ rows, orphans, gone, pairs, touched, tanks, rooms: new Set(changes.rooms) });
    return touched;
  }

  /** Takes out what is known of rows that went; returns it by clutch. */
  #forget(rows: Iterable<Row>, tanks: Set<string>, touched: Set<string>): Map<string, ClutchMemory> {
    const gone = new Map<string, ClutchMemory>();
    for (const row of rows) {
      const memory = memoryOf(row);
      this.#waiting.delete(row);
      row.memory = undefined;
      const id = row.values[0] as string;
      if (memory === undefined) continue;
      this.#leave(memory, tanks);
      this.found.replace(memory.found, NOTHING, touched);
      gone.set(id, memory);
    }
    return gone;
  }

  /** Puts the rows that hold for the ids among the rows to read, and takes out those that don't; returns ids that no row holds. */
  #settleIds(
    ids: Set<string>,
    rows: Set<Row>,
    { gone, tanks, touched }: { readonly gone: Map<string, ClutchMemory>; readonly tanks: Set<string>; readonly touched: Set<string> },
  ): readonly string[] {
    const index = this.records.index('clutches');
    if (index.anyDuplicate) for (const row of rows) if (index.isDuplicate(row.values[0] as string)) ids.add(row.values[0] as string);
    const orphans: string[] = [];
    for (const id of ids) {
      const [holder, ...others] = index.rows(id);
      for (const row of others) {
        rows.delete(row);
        for (const [clutch, memory] of this.#forget([row], tanks, touched)) gone.set(clutch, memory);
      }
      if (holder === undefined) orphans.push(id);
      else rows.add(holder);
    }
    return orphans;
  }

  /** What is known of all clutches that count. */
  *#memories(): IterableIterator<ClutchMemory> {
    for (const row of this.records.file('clutches.csv')?.rows() ?? []) {
      const memory = memoryOf(row);
      if (memory !== undefined) yield memory;
    }
  }

  #addBySpecies(species: ReadonlySet<string>, rows: Set<Row>, pairs: Set<string>): void {
    const different = new Set<string>();
    for (const id of species) {
      const profile = JSON.stringify(this.records.profile(id));
      if (profile !== this.#profiles.get(id)) different.add(id);
      this.#profiles.set(id, profile);
    }
    if (different.size === 0) return;
    for (const memory of this.#memories()) if (memory.species !== undefined && different.has(memory.species)) rows.add(memory.row);
    for (const [id, state] of this.#pairs) if (state.pair.species !== undefined && different.has(state.pair.species)) pairs.add(id);
  }

  /**
   * Works out anew the given clutches and pairs, and all that hangs on them. Rows are walked as they are written, which is
   * how they lie in memory: that takes a quarter less than going from pair to pair.
   */
  #refresh(work: Work): void {
    const { rows, pairs, tanks, touched } = work;
    const again = this.#pairsLeft(work);
    const studies: (ClutchStudy | undefined)[] = [];
    for (const row of rows) {
      const before = memoryOf(row) ?? work.gone.get(row.values[0] as string);
      studies.push(this.#restudy(row, { tanks, touched }));
      const pair = clutchOf(row)?.pair;
      if (pair === undefined) continue;
      pairs.add(pair);
      if (!again.has(pair) && !teachesTheSame(before, memoryOf(row))) again.add(pair);
    }
    const mates: Row[] = [];
    for (const pair of pairs) {
      const all = this.#refreshPair(pair);
      if (again.has(pair)) for (const row of all) if (!rows.has(row)) mates.push(row);
    }
    let place = 0;
    for (const row of rows) this.#conclude(row, studies[place++], { touched, tanks });
    for (const row of mates) this.#conclude(row, undefined, { touched, tanks });
    for (const id of work.orphans) this.#staleness.checkClutch({ id, row: undefined }, undefined, touched);
    for (const tank of tanks) for (const id of this.#pairsOfTank.get(tank) ?? []) pairs.add(id);
    for (const id of pairs) {
      const state = this.#pairs.get(id);
      this.#findAboutPair(id, state, touched);
      this.#staleness.checkPair(id, state, touched);
    }
    this.#staleness.checkTanks(tanks, touched);
    this.#staleness.checkRooms(work.rooms, tanks, touched);
    this.#findAboutSheets(touched);
  }

  #findAboutPair(id: string, state: PairState | undefined, touched: Set<string>): void {
    const before = this.#pairFound.get(id) ?? NOTHING;
    const found = state === undefined ? NOTHING : askAll(pairRules, state, this);
    if (before.length + found.length === 0) return;
    this.found.replace(before, found, touched);
    if (found.length === 0) this.#pairFound.delete(id);
    else this.#pairFound.set(id, found);
  }

  #findAboutSheets(touched: Set<string>): void {
    const jobs = this.records.file('maintenance.csv');
    const aboutJobs = jobs === undefined ? NOTHING : askAll(jobRules, jobs, this);
    this.found.replace(this.#jobsFound, aboutJobs, touched);
    this.#jobsFound = aboutJobs;
    if (!touched.has('species.csv')) return;
    const species = this.records.file('species.csv');
    const aboutSpecies = species === undefined ? NOTHING : askAll(speciesRules, species, this);
    this.found.replace(this.#speciesFound, aboutSpecies, touched);
    this.#speciesFound = aboutSpecies;
  }

  /** Pairs that a clutch went from; they are worked out again too. */
  #pairsLeft({ gone, pairs }: Work): Set<string> {
    const left = new Set<string>();
    for (const [id, { clutch }] of gone) {
      if (clutch.pair === undefined || this.records.clutch(id)?.pair === clutch.pair) continue;
      left.add(clutch.pair);
      pairs.add(clutch.pair);
    }
    return left;
  }

  /** Reads a clutch's own records again; undefined where it can't be read or spawns later than now. */
  #restudy(row: Row, { tanks, touched }: { readonly tanks: Set<string>; readonly touched: Set<string> }): ClutchStudy | undefined {
    const old = memoryOf(row);
    if (old !== undefined) this.#leave(old, tanks);
    const clutch = clutchOf(row);
    if (clutch === undefined || isFuture(clutch.spawned, this.#now)) {
      if (old !== undefined) this.found.replace(old.found, NOTHING, touched);
      row.memory = undefined;
      if (clutch === undefined) this.#waiting.delete(row);
      else this.#waiting.add(row);
      return undefined;
    }
    this.#waiting.delete(row);
    const species = this.records.speciesOf(clutch);
    if (species !== undefined && !this.#profiles.has(species)) this.#profiles.set(species, JSON.stringify(this.records.profile(species)));
    const study = this.study(clutch);
    const memory = new ClutchMemory(row, study, { species, workOut: this.#workOut });
    if (old !== undefined) memory.found = old.found;
    row.memory = memory;
    if (memory.isEnded) return study;
    for (const tank of study.heads.stands.keys()) {
      this.#standing.add(tank, memory);
      tanks.add(tank);
    }
    return study;
  }

  /** What follows for a clutch once all of its pair have been read: its expectations, problems and cells. */
  #conclude(row: Row, fresh: ClutchStudy | undefined, { touched, tanks }: { readonly touched: Set<string>; readonly tanks: Set<string> }): void {
    const memory = memoryOf(row);
    const id = row.values[0] as string;
    if (memory === undefined) {
      this.#staleness.checkClutch({ id, row }, undefined, touched);
      return;
    }
    const study = fresh ?? memory.study;
    const timeline = this.#timeline(study);
    memory.keep({ study, timeline });
    if (!memory.isEnded) for (const tank of study.heads.stands.keys()) tanks.add(tank);
    const state: ClutchState = { row, clutch: memory.clutch, species: memory.species, interval: memory.interval, study, timeline };
    const found = askAll(clutchRules, state, this);
    if (found.length + memory.found.length > 0) {
      this.found.replace(memory.found, found, touched);
      memory.found = found;
    }
    this.#staleness.checkClutch({ id, row }, state, touched);
  }

  readonly #workOut = ({ clutch }: ClutchMemory): Known => {
    const study = this.study(clutch);
    return { study, timeline: this.#timeline(study) };
  };

  #timeline(study: ClutchStudy): Timeline {
    return timelineOf(study, (quantity) => this.#lessons.learn(study, quantity), this.zone);
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
    const interval = memoryOf(row)?.interval;
    return { row, clutch, species: this.records.speciesOf(clutch), study, timeline: this.#timeline(study), interval };
  }

  pairStateOf(pair: Pair): PairState {
    const spawns = this.#spawnedRowsOf(pair.pair).map(spawnOf);
    return this.#pairState(pair, spawns, spawnIntervals(spawns));
  }

  #leave(memory: ClutchMemory, tanks: Set<string>): void {
    for (const tank of memory.standsIn) {
      tanks.add(tank);
      this.#standing.remove(tank, memory);
    }
  }

  /** Works out a pair's spawns, and what its clutches teach each other; returns their rows. */
  #refreshPair(id: string): readonly Row[] {
    const pair = this.records.pair(id);
    const rows = this.#spawnedRowsOf(id);
    const spawns = rows.map(spawnOf);
    const intervals = spawnIntervals(spawns);
    const observed = rows.map((row, i) => {
      const memory = memoryOf(row);
      if (memory === undefined) throw new Error(`a clutch of the pair ${id} was not read`);
      memory.interval = intervals[i - 1];
      return memory.observations;
    });
    this.#lessons.teach(id, observed);
    this.#setPair(id, pair === undefined ? undefined : this.#pairState(pair, spawns, intervals));
    return rows;
  }

  #setPair(id: string, state: PairState | undefined): void {
    const before = this.#pairs.get(id)?.pair.tank;
    const tank = state?.pair.tank;
    if (state === undefined) this.#pairs.delete(id);
    else this.#pairs.set(id, state);
    if (before === tank) return;
    if (before !== undefined) this.#pairsOfTank.get(before)?.delete(id);
    if (tank === undefined) return;
    const there = this.#pairsOfTank.get(tank);
    if (there === undefined) this.#pairsOfTank.set(tank, new Set([id]));
    else there.add(id);
  }

  #spawnedRowsOf(pair: string): readonly Row[] {
    const rows = this.records.clutchRowsOf(pair);
    return rows.some((row) => isFuture((clutchOf(row) as Clutch).spawned, this.#now)) ? rows.filter((row) => !isFuture((clutchOf(row) as Clutch).spawned, this.#now)) : rows;
  }

  #pairState(pair: Pair, spawns: readonly Spawn[], intervals: readonly SpawnInterval[]): PairState {
    const state: PairState = { pair, spawns, intervals, next: undefined };
    return { ...state, next: this.#nextSpawn(state) };
  }

  #nextSpawn({ pair, spawns, intervals }: PairState): NextSpawn | undefined {
    const last = spawns[spawns.length - 1];
    const profile = pair.species === undefined ? undefined : this.records.profile(pair.species);
    if (pair.species !== undefined && !this.#profiles.has(pair.species)) this.#profiles.set(pair.species, JSON.stringify(profile));
    const usualDays = profile?.interval_d;
    const retired = pair.retired !== undefined && !isFuture(pair.retired, this.#now);
    if (last === undefined || usualDays === undefined || retired || pair.kind !== 'pair') return undefined;
    const { window: factors, observations, fromDays, expectedDays, toDays } = predictSpawn(usualDays, intervals);
    const day = last.time.day;
    return { last, usualDays, window: factors, observations, from: day + fromDays, expected: day + expectedDays, to: day + toDays };
  }

  #hasFuture({ clutch }: ClutchMemory, before: Moment): boolean {
    const { hatched, freeSwimming, ended } = clutch;
    if ([hatched, freeSwimming, ended].some((time) => time !== undefined && isFuture(time, before))) return true;
    return this.records.entriesOf(clutch.clutch).some(({ time }) => isFuture(time, before));
  }

  #allPairs(): readonly string[] {
    return [...this.#pairs.keys(), ...this.records.index('pairs').ids(), ...this.records.pairsWithClutches()];
  }
}

/** What can be asked of an earlier moment. */
export type Then = PlanView & Pick<Evaluation, 'stateOf' | 'pairStateOf'>;

interface Work {
  /** Rows of the register to read again: those that hold for their ids. */
  readonly rows: ReadonlySet<Row>;
  /** What was known of rows that went, by clutch. */
  readonly gone: ReadonlyMap<string, ClutchMemory>;
  /** Clutches that only logs know. */
  readonly orphans: readonly string[];
  readonly pairs: Set<string>;
  readonly touched: Set<string>;
  readonly tanks: Set<string>;
  readonly rooms: ReadonlySet<string>;
}

function spawnOf(row: Row): Spawn {
  const { clutch, spawned } = clutchOf(row) as Clutch;
  return { clutch, time: spawned };
}
