import { say } from '../../base/messages';
import { aliveOf } from '../../domain/headcount';
import type { Found } from '../found';
import type { ClutchState } from '../states';

/** More fish than eggs. */
export function countDoubtful({ study, clutch, row }: ClutchState): readonly Found[] {
  const { heads } = study;
  const alive = aliveOf(heads.stands).count;
  if (clutch.eggs === undefined) return [];
  const fish = (alive ?? 0) + heads.sold + heads.kept;
  if (fish <= clutch.eggs.value) return [];
  return [{ row, owner: row, header: 'eggs', code: 'count-doubtful', message: say('count-doubtful', fish, clutch.eggs.value), related: [] }];
}
