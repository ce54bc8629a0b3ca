import { compareMoments, momentAt, momentOfDay } from '../base/moment';
import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import { durationOf, laterRecord, recordOf } from './clutchStudy';
import type { ClutchStudy } from './clutchStudy';
import { DAY, HOUR } from './ladder';
import type { Milestone, Rung, Stage } from './ladder';
import type { Quantity, Window } from './learning';
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
}

export interface StageAt {
  readonly stage: Stage;
  readonly basis: 'recorded' | 'expected' | 'unanswered' | undefined;
}

/** How long after the window of the ladder's question a brood counts as unanswered (common practice). */
const ANSWER_GRACE = 48 * HOUR;

/** When each milestone was or will be, and how sure that is. `learn` gives the window that the pair's other clutches teach. */
export function timelineOf(study: ClutchStudy, learn: (quantity: Quantity) => LearnedWindow, zone: Zone): Timeline {
  const milestones: (MilestoneTime | undefined)[] = [];
  const rungs = study.ladder?.rungs ?? [];
  for (const rung of rungs) {
    const record = recordOf(rung.milestone, study.recorded);
    if (record !== undefined) {
      const { time } = record;
      milestones.push({ rung, time, from: time, to: time, basis: 'recorded', record, model: undefined, learned: undefined, evidence: undefined });
      continue;
    }
    const base = milestones.find((milestone) => milestone?.rung.milestone === rung.after);
    milestones.push(expected(study, rung, base, { learn, zone }));
  }
  const { ended, stripped } = study.recorded;
  return { milestones, stripped, ended, unanswered: isUnanswered(study, milestones) };
}

export function milestoneOf(timeline: Timeline, milestone: Milestone): MilestoneTime | undefined {
  return timeline.milestones.find((found) => found?.rung.milestone === milestone);
}

/** The stage at a moment, by what is known now: that of the last milestone, in ladder order, whose time has come. */
export function stageAt(timeline: Timeline, at: Moment): StageAt | undefined {
  if (timeline.ended !== undefined && compareMoments(timeline.ended.time, at) <= 0) return { stage: 'ended', basis: undefined };
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
  base: MilestoneTime | undefined,
  { learn, zone }: { readonly learn: (quantity: Quantity) => LearnedWindow; readonly zone: Zone },
): MilestoneTime | undefined {
  const evidence = evidenceFor(study, rung);
  const result = { rung, basis: 'expected' as const, record: undefined, evidence };
  const days = rung.embryonic || rung.duration === undefined ? undefined : study.profile?.[rung.duration];
  const model = base !== undefined && rung.embryonic ? durationOf(study, rung, base.time) : undefined;
  if (base === undefined || (days === undefined && model === undefined)) {
    // Nothing to reckon from: what was seen is all that bounds it.
    return evidence === undefined
      ? undefined
      : { ...result, time: evidence, from: evidence, to: evidence, model: undefined, learned: undefined };
  }
  const start = base.time.instant;
  if (model === undefined) {
    const learned = rung.quantity === undefined ? undefined : learn(rung.quantity);
    const ms = (days as number) * DAY;
    // Growth is learned as a speed: the slow tenth of speeds gives the late end of the window.
    const at = (speed: number): Moment => {
      const moment = momentAt(start + ms / speed, zone);
      return rung.quantity === 'growth' ? momentOfDay(moment.day, zone) : moment;
    };
    return {
      ...result,
      time: at(learned?.expected ?? 1),
      from: at(learned?.to ?? 1),
      to: at(learned?.from ?? 1),
      model: undefined,
      learned,
    };
  }
  const learned = learn(rung.quantity as Quantity);
  const at = (factor: number): Moment => noLater(momentAt(start + model.ms * factor, zone), evidence);
  return { ...result, time: at(learned.expected), from: at(learned.from), to: at(learned.to), model, learned };
}

/** The earliest moment at which the records show that a milestone was past. */
function evidenceFor(study: ClutchStudy, rung: Rung): Moment | undefined {
  const later = laterRecord(study, rung);
  const row = rung.milestone === study.ladder?.question ? study.recorded.evidence?.time : undefined;
  if (later === undefined || row === undefined) return later ?? row;
  return later.instant < row.instant ? later : row;
}

function noLater(moment: Moment, cap: Moment | undefined): Moment {
  return cap !== undefined && compareMoments(moment, cap) > 0 ? { ...cap, bare: false, about: false } : moment;
}

function isUnanswered(study: ClutchStudy, milestones: readonly (MilestoneTime | undefined)[]): boolean {
  const question = study.ladder?.question;
  if (question === undefined || study.recorded.ended !== undefined || study.recorded.stripped !== undefined) return false;
  const asked = milestones.find((milestone) => milestone?.rung.milestone === question);
  if (asked === undefined || asked.basis === 'recorded' || asked.evidence !== undefined) return false;
  return study.now.instant > asked.to.instant + ANSWER_GRACE;
}
