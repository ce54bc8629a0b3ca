import { applyEdits } from '../../src/base/textEdit';
import type { Fix } from '../../src/planner/problem';
import type { Plan } from '../../src/planner/plan';

/** All that a file's diagnostics show of its problems, and its fills: one line each. */
export function shownOf(plan: Plan, path: string): string {
  const problems = plan.problems(path).map(({ file, code, severity, message, span, related }) => JSON.stringify([file, code, severity, message, span, related]));
  return [...problems, ...[false, true].map((overwrite) => JSON.stringify(plan.fills(path, { overwrite })))].join('\n');
}

/** The ways to mend a file's problems, with their edits: one line each. */
export function fixesOf(plan: Plan, path: string): string {
  return plan.problems(path).map(({ code, fixes }) => JSON.stringify([code, fixes])).join('\n');
}

/** The texts of all files of a plan. */
export function textsOf(plan: Plan): Readonly<Record<string, string>> {
  return Object.fromEntries([...plan.records.files()].map(({ path, doc }) => [path, doc.text()]));
}

/** The texts after a fix. */
export function mended(texts: Readonly<Record<string, string>>, fix: Fix): Readonly<Record<string, string>> {
  const after = { ...texts };
  for (const edit of fix.edits) after[edit.file] = 'create' in edit ? edit.create : applyEdits(after[edit.file] ?? '', edit.edits);
  return after;
}

/** The texts after all computed cells have been filled, those that were kept by hand too. */
export function filled(plan: Plan): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(textsOf(plan)).map(([path, text]) => [path, applyEdits(text, plan.fills(path, { overwrite: true }).changes.flatMap(({ edits }) => edits))]),
  );
}
