import { compareMoments, hasCome, isFuture, momentAt, momentOfDay } from '../base/moment';
import type { Moment } from '../base/moment';
import { compareNames, compareNaturally } from '../base/order';
import type { Zone } from '../base/zone';
import { laterRecord } from '../domain/clutchStudy';
import { DAY } from '../domain/ladder';
import type { Milestone } from '../domain/ladder';
import { certainly } from '../domain/routines';
import type { Anchor, Anchored, Routine, Subject } from '../domain/routines';
import { stageAt } from '../domain/timeline';
import type { MilestoneTime } from '../domain/timeline';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';
import type { Tank } from '../records/things';
import { agendaOf, NOTHING_DUE } from './agenda';
import type { Agenda } from './agenda';
import type { NextSpawn, PairState, PlanView, StudiedClutch } from './states';

/** What is due of a clutch: nothing once it has ended or none is alive, and nothing but its question while that is unanswered. */
export function clutchAgenda(state: StudiedClutch, view: PlanView): Agenda {
  const routines = clutchRoutines(state, view);
  return routines.length === 0 ? NOTHING_DUE : agendaOf(routines, new ClutchSubject(state, view));
}

export function clutchRoutines({ study, timeline, species }: StudiedClutch, view: PlanView): readonly Routine[] {
  const { profile, heads } = study;
  if (profile === undefined || timeline.ended !== undefined || heads.alive.count === 0) return [];
  const [tank] = heads.stands.keys();
  const all = view.records.routines.for('clutch', { species, care: profile.care, use: tank === undefined ? undefined : view.records.tank(tank)?.use });
  return timeline.unanswered ? all.filter((routine) => isQuestionOf(routine, study.ladder?.question)) : all;
}

export function pairAgenda(state: PairState, view: PlanView): Agenda {
  const routines = pairRoutines(state, view);
  return routines.length === 0 ? NOTHING_DUE : agendaOf(routines, new PairSubject(state, view));
}

export function pairRoutines({ pair }: PairState, view: PlanView): readonly Routine[] {
  if (hasCome(pair.retired, view.now)) return [];
  const care = pair.species === undefined ? undefined : view.records.profile(pair.species)?.care;
  return view.records.routines.for('pair', { species: pair.species, care, use: pair.tank === undefined ? undefined : view.records.tank(pair.tank)?.use });
}

export function tankAgenda(tank: Tank, view: PlanView): Agenda {
  const routines = tankRoutines(tank, view);
  return routines.length === 0 ? NOTHING_DUE : agendaOf(routines, new TankSubject(tank, view));
}

/** What is done to the water and so to all tanks on it; a treatment too, or a dose would be given for each of them. */
const toWater: ReadonlySet<string> = new Set(['tested', 'water_change', 'treated']);

function isAboutWater({ doneBy }: Routine): boolean {
  return doneBy.length > 0 && doneBy.every((event) => toWater.has(event));
}

/** Of tanks on one water only the first in walking order is asked about the water. */
export function tankRoutines(tank: Tank, view: PlanView): readonly Routine[] {
  const routines = ownRoutines(tank, view);
  if (routines.length === 0 || tank.system === undefined) return routines;
  const asked = view.askedOnWater(tank.system);
  return routines.filter((routine) => !isAboutWater(routine) || asked.get(routine.routine) === tank.tank);
}

/** Nothing is to be done about an order that has been sent. */
export function orderRoutines(row: Row, { records, now }: PlanView): readonly Routine[] {
  const sent = valueOf(row, 'orders', 'sent') as Moment | undefined;
  return hasCome(sent, now) ? [] : records.routines.for('order', { species: valueOf(row, 'orders', 'species') as string | undefined });
}

/** For each routine of some tanks the first of them in walking order that it is for. */
export function firstAsked(tanks: readonly Tank[], view: PlanView): ReadonlyMap<string, string> {
  const asked = new Map<string, string>();
  for (const tank of [...tanks].sort(compareTanks)) for (const { routine } of ownRoutines(tank, view)) if (!asked.has(routine)) asked.set(routine, tank.tank);
  return asked;
}

function ownRoutines({ retired, use }: Tank, { records, now }: PlanView): readonly Routine[] {
  return hasCome(retired, now) ? [] : records.routines.for('tank', { use });
}

/** Walking order: by position, those without one last; T2 before T10. */
export function compareTanks(a: Pick<Tank, 'tank' | 'position'>, b: Pick<Tank, 'tank' | 'position'>): number {
  const byPosition = a.position === undefined || b.position === undefined ? Number(a.position === undefined) - Number(b.position === undefined) : compareNaturally(a.position, b.position);
  return byPosition || compareNames(a.tank, b.tank);
}

function isQuestionOf({ routine }: Routine, question: 'hatched' | 'released' | undefined): boolean {
  return (question === 'hatched' && routine === 'hatch') || (question === 'released' && routine === 'release');
}

/** What all things have in common. */
export abstract class Thing implements Subject {
  readonly now: Moment;
  readonly zone: Zone;
  protected readonly view: PlanView;

  constructor(view: PlanView) {
    this.view = view;
    this.now = view.now;
    this.zone = view.zone;
  }

  get feedsPerDay(): number | undefined {
    return undefined;
  }

  abstract anchor(anchor: Anchor): Anchored | undefined;
  abstract lastOf(events: readonly string[]): Moment | undefined;

  levelOf({ level, doneBy }: Routine): 'warn' | 'remind' | 'round' {
    if (level === 'habit') return this.view.keeps(doneBy) ? 'warn' : 'remind';
    return level;
  }

  /** Only broods leave a question open. */
  readonly isQuestion: Subject['isQuestion'] = () => false;
  readonly hangsOnQuestion: Subject['hangsOnQuestion'] = () => false;
  readonly isOver: Subject['isOver'] = () => false;
}

interface AnchorParts {
  readonly name: string;
  readonly end: 'time' | 'from' | 'to';
}

/** What an anchor is the time of, and which end of its window. */
function partsOf(anchor: Anchor): AnchorParts {
  let parts = known.get(anchor);
  if (parts === undefined) {
    const match = /^(.*)_(from|to)$/.exec(anchor);
    parts = match === null ? { name: anchor, end: 'time' } : { name: match[1] as string, end: match[2] as 'from' | 'to' };
    known.set(anchor, parts);
  }
  return parts;
}

const known = new Map<Anchor, AnchorParts>();

function anchoredAt({ time, from, to, basis }: MilestoneTime, end: 'time' | 'from' | 'to'): Anchored {
  return { time: end === 'time' ? time : end === 'from' ? from : to, from, to, isExpected: basis === 'expected' };
}

function anchoredNext(next: NextSpawn | undefined, end: 'time' | 'from' | 'to', zone: Zone): Anchored | undefined {
  if (next === undefined) return undefined;
  const [time, from, to] = [next.expected, next.from, next.to].map((day) => momentOfDay(day, zone)) as [Moment, Moment, Moment];
  return { time: end === 'time' ? time : end === 'from' ? from : to, from, to, isExpected: true };
}

/**
 * The milestone of a clutch that an anchor is the time of, or an end of whose window it is. A mouthbrooder's fry are
 * hatched and swim when they are released, a livebearer's when they are dropped.
 */
export function anchoredMilestone({ study: { ladder }, timeline }: Pick<StudiedClutch, 'study' | 'timeline'>, anchor: Anchor): MilestoneTime | undefined {
  const { name } = partsOf(anchor);
  if (ladder === undefined) return undefined;
  if (name === 'first_feed') return timeline.firstFeed;
  const isBirth = name === 'hatched' || (name === 'free_swimming' && ladder.birth !== 'hatched');
  return timeline.of((isBirth ? ladder.birth : name) as Milestone);
}

export class ClutchSubject extends Thing {
  readonly #state: StudiedClutch;
  #last: ReadonlyMap<string, Moment> | undefined;

  constructor(state: StudiedClutch, view: PlanView) {
    super(view);
    this.#state = state;
  }

  override get feedsPerDay(): number | undefined {
    return this.#state.study.profile?.feeds_per_day;
  }

  override anchor(anchor: Anchor): Anchored | undefined {
    const { name, end } = partsOf(anchor);
    if (name === 'next_spawn') return this.#isInTheWay() ? anchoredNext(this.#next(), end, this.zone) : undefined;
    if (name === 'strip') return this.#strip();
    const milestone = anchoredMilestone(this.#state, anchor);
    return milestone === undefined ? undefined : anchoredAt(milestone, end);
  }

  #strip(): Anchored | undefined {
    const days = this.#state.study.profile?.strip_d;
    if (days === undefined) return undefined;
    return certainly(momentAt(this.#state.clutch.spawned.instant + days * DAY, this.zone));
  }

  #next(): NextSpawn | undefined {
    const { pair } = this.#state.clutch;
    return pair === undefined ? undefined : this.view.pair(pair)?.next;
  }

  /** Whether it is a brood of fry in the tank in which its parents will spawn again. */
  #isInTheWay(): boolean {
    const { clutch, study, timeline } = this.#state;
    const tank = clutch.pair === undefined ? undefined : this.view.records.pair(clutch.pair)?.tank;
    if (tank === undefined || !study.heads.stands.has(tank)) return false;
    const stage = stageAt(timeline, this.now)?.stage;
    return stage === 'free-swimming' || stage === 'juvenile';
  }

  override lastOf(events: readonly string[]): Moment | undefined {
    return latestOf(events, (this.#last ??= this.#lastByEvent()));
  }

  #lastByEvent(): ReadonlyMap<string, Moment> {
    const { entries, recorded } = this.#state.study;
    const last = new Map<string, Moment>();
    for (const { event, time } of entries) note(last, event, time);
    note(last, 'spawned', recorded.spawned.time);
    if (recorded.hatched !== undefined) note(last, 'hatched', recorded.hatched.time);
    if (recorded.freeSwimming !== undefined) note(last, 'free_swimming', recorded.freeSwimming.time);
    if (recorded.released !== undefined) note(last, 'released', recorded.released.time);
    return last;
  }

  override readonly isQuestion = (routine: Routine): boolean => isQuestionOf(routine, this.#state.study.ladder?.question);

  override readonly hangsOnQuestion = (routine: Routine): boolean => {
    if (routine.anchor === undefined || this.isQuestion(routine)) return false;
    if (!/^(hatched|released|first_feed|free_swimming|juvenile|sale_size)/.test(routine.anchor)) return false;
    const { study, timeline } = this.#state;
    const question = study.ladder?.question;
    if (question === undefined) return false;
    const asked = timeline.of(question);
    return asked?.basis !== 'recorded' && asked?.evidence === undefined && study.recorded.stripped === undefined;
  };

  override readonly isOver = ({ anchor }: Routine, due: Moment): boolean => {
    if (anchor === undefined) return false;
    const { name } = partsOf(anchor);
    const { study } = this.#state;
    if (name === 'first_feed') {
      return study.recorded.freeSwimming !== undefined || study.entries.some(({ event, time }) => (event === 'counted' || event === 'sold' || event === 'moved') && compareMoments(time, due) > 0);
    }
    const milestone = anchoredMilestone(this.#state, anchor);
    return milestone !== undefined && (milestone.evidence !== undefined || laterRecord(study, milestone.rung) !== undefined);
  };
}

export class PairSubject extends Thing {
  readonly #state: PairState;

  constructor(state: PairState, view: PlanView) {
    super(view);
    this.#state = state;
  }

  override anchor(anchor: Anchor): Anchored | undefined {
    const { name, end } = partsOf(anchor);
    if (name === 'next_spawn') return anchoredNext(this.#state.next, end, this.zone);
    const last = this.#state.lastSpawn?.spawned;
    return name !== 'spawned' || last === undefined ? undefined : certainly(last);
  }

  /** What happened to any of the pair's broods since it last spawned. */
  override lastOf(events: readonly string[]): Moment | undefined {
    const since = this.#state.lastSpawn?.spawned;
    const last = new Map<string, Moment>();
    if (since !== undefined) note(last, 'spawned', since);
    const { records } = this.view;
    // Without a log nothing else has happened, and the broods of a long register need not be looked for.
    if (!records.hasClutchLogs) return latestOf(events, last);
    for (const spawn of this.#state.spawns) {
      for (const { event, time } of records.entriesOf(spawn)) {
        if (since !== undefined && compareMoments(time, since) >= 0 && !isFuture(time, this.now)) note(last, event, time);
      }
    }
    return latestOf(events, last);
  }
}

export class TankSubject extends Thing {
  readonly #tank: Tank;

  constructor(tank: Tank, view: PlanView) {
    super(view);
    this.#tank = tank;
  }

  override anchor(anchor: Anchor): Anchored | undefined {
    const last = anchor === 'reading' ? this.lastOf(['tested']) : anchor === 'change' ? this.lastOf(['water_change']) : undefined;
    return last === undefined ? undefined : certainly(last);
  }

  override lastOf(events: readonly string[]): Moment | undefined {
    let last: Moment | undefined;
    for (const where of ['onWater', 'in'] as const) {
      const names = events.filter((event) => toWater.has(event) === (where === 'onWater'));
      if (names.length === 0) continue;
      for (const { event, time } of this.view.records.tankEventsOf(this.#tank.tank, where)) {
        if (names.includes(event) && !isFuture(time, this.now) && (last === undefined || compareMoments(time, last) >= 0)) last = time;
      }
    }
    return last;
  }
}

export class OrderSubject extends Thing {
  readonly #row: Row;

  constructor(row: Row, view: PlanView) {
    super(view);
    this.#row = row;
  }

  override anchor(anchor: Anchor): Anchored | undefined {
    const due = anchor === 'due' ? (valueOf(this.#row, 'orders', 'due') as Moment | undefined) : undefined;
    return due === undefined ? undefined : certainly(due);
  }

  /** Orders have no log. */
  override lastOf(): undefined {
    return undefined;
  }
}

function note(last: Map<string, Moment>, event: string, time: Moment): void {
  const known = last.get(event);
  if (known === undefined || compareMoments(time, known) >= 0) last.set(event, time);
}

function latestOf(events: readonly string[], last: ReadonlyMap<string, Moment>): Moment | undefined {
  let latest: Moment | undefined;
  for (const event of events) {
    const time = last.get(event);
    if (time !== undefined && (latest === undefined || compareMoments(time, latest) > 0)) latest = time;
  }
  return latest;
}
