import assert from 'node:assert/strict';
import type { Act, ActResult } from '../../src/acts/act';
import { textOf } from '../../src/base/messages';
import { Plan } from '../../src/planner/plan';
import { berlin } from './moments';
import { mended, textsOf } from './plans';
import type { RoomFiles } from './room';
import { roomOf } from './room';

/** The texts of a room's files after an act at a moment. Fails where the act is refused. */
export function textsAfter(files: RoomFiles, now: string, act: Act): Readonly<Record<string, string>> {
  const plan = roomOf(files, now);
  return textsOfResult(plan, act(plan));
}

/** The same for a result of a plan. */
export function textsOfResult(plan: Plan, result: ActResult): Readonly<Record<string, string>> {
  assert.equal(result.kind, 'edits', result.kind === 'refused' ? textOf(result.why) : '');
  return mended(textsOf(plan), { title: { code: 'fix.end', args: [] }, safe: false, edits: (result).edits });
}

/** Why an act is refused at a moment, in English. */
export function refusalOf(files: RoomFiles, now: string, act: Act): string {
  const result = act(roomOf(files, now));
  assert.equal(result.kind, 'refused');
  return textOf((result).why);
}

/** The plan of some texts made afresh at an instant, in Berlin. */
export function planOf(texts: Readonly<Record<string, string>>, now: number): Plan {
  const plan = new Plan({ machineZone: berlin, now });
  plan.apply(Object.entries(texts).map(([path, text]) => ({ path, file: { text } })));
  return plan;
}

/** The lines that an act adds to a file. */
export function linesAdded(files: RoomFiles, now: string, { act, path }: { readonly act: Act; readonly path: string }): readonly string[] {
  const before = textsOf(roomOf(files, now))[path] ?? '';
  const after = textsAfter(files, now, act)[path] ?? '';
  assert.ok(after.startsWith(before), `${path} is changed elsewhere: ${after}`);
  return after.slice(before.length).split(/\r\n|\n/).filter((line) => line !== '');
}
