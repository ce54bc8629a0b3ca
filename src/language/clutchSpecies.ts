import type { Plan } from '../planner/plan';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';

/** The species of a clutch's row, else that of its pair, also where too little of the row can be read for a clutch. */
export function clutchSpecies(plan: Plan, row: Row): string | undefined {
  const pair = valueOf(row, 'clutches', 'pair') as string | undefined;
  return (valueOf(row, 'clutches', 'species') as string | undefined) ?? (pair === undefined ? undefined : plan.records.pair(pair)?.species);
}
