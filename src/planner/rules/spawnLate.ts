import { say } from '../../base/messages';
import { formatDay } from '../../base/moment';
import type { Found } from '../found';
import type { PairState, PlanView } from '../states';

/** A pair whose next spawn is past its window. */
export function spawnLate({ pair, next }: PairState, view: PlanView): readonly Found[] {
  if (next === undefined || view.now.day <= next.to) return [];
  return [
    {
      row: pair.row,
      owner: pair.row,
      header: undefined,
      code: 'spawn-late',
      message: say('spawn-late', formatDay(next.last.spawned.day), formatDay(next.to), view.now.day - next.to),
      related: [],
    },
  ];
}
