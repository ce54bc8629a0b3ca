import { NodeFileStore } from '../../src/cli/nodeFileStore';
import { findFishrooms } from '../../src/records/discovery';
import { readAll } from '../../src/records/load';
import { Plan } from '../../src/planner/plan';
import { berlin, moment } from './moments';

/** The moment for which the samples are written. */
export const samplesNow = moment('2026-06-10T09:00');

/** The plan of one of the fishrooms in samples/, at the moment for which they are written. */
export async function sampleRoom(name: 'three-rooms' | 'messy' | 'smallest'): Promise<Plan> {
  const store = new NodeFileStore(`${process.cwd()}/samples/${name}`);
  const [fishroom] = await findFishrooms(store);
  if (fishroom === undefined) throw new Error(`samples/${name} is no fishroom`);
  const plan = new Plan({ machineZone: berlin, now: samplesNow.instant });
  plan.apply(await readAll(store, fishroom));
  return plan;
}

/** Adds every computed column that a file doesn't have, and fills all. */
export function fillAll(plan: Plan): Plan {
  for (const { path } of [...plan.records.files()]) {
    plan.apply([{ path, edits: plan.missingColumns(path) }]);
    plan.apply([{ path, edits: plan.fills(path, { overwrite: true }).changes.flatMap(({ edits }) => edits) }]);
  }
  return plan;
}
