import type { Act, ActResult, Answers } from '../acts/act';
import { done } from '../acts/done';
import { actedFiles, takeBack } from '../acts/takeBack';
import type { ActedFile } from '../acts/takeBack';
import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import { applyAct } from './applyAct';
import type { Fishrooms } from './fishrooms';
import { explainNothing, tell } from './keeper';
import type { OpenFishroom } from './openFishroom';

/** An act that was made, as far as it takes to take it back. */
interface Made {
  readonly room: OpenFishroom;
  readonly files: readonly ActedFile[];
  readonly told: Message;
}

/** The acts of this window that were not taken back, the last one last. */
const made: Made[] = [];
/** More of them nobody takes back. */
const MOST = 50;

/** What became of an act: what was written and where, or why nothing was. Nothing is told where the keeper would rather not. */
export interface Outcome {
  readonly isMade: boolean;
  readonly told: Message | undefined;
}

/** Makes an act, for who tells the outcome in a place of its own. */
export async function make(room: OpenFishroom, act: Act): Promise<Outcome> {
  const applied = await applyAct(room, act);
  if (applied.kind === 'not made') return { isMade: false, told: applied.why };
  const { result, texts, unsaved } = applied;
  made.push({ room, files: actedFiles(result.edits, (path) => texts.get(path) ?? ''), told: result.told });
  if (made.length > MOST) made.shift();
  return { isMade: true, told: toldOf(result, unsaved) };
}

/** Makes an act and tells what became of it; resolves to whether it was made. */
export async function perform(room: OpenFishroom, act: Act): Promise<boolean> {
  return tellOutcome(await make(room, act));
}

function tellOutcome({ isMade, told }: Outcome): boolean {
  if (told !== undefined) (isMade ? tell : explainNothing)(told);
  return isMade;
}

/** What a screen says of an entry that was done. */
export interface DoneEntry {
  /** The fishroom's folder, a URI as text. */
  readonly folder: string;
  /** That of the entry. */
  readonly key: string;
  /** One of the ways in which it can be done. */
  readonly way: string;
  readonly answers: Answers;
}

/** "Done" on an entry of a screen. Resolves to whether a row was written. */
export async function doneEntry(fishrooms: Fishrooms, { folder, key, way, answers }: DoneEntry): Promise<boolean> {
  await fishrooms.activity.whenIdle();
  const room = fishrooms.all().find((some) => some.folder.toString() === folder);
  return room !== undefined && (await perform(room, done(key, way, answers)));
}

function toldOf({ told, caution }: ActResult & { readonly kind: 'edits' }, unsaved: readonly string[]): Message {
  const message = caution === undefined ? told : say('editor.act.told', textOf(told), textOf(caution));
  return unsaved.length === 0 ? message : say('editor.act.told.unsaved', textOf(message), unsaved.join(', '));
}

/** Takes the last act back, as long as its rows are as they were written. */
export async function unmakeLast(): Promise<Outcome> {
  const last = made.findLast(({ room }) => !room.isGone);
  if (last === undefined) return { isMade: false, told: say('editor.act.nothing-to-take-back') };
  const applied = await applyAct(last.room, ({ records }) => takeBack(last.files, (path) => records.file(path)?.doc.text()));
  if (applied.kind === 'not made') return { isMade: false, told: applied.why };
  made.splice(made.indexOf(last), 1);
  return { isMade: true, told: say(last.told.code.startsWith('act.told.day-sheet') ? 'editor.act.taken-back.day-sheet' : 'editor.act.taken-back', ...last.told.args) };
}

/** "Take back", and tells what became of it; resolves to whether something was taken back. */
export async function takeBackLast(): Promise<boolean> {
  return tellOutcome(await unmakeLast());
}
