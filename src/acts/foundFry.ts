import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { compareMoments } from '../base/moment';
import type { Moment } from '../base/moment';
import { Draft } from '../planner/draft';
import { logPlaceOf } from '../planner/logRow';
import type { Plan } from '../planner/plan';
import type { ClutchState } from '../planner/states';
import { drafted, momentText, refused, timeOfAnswer } from './act';
import type { Act } from './act';

export interface Found {
  readonly clutch: string;
  readonly what: 'wrigglers' | 'fry';
  /** When they were seen; now where it isn't said. */
  readonly time?: string | undefined;
}

/** A milestone that follows of what was found, and about when it must have been. */
interface Milestone {
  readonly event: 'hatched' | 'free_swimming' | 'released';
  readonly time: Moment;
}

/** Broods of which that is still to be found: the longest awaited first. */
export function mayBeFound(what: Found['what'], { view }: Plan): readonly ClutchState[] {
  const found = view.openClutches().filter((state) => milestonesOf(state, what, view.now).length > 0);
  return [...found].sort((a, b) => compareMoments(a.clutch.spawned, b.clutch.spawned));
}

/** "Found wrigglers or fry": nobody saw it happen, so the moments are written as about, and nothing is learned from them. */
export function foundFry({ clutch, what, time }: Found): Act {
  return (plan) => {
    const state = plan.view.clutch(clutch);
    if (state === undefined || state.timeline.ended !== undefined) return refused(say('act.refused.no-clutch', clutch));
    const when = timeOfAnswer(time, plan);
    if ('fault' in when) return refused(when.fault);
    const milestones = milestonesOf(state, what, when.time);
    if (milestones.length === 0) return refused(state.study.ladder?.question === undefined ? say('act.refused.born', clutch) : say('act.refused.not-due'));
    const draft = new Draft(plan.records);
    const cells = milestones.map(({ event, time: at }) => ({ event, time: momentText({ ...at, about: true }, plan) }));
    const fault = write(draft, state, { cells, plan });
    return fault === undefined ? drafted(draft, [clutch, ...cells.map((cell) => `${cell.event} ${cell.time}`)]) : refused(fault);
  };
}

/** Those that aren't recorded. When fry swim that nobody saw hatch, they hatched when it was to be expected. */
function milestonesOf({ study, timeline, clutch }: ClutchState, what: Found['what'], seen: Moment): readonly Milestone[] {
  const { question } = study.ladder ?? {};
  const { recorded } = study;
  if (question === undefined) return [];
  if (question === 'released') return what === 'fry' && recorded.released === undefined ? [{ event: 'released', time: seen }] : [];
  const milestones: Milestone[] = [];
  if (recorded.hatched === undefined) {
    const expected = timeline.of('hatched')?.time;
    const isBefore = what === 'fry' && expected !== undefined && compareMoments(expected, seen) < 0 && compareMoments(expected, clutch.spawned) > 0;
    milestones.push({ event: 'hatched', time: isBefore ? expected : seen });
  }
  if (what === 'fry' && recorded.freeSwimming === undefined) milestones.push({ event: 'free_swimming', time: seen });
  return what === 'wrigglers' && recorded.freeSwimming !== undefined ? [] : milestones;
}

/** Into the log; a room that keeps none has them in its register. */
function write(draft: Draft, { row, clutch }: ClutchState, { cells, plan }: { readonly cells: readonly { readonly event: string; readonly time: string }[]; readonly plan: Plan }): Message | undefined {
  const { records } = plan;
  const place = logPlaceOf({ kind: 'clutch', id: clutch.clutch }, records);
  const keepsLogs = place.kind === 'there' || [...records.files()].some(({ schema }) => schema.name === 'clutch-log');
  const columns = records.file(row.path)?.header.columnOf;
  if (!keepsLogs && cells.every(({ event }) => columns?.has(event) === true)) return draft.set(row, Object.fromEntries(cells.map(({ event, time }) => [event, time])));
  for (const { event, time } of cells) {
    const fault = draft.log(place, { time, event });
    if (fault !== undefined) return fault;
  }
  return undefined;
}
