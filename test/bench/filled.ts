import { applyEdits } from '../../src/base/textEdit';
import { parseMoment } from '../../src/base/moment';
import { zoneOf } from '../../src/base/zone';
import type { Zone } from '../../src/base/zone';
import { Plan } from '../../src/planner/plan';
import { benchNow, benchZone } from './house';

/** A plan of a fishroom's texts at the moment they were made for. */
export function planOf(texts: ReadonlyMap<string, string>): Plan {
  const zone = zoneOf(benchZone) as Zone;
  const now = parseMoment(benchNow, zone);
  if (now === undefined) throw new Error(`${benchNow} is no moment`);
  const plan = new Plan({ machineZone: zone, now: now.instant });
  plan.apply([...texts].map(([path, text]) => ({ path, file: { text } })));
  return plan;
}

/** The same texts with their computed cells filled. */
export function filled(texts: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  const plan = planOf(texts);
  const result = new Map(texts);
  for (const path of plan.paths()) {
    const edits = plan.fills(path).changes.flatMap((change) => change.edits);
    if (edits.length > 0) result.set(path, applyEdits(texts.get(path) as string, edits));
  }
  return result;
}
