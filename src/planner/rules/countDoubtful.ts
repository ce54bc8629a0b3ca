import { say } from '../../base/messages';
import type { Found } from '../found';
import { NOTHING } from '../foundProblems';
import type { ClutchState } from '../states';

/** More fish than eggs. */
export function countDoubtful({ study, clutch, row }: ClutchState): readonly Found[] {
  const { heads } = study;
  if (clutch.eggs === undefined) return NOTHING;
  const fish = (heads.alive.count ?? 0) + heads.sold + heads.kept;
  if (fish <= clutch.eggs.value) return NOTHING;
  return [{ row, owner: row, header: 'eggs', code: 'count-doubtful', message: say('count-doubtful', fish, clutch.eggs.value), related: [] }];
}
