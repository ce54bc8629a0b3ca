import { compareMoments } from '../base/moment';
import type { Moment } from '../base/moment';
import { comingOf } from '../domain/coming';
import type { Stage } from '../domain/ladder';
import type { MilestoneTime } from '../domain/timeline';
import type { Row } from '../records/row';
import type { ClutchMemory } from './clutchMemory';
import type { PlanView } from './states';

/** A stage of a brood, from the milestone at which it begins. */
export interface LifeStage {
  readonly stage: Stage;
  readonly begins: Moment;
  /** The window in which it begins, cut off below at now where that is still to come; of a recorded milestone `begins` itself. */
  readonly from: Moment;
  readonly to: Moment;
  readonly basis: 'recorded' | 'expected';
}

/** A brood as it lies in time. */
export interface ClutchLife {
  readonly clutch: string;
  readonly pair: string;
  readonly species: string;
  /** Where it stands, of an ended one where it stood last; of several the first. */
  readonly tank: string;
  readonly tanks: readonly string[];
  /** In order; each lasts until the next begins. */
  readonly stages: readonly LifeStage[];
  readonly ended: Moment | undefined;
  /** Nobody knows whether it still lives: what would have come after isn't among the stages. */
  readonly isUnanswered: boolean;
  readonly row: Row;
}

/**
 * The broods that live, or are expected to, on some of the days from `first` to `last` (days since 1970-01-01), as they are written. Of a
 * long register those that ended before cost next to nothing.
 */
export function livesBetween({ first, last }: { readonly first: number; readonly last: number }, memories: Iterable<ClutchMemory>, view: PlanView): readonly ClutchLife[] {
  const lives: ClutchLife[] = [];
  for (const memory of memories) {
    const { clutch, species, row, endedDay } = memory;
    // Of a brood that is long gone nothing has to be worked out.
    if (clutch.spawned.day > last || (endedDay !== undefined && endedDay < first)) continue;
    const { study } = memory;
    const standing = [...study.heads.stands.keys()];
    const tanks = standing.length > 0 ? standing : [study.stay.moves.at(-1)?.to ?? clutch.tank];
    lives.push({
      clutch: clutch.clutch,
      pair: clutch.pair ?? '',
      species: species ?? '',
      tank: tanks[0] ?? '',
      tanks,
      stages: stagesOf(memory, view),
      ended: memory.timeline.ended?.time,
      isUnanswered: memory.timeline.unanswered,
      row,
    });
  }
  return lives;
}

/** Nobody sees these begin and writes it down, so that there is no record of them doesn't say that they are still to come. */
const isUnseen: ReadonlySet<Stage> = new Set<Stage>(['juvenile', 'sale-size']);

function stagesOf({ study, timeline }: ClutchMemory, view: PlanView): readonly LifeStage[] {
  const { stripped, ended } = timeline;
  const stages: LifeStage[] = [];
  for (const milestone of timeline.milestones) {
    if (milestone === undefined || (ended !== undefined && compareMoments(milestone.time, ended.time) > 0)) continue;
    if (timeline.unanswered && milestone.basis === 'expected' && milestone.evidence === undefined) continue;
    const { rung, basis } = milestone;
    // What has not been seen yet can't have been before now. Only the question stays open until it is answered: that fry swim free nobody need write down, so once its window is over, it has been.
    const isOpen = rung.milestone === study.ladder?.question || compareMoments(milestone.to, view.now) >= 0;
    const coming = ended === undefined && isOpen && !isUnseen.has(rung.stage) ? comingOf(milestone, timeline, view) : undefined;
    const { from, expected, to } = coming ?? asItStands(milestone);
    stages.push({ stage: rung.stage, begins: expected, from, to, basis });
    if (rung.stage === 'holding' && stripped !== undefined && compareMoments(stripped.time, milestone.time) >= 0) {
      stages.push({ stage: 'wriggler', begins: stripped.time, from: stripped.time, to: stripped.time, basis: 'recorded' });
    }
  }
  return stages.sort((a, b) => a.begins.instant - b.begins.instant);
}

function asItStands({ from, time, to }: MilestoneTime): { readonly from: Moment; readonly expected: Moment; readonly to: Moment } {
  return { from, expected: time, to };
}
