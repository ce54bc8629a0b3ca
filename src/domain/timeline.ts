import { compareMoments, momentAt, momentOfDay } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { durationOf, laterRecord, recordOf } from './clutchStudy';
import type { ClutchStudy } from './clutchStudy';
import { DAY, HOUR } from './ladder';
import type { Milestone, Rung, Stage } from './ladder';
import type { Quantity, Window } from './learning';
import { ownGrowth } from './measurements';
import type { RecordedMoment } from './recorded';
import type { ModelDuration } from './temperature';

/** A milestone with its 80 % window. Of a recorded one, the window is the record itself. */
export interface MilestoneTime {
  readonly rung: Rung;
  readonly time: Moment;
  readonly from: Moment;
  readonly to: Moment;
  readonly basis: 'recorded' | 'expected';
  readonly record: RecordedMoment | undefined;
  /** Of an expected one: the duration by the model, what was learned, and the evidence that it is no later. */
  readonly model: ModelDuration | undefined;
  readonly learned: LearnedWindow | undefined;
  readonly evidence: Moment | undefined;
  /** Of an expected one: how long it takes by the model alone, in ms; undefined where nothing but evidence bounds it. */
  readonly modelMs: number | undefined;
}

/** Multipliers of a model duration at the 10, 50 and 90 % quantiles, learned from `n` observations. */
export interface LearnedWindow extends Window {
  readonly n: number;
}

export interface Timeline {
  /** One for each rung of the ladder, in its order; undefined where nothing can be expected. */
  readonly milestones: readonly (MilestoneTime | undefined)[];
  /** A `stripped` row's moment: from it to the release the brood are wrigglers. */
  readonly stripped: RecordedMoment | undefined;
  readonly ended: RecordedMoment | undefined;
  /** Nobody knows whether the brood lives: the ladder's question is past its window and has no answer. */
  readonly unanswered: boolean;
  /** A milestone of the ladder; undefined where it has none of that name or nothing can be expected. */
  of(milestone: Milestone): MilestoneTime | undefined;
  /** When the yolk is gone and the first food must be there: the recorded event, else expected after the hatch, or the birth itself. */
  readonly firstFeed: MilestoneTime | undefined;
}

export interface StageAt {
  readonly stage: Stage;
  readonly basis: 'recorded' | 'expected' | 'unanswered' | undefined;
}

/** The end of the year 9999: no calendar of the records goes further, whatever a species' numbers say. */
export const LAST_INSTANT = 253_402_300_799_000;

/** How long after the window of the ladder's question a brood counts as unanswered (common practice). */
const ANSWER_GRACE = 48 * HOUR;

/** What the pair's other clutches teach a clutch about a quantity; of growth, what it shows itself (`own`) counts too. */
export type Learn = (study: ClutchStudy, quantity: Quantity, own?: number) => LearnedWindow;

/** When each milestone was or will be, and how sure that is; each is worked out when it is first asked for. */
export function timelineOf(study: ClutchStudy, learn: Learn, zone: Zone): Timeline {
  return new StudiedTimeline(study, learn, zone);
}

/** The same of one brood after the other in one object, so that nobody may keep what it gives. */
export class PassingTimelines {
  readonly #learn: Learn;
  #timeline: StudiedTimeline | undefined;

  constructor(learn: Learn) {
    this.#learn = learn;
  }

  of(study: ClutchStudy, zone: Zone): Timeline {
    if (this.#timeline === undefined) this.#timeline = new StudiedTimeline(study, this.#learn, zone);
    else this.#timeline.turnTo(study, zone);
    return this.#timeline;
  }
}

class StudiedTimeline implements Timeline {
  #study: ClutchStudy;
  readonly #learn: Learn;
  #zone: Zone;
  /** A place for each rung of the longest ladder; a list that grows place by place takes several times as much. */
  readonly #known: (MilestoneTime | 'none' | undefined)[] = [undefined, undefined, undefined, undefined, undefined];
  #unanswered: boolean | undefined;
  #firstFeed: MilestoneTime | 'none' | undefined;

  constructor(study: ClutchStudy, learn: Learn, zone: Zone) {
    this.#study = study;
    this.#learn = learn;
    this.#zone = zone;
  }

  turnTo(study: ClutchStudy, zone: Zone): void {
    this.#study = study;
    this.#zone = zone;
    // `fill` takes five times as long.
    for (let place = 0; place < this.#known.length; place++) this.#known[place] = undefined;
    this.#unanswered = undefined;
    this.#firstFeed = undefined;
  }

  get milestones(): readonly (MilestoneTime | undefined)[] {
    return (this.#study.ladder?.rungs ?? []).map((rung, i) => this.#at(rung, i));
  }

  get stripped(): RecordedMoment | undefined {
    return this.#study.recorded.stripped;
  }

  get ended(): RecordedMoment | undefined {
    return this.#study.recorded.ended;
  }

  get unanswered(): boolean {
    return (this.#unanswered ??= this.#isUnanswered());
  }

  of(milestone: Milestone): MilestoneTime | undefined {
    const rungs = this.#study.ladder?.rungs ?? [];
    for (let i = 0; i < rungs.length; i++) {
      const rung = rungs[i] as Rung;
      if (rung.milestone === milestone) return this.#at(rung, i);
    }
    return undefined;
  }

  get firstFeed(): MilestoneTime | undefined {
    const known = (this.#firstFeed ??= this.#workOutFirstFeed() ?? 'none');
    return known === 'none' ? undefined : known;
  }

  #workOutFirstFeed(): MilestoneTime | undefined {
    const { ladder, recorded } = this.#study;
    if (ladder === undefined) return undefined;
    if (ladder.firstFeed !== undefined) return this.#workOut(ladder.firstFeed);
    const birth = this.of(ladder.birth);
    return recorded.firstFeed === undefined || birth === undefined ? birth : new Recorded(birth.rung, recorded.firstFeed);
  }

  #at(rung: Rung, place: number): MilestoneTime | undefined {
    const known = (this.#known[place] ??= this.#workOut(rung) ?? 'none');
    return known === 'none' ? undefined : known;
  }

  #workOut(rung: Rung): MilestoneTime | undefined {
    const record = recordOf(rung.milestone, this.#study.recorded);
    if (record !== undefined) return new Recorded(rung, record);
    const start = rung.after === undefined ? undefined : (recordOf(rung.after, this.#study.recorded)?.time ?? this.of(rung.after)?.time);
    return expected(this.#study, rung, start, { learn: this.#learn, zone: this.#zone });
  }

  #isUnanswered(): boolean {
    const { ladder, recorded, now } = this.#study;
    const question = ladder?.question;
    if (question === undefined || recorded.ended !== undefined) return false;
    if (question === 'released' && recorded.stripped !== undefined) return false;
    const asked = this.of(question);
    if (asked === undefined || asked.basis === 'recorded' || asked.evidence !== undefined) return false;
    return now.instant > asked.to.instant + ANSWER_GRACE;
  }
}

const ENDED: StageAt = { stage: 'ended', basis: undefined };

/** The stage at a moment, by what is known now: that of the last milestone, in ladder order, whose time has come. */
export function stageAt(timeline: Timeline, at: Moment): StageAt | undefined {
  if (timeline.ended !== undefined && compareMoments(timeline.ended.time, at) <= 0) return ENDED;
  let found: StageAt | undefined;
  for (const milestone of timeline.milestones) {
    if (milestone === undefined || compareMoments(milestone.time, at) > 0) continue;
    if (timeline.unanswered && milestone.basis === 'expected' && milestone.evidence === undefined) continue;
    found = { stage: milestone.rung.stage, basis: milestone.basis };
  }
  if (found?.stage === 'holding' && timeline.stripped !== undefined && compareMoments(timeline.stripped.time, at) <= 0) {
    found = { stage: 'wriggler', basis: 'recorded' };
  }
  if (found !== undefined && timeline.unanswered) return { stage: found.stage, basis: 'unanswered' };
  return found;
}

function expected(
  study: ClutchStudy,
  rung: Rung,
  start: Moment | undefined,
  { learn, zone }: { readonly learn: Learn; readonly zone: Zone },
): MilestoneTime | undefined {
  const days = rung.embryonic || rung.duration === undefined ? undefined : study.profile?.[rung.duration];
  const model = start !== undefined && rung.embryonic ? durationOf(study, rung, start) : undefined;
  if (start === undefined || (days === undefined && model === undefined)) {
    // Nothing to reckon from: what was seen is all that bounds it.
    const evidence = evidenceFor(study, rung);
    if (evidence === undefined) return undefined;
    const time = noEarlier(evidence, start);
    return { rung, basis: 'expected', record: undefined, evidence, time, from: time, to: time, model: undefined, learned: undefined, modelMs: undefined };
  }
  const own = rung.quantity === 'growth' ? ownGrowth(study, start)?.x : undefined;
  const learned = rung.quantity === undefined ? undefined : learn(study, rung.quantity, own);
  const reckoning: Reckoning = {
    start,
    modelMs: model?.ms ?? (days as number) * DAY,
    model,
    learned: rung.quantity === 'growth' ? slow(learned as LearnedWindow) : learned,
    evidence: model === undefined ? undefined : evidenceFor(study, rung),
  };
  return new Expected(rung, reckoning, zone);
}

/** Nearly all broods of a register learn the same of growth. */
let lastSlowed: { readonly learned: LearnedWindow; readonly slowed: LearnedWindow } | undefined;

/** Factors on a duration from factors on a speed: the slow tenth of speeds gives the late end of the window. */
function slow(learned: LearnedWindow): LearnedWindow {
  if (lastSlowed?.learned !== learned) {
    lastSlowed = { learned, slowed: { n: learned.n, from: 1 / learned.to, expected: 1 / learned.expected, to: 1 / learned.from } };
  }
  return lastSlowed.slowed;
}

class Recorded implements MilestoneTime {
  readonly rung: Rung;
  readonly record: RecordedMoment;
  readonly basis = 'recorded';
  readonly model = undefined;
  readonly learned = undefined;
  readonly evidence = undefined;
  readonly modelMs = undefined;

  constructor(rung: Rung, record: RecordedMoment) {
    this.rung = rung;
    this.record = record;
  }

  get time(): Moment {
    return this.record.time;
  }

  get from(): Moment {
    return this.record.time;
  }

  get to(): Moment {
    return this.record.time;
  }
}

interface Reckoning extends Pick<MilestoneTime, 'model' | 'learned' | 'evidence'> {
  readonly start: Moment;
  readonly modelMs: number;
}

/** Most windows are never looked at, so their ends are worked out when they are. */
class Expected implements MilestoneTime {
  readonly rung: Rung;
  readonly time: Moment;
  readonly basis = 'expected';
  readonly record = undefined;
  readonly model: ModelDuration | undefined;
  readonly learned: LearnedWindow | undefined;
  readonly evidence: Moment | undefined;
  readonly modelMs: number;
  readonly #start: Moment;
  readonly #zone: Zone;

  constructor(rung: Rung, { start, modelMs, model, learned, evidence }: Reckoning, zone: Zone) {
    this.rung = rung;
    this.model = model;
    this.learned = learned;
    this.evidence = evidence;
    this.modelMs = modelMs;
    this.#start = start;
    this.#zone = zone;
    this.time = this.#at(learned?.expected ?? 1);
  }

  get from(): Moment {
    return this.#at(this.learned?.from ?? 1);
  }

  get to(): Moment {
    return this.#at(this.learned?.to ?? 1);
  }

  /** Of sale size the day counts, not the hour. */
  #at(factor: number): Moment {
    const instant = Math.min(LAST_INSTANT, Math.round(this.#start.instant + this.modelMs * factor));
    if (this.rung.quantity === 'growth') return momentOfDay(this.#zone.dayOf(instant), this.#zone);
    const moment = momentAt(instant, this.#zone);
    return this.evidence !== undefined && compareMoments(moment, this.evidence) > 0 ? noEarlier(this.evidence, this.#start) : moment;
  }
}

/** The earliest moment at which the records show that a milestone was past; nothing is taken as evidence of the first feed. */
function evidenceFor(study: ClutchStudy, rung: Rung): Moment | undefined {
  if (rung.milestone === 'first_feed') return undefined;
  const later = laterRecord(study, rung);
  const row = rung.milestone === study.ladder?.question ? study.recorded.evidence?.time : undefined;
  if (later === undefined || row === undefined) return later ?? row;
  return later.instant < row.instant ? later : row;
}

/** The evidence, but where it stands before the milestone that all counts from (a slip of the pen) that milestone. */
function noEarlier(evidence: Moment, start: Moment | undefined): Moment {
  return start !== undefined && compareMoments(evidence, start) < 0 ? start : evidence;
}
