import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { formatMoment } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { isImpossible } from '../../domain/ladder';
import type { Milestone, Stage } from '../../domain/ladder';
import type { Occurrence } from '../../domain/routines';
import type { ClutchEvent } from '../../domain/things';
import { stageAt } from '../../domain/timeline';
import type { Agenda } from '../../planner/agenda';
import { dueText } from '../../planner/columns/agenda';
import type { ClutchState, PlanView } from '../../planner/states';
import { clutchIn, textIn, valueIn } from './asked';
import type { Asked } from './asked';
import type { Suggestion } from './suggestion';

interface Fit {
  /** Lower ones stand first. */
  readonly rank: number;
  readonly beside: readonly Message[];
}

/** Days within which a thing to do and a row belong together. */
const SOON = 3;

const PLAIN: Fit = { rank: 4, beside: [] };

/** What mostly happens at a stage; common practice, no source. */
const usual: Readonly<Record<Exclude<Stage, 'ended'>, readonly ClutchEvent[]>> = {
  egg: ['checked', 'fungus', 'hatched', 'moved', 'treated', 'ended'],
  holding: ['checked', 'stripped', 'released', 'moved', 'ended'],
  wriggler: ['checked', 'free_swimming', 'first_feed', 'moved', 'lost', 'ended'],
  'free-swimming': ['fed', 'counted', 'moved', 'lost', 'measured', 'first_feed', 'culled'],
  juvenile: ['counted', 'measured', 'moved', 'lost', 'culled', 'kept', 'sold'],
  'sale-size': ['sold', 'kept', 'counted', 'measured', 'lost', 'joined', 'ended'],
};

/**
 * Events in the order in which they are likely: what is due, the next milestones, what is usual at the stage, all others; last
 * those that are recorded already. What can't happen with this species isn't there.
 */
export function eventsFitting(asked: Asked): readonly Suggestion[] {
  const words = asked.cell.field?.constraints.enum ?? [];
  const sheet = asked.cell.file.schema.name;
  const isOfClutch = sheet === 'clutch-log' || sheet === 'log';
  const state = isOfClutch ? clutchIn(asked) : undefined;
  const care = state?.study.profile?.care;
  const possible = care === undefined ? words : words.filter((event) => !isImpossible(event as ClutchEvent, care));
  const fitOf = isOfClutch ? clutchFit(asked, state) : tankFit(asked);
  return possible
    .map((value) => ({ value, fit: fitOf(value) }))
    .sort((a, b) => a.fit.rank - b.fit.rank)
    .map(({ value, fit }) => ({ value, kind: 'event', beside: fit.beside }));
}

function tankFit(asked: Asked): (event: string) => Fit {
  const { view } = asked.plan;
  const tank = asked.cell.file.thing ?? textIn(asked, 'tank');
  const agenda = tank === undefined ? undefined : view.tankAgenda(tank);
  return (event) => dueFit(event, agenda, view) ?? PLAIN;
}

function clutchFit(asked: Asked, state: ClutchState | undefined): (event: string) => Fit {
  // The register says when it was.
  const spawned: Fit = { rank: 9, beside: [] };
  if (state === undefined) return (event) => (event === 'spawned' ? spawned : PLAIN);
  const { view } = asked.plan;
  const at = (valueIn(asked, 'time') as Moment | undefined) ?? view.now;
  // What is due now was not when an older row was written.
  const isNow = view.now.day - at.day < SOON;
  const stage = stageAt(state.timeline, at)?.stage;
  const likely = stage === undefined || stage === 'ended' ? [] : usual[stage];
  const coming = nextMilestones(state);
  return (event) => {
    if (event === 'spawned') return spawned;
    const recorded = recordedAt(state, event, asked);
    if (recorded !== undefined) return { rank: 8, beside: [say('beside.recorded', shownMoment(recorded, view))] };
    const due = isNow ? dueFit(event, state.agenda, view) : undefined;
    if (due !== undefined) return due;
    const expected = coming.get(event);
    if (expected !== undefined) return { rank: 2, beside: [say('beside.expected', shownMoment(expected, view))] };
    const place = likely.indexOf(event as ClutchEvent);
    return place < 0 ? PLAIN : { rank: 3 + place / 100, beside: [] };
  };
}

/** An event that an open routine waits for, with what is to be done. */
function dueFit(event: string, agenda: Agenda | undefined, view: PlanView): Fit | undefined {
  const waiting = (state: Occurrence['state']): Occurrence | undefined =>
    agenda?.occurrences.find((occurrence) => occurrence.state === state && occurrence.routine.doneBy.includes(event));
  const overdue = waiting('overdue');
  if (overdue !== undefined) return { rank: 0, beside: [say('beside.overdue', overdue.routine.action)] };
  const due = waiting('due');
  if (due !== undefined) return { rank: 1, beside: [say('beside.due', due.routine.action)] };
  const next = agenda?.next;
  if (next?.state !== 'upcoming' || !next.routine.doneBy.includes(event) || next.due.day - view.now.day >= SOON) return undefined;
  return { rank: 2.5, beside: [say('beside.upcoming', next.routine.action, dueText(next.due, next, view.zone).replace('T', ' '))] };
}

const asMilestone: Readonly<Partial<Record<string, Milestone>>> = { hatched: 'hatched', free_swimming: 'free_swimming', released: 'released' };

/** The first milestone of the ladder that isn't recorded, and the first feed once they are out. */
function nextMilestones({ timeline, study }: ClutchState): ReadonlyMap<string, Moment> {
  const next = new Map<string, Moment>();
  if (timeline.ended !== undefined) return next;
  const open = timeline.milestones.find((milestone) => milestone !== undefined && asMilestone[milestone.rung.milestone] !== undefined && milestone.basis === 'expected');
  if (open !== undefined) next.set(open.rung.milestone, open.time);
  const { firstFeed } = timeline;
  const birth = study.ladder === undefined ? undefined : timeline.of(study.ladder.birth);
  if (firstFeed?.basis === 'expected' && birth?.basis === 'recorded') next.set('first_feed', firstFeed.time);
  return next;
}

/** When a milestone was recorded, by another row than the asked one. */
function recordedAt({ study: { recorded } }: ClutchState, event: string, { cell }: Asked): Moment | undefined {
  const records = { hatched: recorded.hatched, free_swimming: recorded.freeSwimming, released: recorded.released, first_feed: recorded.firstFeed, ended: recorded.ended };
  const record = records[event as keyof typeof records];
  return record === undefined || (record.entry !== undefined && record.entry.row === cell.row) ? undefined : record.time;
}

function shownMoment(moment: Moment, { zone }: PlanView): string {
  return formatMoment(moment, zone).replace('T', ' ');
}
