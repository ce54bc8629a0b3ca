import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import { calendarText } from '../../exchange/calendarText';
import { roomEvents } from '../../exchange/roomEvents';
import { storedEvents } from '../../exchange/storedCalendar';
import { entryKinds } from '../../planner/entry';
import type { EntryKind } from '../../planner/entry';
import { roomsInOrder } from '../../planner/roomName';
import { chooseFishroom } from '../chooseFishroom';
import type { Fishrooms } from '../fishrooms';
import { explainNothing, tell } from '../keeper';
import type { OpenFishroom } from '../openFishroom';
import { askWhere, nameOf, textBefore, writeOut } from '../outFile';

/** So many days after today are in it. */
const TWO_MONTHS = 60;

/** What goes into the file; undefined is all. */
interface Wanted {
  readonly rooms: ReadonlySet<string> | undefined;
  readonly kinds: ReadonlySet<EntryKind> | undefined;
}

/** One line of the list of what goes into the file; a heading has neither. */
interface Choice extends vscode.QuickPickItem {
  readonly room?: string;
  readonly entry?: EntryKind;
}

/** "Export for the phone calendar": writes what is coming into a file, or brings one up to date. Who calls it with the file's place isn't asked. */
export function exportCalendarCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.exportCalendar', async (known?: vscode.Uri) => {
    await fishrooms.findAgain();
    const room = known === undefined ? await chooseFishroom(fishrooms) : fishrooms.roomOf(known);
    if (room === undefined) return;
    const title = say('editor.calendar.title', room.name);
    const wanted = known === undefined ? await askWanted(room) : { rooms: undefined, kinds: undefined };
    if (wanted === undefined) return;
    const target = known ?? (await askWhere(room, { title, save: say('editor.calendar.save'), kind: say('editor.calendar.file'), ending: 'ics', name: room.name }));
    if (target === undefined) return;
    await fishrooms.activity.whenIdle();
    if (fishrooms.all().includes(room)) await exportTo(target, room, wanted);
  });
}

async function exportTo(target: vscode.Uri, room: OpenFishroom, { rooms, kinds }: Wanted): Promise<void> {
  const [unread] = [...room.unread(), ...room.plan.unreadPaths()];
  if (unread !== undefined) {
    explainNothing(say('editor.calendar.unread', unread, nameOf(target)));
    return;
  }
  const before = await textBefore(target, (text) => storedEvents(text) !== undefined);
  if (before === undefined) return;
  const { plan, name } = room;
  const { now } = plan;
  const { zone, config } = plan.records;
  const events = roomEvents(plan.coming(TWO_MONTHS), { fishroom: name, now, zone, config, rooms, kinds });
  const file = calendarText(events, { name, stored: storedEvents(before) ?? new Map(), now: now.instant, zone });
  if (!(await writeOut(target, { before, after: file.text }))) return;
  tell(file.text === before ? say('editor.calendar.current', nameOf(target), file.events) : say('editor.calendar.done', nameOf(target), file.events, file.added, file.changed, file.cancelled));
}

/** Rooms and kinds in one list, all of them ticked. */
async function askWanted(room: OpenFishroom): Promise<Wanted | undefined> {
  // Last what is in none.
  const rooms = [...roomsInOrder(room.plan.records), ''];
  const separator = (label: string): Choice => ({ label, kind: vscode.QuickPickItemKind.Separator });
  const ofRooms = rooms.map((id): Choice => ({ label: id === '' ? textOf(say('editor.calendar.elsewhere')) : id, picked: true, room: id }));
  const ofKinds = entryKinds.map((entry): Choice => ({ label: textOf(say(`calendar.kind.${entry}`)), picked: true, entry }));
  const chosen = await vscode.window.showQuickPick([separator(textOf(say('editor.calendar.rooms'))), ...ofRooms, separator(textOf(say('editor.calendar.kinds'))), ...ofKinds], {
    canPickMany: true,
    title: textOf(say('editor.calendar.title', room.name)),
    placeHolder: textOf(say('editor.calendar.which')),
  });
  if (chosen === undefined || chosen.length === 0) return undefined;
  const chosenRooms = chosen.map(({ room: id }) => id).filter((id) => id !== undefined);
  const chosenKinds = chosen.map(({ entry }) => entry).filter((entry) => entry !== undefined);
  // Who ticks kinds alone wants them of all rooms, and the other way round.
  const some = <Id>(ids: readonly Id[], all: readonly unknown[]): ReadonlySet<Id> | undefined => (ids.length === 0 || ids.length === all.length ? undefined : new Set(ids));
  return { rooms: some(chosenRooms, rooms), kinds: some(chosenKinds, entryKinds) };
}
