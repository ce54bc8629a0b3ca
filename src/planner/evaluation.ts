import { blankMoment, isFuture, momentAt } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import type { Pedigree } from '../domain/kinship';
import type { ClutchInput, ClutchStudy } from '../domain/clutchStudy';
import { spawnIntervals } from '../domain/spawning';
import { PassingTimelines, timelineOf } from '../domain/timeline';
import type { Learn, Timeline } from '../domain/timeline';
import { Habits } from '../records/habits';
import type { Records } from '../records/records';
import type { Changes } from '../records/changes';
import { asWritten } from '../records/row';
import type { Row } from '../records/row';
import { RowSet } from '../records/rowSet';
import { clutchOf } from '../records/things';
import type { Clutch, Pair } from '../records/things';
import { NOTHING_DUE } from './agenda';
import type { Agenda } from './agenda';
import { broodsAmong, broodsIn } from './broods';
import type { Broods } from './broods';
import { ClutchMemory, memoriesIn, memoryOf } from './clutchMemory';
import type { Known } from './clutchMemory';
import type { Stock } from './due';
import { cultureTurn } from './cultureRoutines';
import type { Found } from './found';
import { askAll, FoundProblems, NOTHING } from './foundProblems';
import { KnownPairs } from './knownPairs';
import { KnownProfiles } from './knownProfiles';
import { growsOtherwiseAfter, Lessons, teachesTheSame } from './lessons';
import { Lineages } from './lineages';
import { isSameSpawn, pairStateOf } from './pairStateOf';
import { clutchRules, pairRules, settledRules } from './rules/registry';
import { SheetProblems } from './sheetProblems';
import { Staleness } from './staleness';
import { Standing } from './standing';
import type { ClutchState, PairState, PlanView } from './states';
import { Studies } from './studies';
import { clutchAgenda } from './subjects';
import { TankAgendas } from './tankAgendas';
import { nextTurn } from './turns';
import { WaterProblems } from './waterProblems';

/**
 * Everything that follows from the records at now, clutch by clutch and pair by pair. Only what a change touches is
 * worked out again; the result equals an evaluation made afresh.
 */
export class Evaluation implements PlanView {
  readonly records: Records;
  readonly found = new FoundProblems();
  readonly #staleness: Staleness;
  readonly #pairs = new KnownPairs();
  readonly #pairFound = new Map<string, readonly Found[]>();
  readonly #tanks: TankAgendas;
  readonly #habits = new Habits();
  readonly #sheets: SheetProblems;
  readonly #waters: WaterProblems;
  readonly #lineages: Lineages;
  readonly #standing = new Standing();
  readonly #open = new Set<ClutchMemory>();
  readonly #lessons = new Lessons();
  readonly #profiles: KnownProfiles;
  /** Rows of the register that count for nothing yet. */
  readonly #waiting = new Set<Row>();
  readonly #studies: Studies;
  /** Of the clutch that is read. */
  readonly #spawned = blankMoment();
  #instant: number;
  #now: Moment;

  constructor(records: Records, instant: number) {
    this.records = records;
    this.#instant = instant;
    this.#now = momentAt(instant, records.zone);
    this.#studies = new Studies(this);
    this.#staleness = new Staleness(this);
    this.#lineages = new Lineages(records);
    this.#profiles = new KnownProfiles(records);
    this.#sheets = new SheetProblems(this, this.found);
    this.#waters = new WaterProblems(this, this.found);
    this.#tanks = new TankAgendas(this, this.found);
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
    return [...this.#pairs.inTank(tank)].sort();
  }

  get pedigree(): Pedigree {
    return this.#lineages.pedigree;
  }

  tankAgenda(tank: string): Agenda {
    return this.#tanks.of(tank);
  }

  askedOnWater(system: string): ReadonlyMap<string, string> {
    return this.#tanks.askedOnWater(system);
  }

  keeps(events: readonly string[]): boolean {
    return events.some((event) => this.#habits.has(event));
  }

  /** What lives here and may still need something. Of what has ended little is kept, so to say that nothing is due of it, it would have to be worked out again. */
  get stock(): Stock {
    return { clutches: this.openClutches(), pairs: this.#pairs.values() };
  }

  openClutches(): readonly ClutchState[] {
    return [...this.#open].sort((a, b) => asWritten(a.row, b.row));
  }

  get nextChange(): number {
    let turn = nextTurn(this.#memories(), this);
    for (const { agenda } of this.#pairs.values()) turn = Math.min(turn, agenda.turn);
    return Math.min(turn, this.#tanks.turn, this.#waters.turn, cultureTurn(this));
  }

  setNow(instant: number): ReadonlySet<string> {
    const before = this.#now;
    this.#instant = instant;
    this.#now = momentAt(instant, this.zone);
    const touched = new Set<string>();
    const later = instant < before.instant ? undefined : before;
    const ahead = [...this.records.files()].filter(({ latest }) => latest > Math.min(before.instant, instant));
    for (const { path } of ahead) touched.add(path);
    this.#habits.update(this.records, { changed: 'all', events: this.records.routines.habitEvents, now: this.#now });
    const due = new RowSet();
    due.addNew([...this.#waiting]);
    for (const memory of this.#memories()) if (later === undefined || !memory.isEnded || this.#hasFuture(memory, before)) due.add(memory.row);
    this.#refresh({
      rows: due,
      orphans: [],
      gone: new Map(),
      pairs: new Set(this.#allPairs()),
      touched,
      tanks: new Set(this.records.index('tanks').ids()),
      fish: new Set(),
      rooms: new Set(this.records.index('rooms').ids()),
    });
    this.#staleness.checkWaterFiles(ahead, touched);
    if (ahead.some(({ path }) => path === 'cultures.csv')) this.#staleness.checkCultures(this.records.index('cultures').ids(), touched);
    this.#waters.refreshAll(touched);
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
    const isKeptOtherwise = this.#habits.update(this.records, { changed: changes.everything ? 'all' : changes.files, events: this.records.routines.habitEvents, now: this.#now });
    if (isKeptOtherwise || changes.others.has('routines')) this.#addAllOpen({ rows, pairs, tanks });
    const isDescentOther = this.#lineages.update(changes);
    if (isDescentOther || changes.others.has('fish')) for (const id of this.#pairs.ids()) pairs.add(id);
    const fish = isDescentOther ? new Set(this.records.index('fish').ids()) : changes.fish;
    for (const path of changes.files) for (const file of this.found.filesNaming(path)) touched.add(file);
    this.#addBySpecies(changes.species, rows, pairs);
    if (changes.readings.size > 0 && rows.size < all) {
      for (const memory of this.#memories()) if (memory.stoodIn(changes.readings)) rows.add(memory.row);
    }
    const gone = this.#forget(changes.clutchRowsGone, tanks, touched);
    // Only now, when what went stands nowhere any more.
    for (const tank of changes.tanks) {
      for (const memory of this.#standing.in(tank)) rows.add(memory.row);
      for (const pair of this.pairsIn(tank)) pairs.add(pair);
    }
    for (const row of changes.clutchRowsGone) clutches.add(row.value(0) as string);
    const orphans = this.#settleIds(clutches, rows, { gone, tanks, touched });
    this.#refresh({ rows, orphans, gone, pairs, touched, tanks, fish, rooms: new Set(changes.rooms) });
    this.#staleness.checkWater(changes.readings, changes.roomReadings, touched);
    this.#staleness.checkCultures(changes.cultures, touched);
    if (changes.fish.size > 0 || changes.species.size > 0 || changes.files.has('fishroom.json')) this.#waters.refreshAll(touched);
    this.#waters.refresh({ tanks, systems: changes.systems }, touched);
    return touched;
  }

  /** Everything of which something may be due. */
  #addAllOpen({ rows, pairs, tanks }: { readonly rows: RowSet; readonly pairs: Set<string>; readonly tanks: Set<string> }): void {
    for (const memory of this.#memories()) if (!memory.isEnded) rows.add(memory.row);
    for (const pair of this.#pairs.ids()) pairs.add(pair);
    for (const tank of this.records.index('tanks').ids()) tanks.add(tank);
  }

  /** Takes out what is known of rows that went; returns it by clutch. */
  #forget(rows: Iterable<Row>, tanks: Set<string>, touched: Set<string>): Map<string, ClutchMemory> {
    const gone = new Map<string, ClutchMemory>();
    for (const row of rows) {
      const memory = memoryOf(row);
      this.#waiting.delete(row);
      row.kept = undefined;
      const id = row.value(0) as string;
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
    rows: RowSet,
    { gone, tanks, touched }: { readonly gone: Map<string, ClutchMemory>; readonly tanks: Set<string>; readonly touched: Set<string> },
  ): readonly string[] {
    const index = this.records.index('clutches');
    if (index.anyDuplicate) for (const row of rows) if (index.isDuplicate(row.value(0) as string)) ids.add(row.value(0) as string);
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
  #memories(): Iterable<ClutchMemory> {
    return memoriesIn(this.records.file('clutches.csv'));
  }

  #addBySpecies(species: ReadonlySet<string>, rows: RowSet, pairs: Set<string>): void {
    const different = this.#profiles.changed(species);
    if (different.size === 0) return;
    for (const memory of this.#memories()) if (memory.species !== undefined && different.has(memory.species)) rows.add(memory.row);
    for (const { pair } of this.#pairs.values()) if (pair.species !== undefined && different.has(pair.species)) pairs.add(pair.pair);
  }

  /**
   * Works out anew the given clutches and pairs, and all that hangs on them. Rows are walked as they are written, which is
   * how they lie in memory: that takes a quarter less than going from pair to pair.
   */
  #refresh(work: Work): void {
    const { rows, pairs, tanks, touched } = work;
    const again = this.#pairsLeft(work);
    const studies: (ClutchStudy | undefined)[] = [];
    const grownSince = new Map<string, number>();
    // When the whole register is worked out, all broods of each pair are among them, and nobody else learns of them.
    const isWhole = rows.size >= (this.records.file('clutches.csv')?.rowCount ?? 0);
    const walked = new Map<string, Broods>();
    for (const row of rows) {
      const before = memoryOf(row) ?? (work.gone.size === 0 ? undefined : work.gone.get(row.value(0) as string));
      const pair = clutchOf(row)?.pair;
      const among = isWhole && pair !== undefined ? broodsAmong(walked, pair, this.records) : undefined;
      studies.push(this.#restudy(row, { tanks, touched, among }));
      if (among !== undefined) {
        const memory = memoryOf(row);
        if (memory !== undefined) among.add(memory);
        continue;
      }
      if (pair === undefined) continue;
      // Those that teach something else are all among the pairs already, and all of their clutches are looked at.
      if (again.has(pair)) continue;
      pairs.add(pair);
      if (!teachesTheSame(before, memoryOf(row))) again.add(pair);
      else grownSince.set(pair, Math.min(grownSince.get(pair) ?? Infinity, growsOtherwiseAfter(before, memoryOf(row))));
    }
    for (const pair of walked.keys()) pairs.add(pair);
    const mates: Row[] = [];
    for (const pair of pairs) {
      const before = this.#pairs.get(pair)?.next;
      this.#addTankOf(pair, tanks);
      const { memories, shifted } = this.#refreshPair(pair, walked.get(pair));
      this.#addTankOf(pair, tanks);
      const learnsSince = again.has(pair) ? -Infinity : (grownSince.get(pair) ?? Infinity);
      const isSame = isSameSpawn(before, this.#pairs.get(pair)?.next);
      if (isWhole) continue;
      const others = new Set(shifted);
      // What was learned says something of all of them, of growth of the later ones; when the parents spawn again only of those that are still there.
      if (!isSame || learnsSince < Infinity) for (const memory of memories) if (memory.clutch.spawned.day > learnsSince || (!isSame && !memory.isEnded)) others.add(memory);
      for (const { row } of others) if (!rows.has(row)) mates.push(row);
    }
    let place = 0;
    for (const row of rows) this.#conclude(row, studies[place++], { touched, tanks });
    for (const row of mates) this.#conclude(row, undefined, { touched, tanks });
    for (const id of work.orphans) this.#staleness.checkLogs(id, undefined, touched);
    for (const tank of tanks) for (const id of this.#pairs.inTank(tank)) pairs.add(id);
    for (const id of pairs) {
      const state = this.#pairs.get(id);
      this.#findAboutPair(id, state, touched);
      this.#staleness.checkPair(id, state, touched);
    }
    this.#tanks.refresh(tanks, touched);
    this.#staleness.checkTanks(tanks, touched);
    this.#staleness.checkRooms(work.rooms, tanks, touched);
    this.#staleness.checkFish(work.fish, touched);
    this.#sheets.refresh(work.fish.size > 0, touched);
  }

  /** What is overdue of a pair counts for its room, and its species for its water. */
  #addTankOf(pair: string, tanks: Set<string>): void {
    const tank = this.#pairs.get(pair)?.pair.tank;
    if (tank !== undefined) tanks.add(tank);
  }

  #findAboutPair(id: string, state: PairState | undefined, touched: Set<string>): void {
    const before = this.#pairFound.get(id) ?? NOTHING;
    const found = state === undefined ? NOTHING : askAll(pairRules, state, this);
    if (before.length + found.length === 0) return;
    this.found.replace(before, found, touched);
    if (found.length === 0) this.#pairFound.delete(id);
    else this.#pairFound.set(id, found);
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

  /** Reads a clutch's own records again; gives what they say, unless it can't be read, spawns later than now, or is as well read once more. */
  #restudy(row: Row, { tanks, touched, among }: { readonly tanks: Set<string>; readonly touched: Set<string>; readonly among: Broods | undefined }): ClutchStudy | undefined {
    const old = memoryOf(row);
    if (old !== undefined) this.#leave(old, tanks);
    const clutch = clutchOf(row);
    clutch?.fillSpawned(this.#spawned);
    if (clutch === undefined || isFuture(this.#spawned, this.#now)) {
      if (old !== undefined) this.found.replace(old.found, NOTHING, touched);
      row.kept = undefined;
      if (clutch === undefined) this.#waiting.delete(row);
      else this.#waiting.add(row);
      return undefined;
    }
    this.#waiting.delete(row);
    // That of its pair is noted with the pair.
    this.#profiles.note(clutch.species);
    const species = among === undefined ? this.records.speciesOf(clutch) : (clutch.species ?? among.species);
    const study = this.#studies.inPassing(clutch, { species });
    const memory = new ClutchMemory(clutch, study, { species, workOut: this.#workOut });
    if (old !== undefined) memory.found = old.found;
    row.kept = memory;
    // Without a log it is soon studied again, which costs less than to carry a long register's studies through all that comes before.
    if (memory.isEnded) return study.entries.length === 0 ? undefined : study;
    this.#open.add(memory);
    for (const tank of study.heads.stands.keys()) {
      this.#standing.add(tank, memory);
      tanks.add(tank);
    }
    return study;
  }

  /** What follows for a clutch once all of its pair have been read: its expectations, problems and cells. */
  #conclude(row: Row, fresh: ClutchStudy | undefined, { touched, tanks }: { readonly touched: Set<string>; readonly tanks: Set<string> }): void {
    const memory = memoryOf(row);
    if (memory === undefined) return this.#staleness.checkClutch(row, undefined, touched);
    const study = fresh ?? memory.keptStudy ?? this.#studies.inPassing(memory.clutch, memory);
    const timeline = memory.isSettled ? this.#passingTimelines.of(study, this.zone) : this.#timeline(study);
    const { clutch, species } = memory;
    const agenda = memory.isEnded ? NOTHING_DUE : clutchAgenda({ clutch, species, study, timeline }, this);
    memory.keep({ study, timeline, agenda });
    if (!memory.isEnded) for (const tank of study.heads.stands.keys()) tanks.add(tank);
    const found = askAll(memory.isSettled ? settledRules : clutchRules, memory, this);
    if (found.length + memory.found.length > 0) {
      this.found.replace(memory.found, found, touched);
      memory.found = found;
    }
    this.#staleness.checkClutch(row, memory, touched);
    memory.rest();
  }

  readonly #workOut = (memory: ClutchMemory): Known => {
    const study = this.study(memory.clutch, memory);
    // Only of what has ended so little is kept, and of that nothing is due.
    return { study, timeline: this.#timeline(study), agenda: NOTHING_DUE };
  };

  readonly #learn: Learn = (study, quantity, own) => this.#lessons.learn(study, quantity, own);

  /** Of settled broods, while each is looked at in passing. */
  readonly #passingTimelines = new PassingTimelines(this.#learn);

  #timeline(study: ClutchStudy): Timeline {
    return timelineOf(study, this.#learn, this.zone);
  }

  /** What a clutch's own records say at now; `afterEach` hears what is alive after each row of its log. */
  study(clutch: Clutch, asked: { readonly species: string | undefined; readonly afterEach?: ClutchInput['afterEach'] }): ClutchStudy {
    return this.#studies.of(clutch, asked);
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
    const species = this.records.speciesOf(clutch);
    const study = this.study(clutch, { species });
    const known = memoryOf(row);
    const studied = { clutch, species, study, timeline: this.#timeline(study) };
    return { ...studied, row, before: known?.before, gap: known?.gap, agenda: clutchAgenda(studied, this) };
  }

  pairStateOf(pair: Pair): PairState {
    const spawns = this.records.clutchRowsOf(pair.pair, this.#now).map((row) => clutchOf(row) as Clutch);
    return pairStateOf(pair, { spawns, spawnCount: spawns.length, lastSpawn: spawns.at(-1), gaps: spawnIntervals(spawns) }, this);
  }

  #leave(memory: ClutchMemory, tanks: Set<string>): void {
    this.#open.delete(memory);
    for (const tank of memory.standsIn) {
      tanks.add(tank);
      this.#standing.remove(tank, memory);
    }
  }

  /** Works out a pair's spawns, and what its clutches teach each other. */
  #refreshPair(id: string, walked: Broods | undefined): Broods {
    const pair = this.records.pair(id);
    const broods = walked?.isInOrder === true ? walked : broodsIn(this.records.clutchRowsOf(id, this.#now));
    this.#lessons.teach(id, broods);
    this.#profiles.note(pair?.species);
    this.#pairs.set(id, pair === undefined ? undefined : pairStateOf(pair, broods, this));
    return broods;
  }

  #hasFuture({ clutch }: ClutchMemory, before: Moment): boolean {
    const { hatched, freeSwimming, ended } = clutch;
    if ([hatched, freeSwimming, ended].some((time) => time !== undefined && isFuture(time, before))) return true;
    return this.records.entriesOf(clutch).some(({ time }) => isFuture(time, before));
  }

  #allPairs(): readonly string[] {
    return [...this.#pairs.ids(), ...this.records.index('pairs').ids(), ...this.records.pairsWithClutches()];
  }
}

/** What can be asked of an earlier moment. */
export type Then = PlanView & Pick<Evaluation, 'stateOf' | 'pairStateOf'>;

interface Work {
  /** Rows of the register to read again: those that hold for their ids. */
  readonly rows: RowSet;
  /** What was known of rows that went, by clutch. */
  readonly gone: ReadonlyMap<string, ClutchMemory>;
  /** Clutches that only logs know. */
  readonly orphans: readonly string[];
  readonly pairs: Set<string>;
  readonly touched: Set<string>;
  readonly tanks: Set<string>;
  readonly fish: ReadonlySet<string>;
  readonly rooms: ReadonlySet<string>;
}
