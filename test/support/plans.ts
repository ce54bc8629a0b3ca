import type { Zone } from '../../src/base/zone';
import { Plan } from '../../src/planner/plan';
import type { FileChange } from '../../src/records/records';
import { berlin, moment } from './moments';

/** Texts by path. */
export type Texts = Readonly<Record<string, string>>;

export interface Standpoint {
  /** A moment as it is written in a cell. */
  readonly now?: string;
  readonly zone?: Zone;
}

/** The plan of a fishroom that holds these files, at a moment on its machine's clock. */
export function planOf(texts: Texts, { now = '2026-06-10T09:00', zone = berlin }: Standpoint = {}): Plan {
  const plan = new Plan({ machineZone: zone, now: moment(now, zone).instant });
  plan.apply(changesTo(texts));
  return plan;
}

/** The files as whole new texts. */
export function changesTo(texts: Texts): readonly FileChange[] {
  return Object.entries(texts).map(([path, text]) => ({ path, file: { text } }));
}

/** All that a file's diagnostics show of its problems, and its fills: one line each. */
export function shownOf(plan: Plan, path: string): string {
  const problems = plan.problems(path).map(({ file, code, severity, message, span, related }) => JSON.stringify([file, code, severity, message, span, related]));
  return [...problems, ...[false, true].map((overwrite) => JSON.stringify(plan.fills(path, { overwrite })))].join('\n');
}

/** The ways to mend a file's problems, with their edits: one line each. */
export function fixesOf(plan: Plan, path: string): string {
  return plan.problems(path).map(({ code, fixes }) => JSON.stringify([code, fixes])).join('\n');
}
