import * as vscode from 'vscode';
import { enterDaySheet, sheetLines } from '../../acts/daySheet';
import type { Days } from '../../acts/daySheet';
import { say, textOf } from '../../base/messages';
import { formatDay, formatMoment } from '../../base/moment';
import { perform } from '../acting';
import { chooseFishroom } from '../chooseFishroom';
import type { Fishrooms } from '../fishrooms';
import { explainNothing } from '../keeper';
import { pickOne } from '../picking';

/** So many days back a sheet may begin. */
const BACK = [0, 1, 2, 3, 7, 14] as const;

/** "Enter the day sheet": what was due in some days as one list, all ticked; what stays ticked is written. */
export function enterDaySheetCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.enterDaySheet', async () => {
    const title = say('editor.act.day-sheet.title');
    await fishrooms.findAgain();
    const room = await chooseFishroom(fishrooms);
    if (room === undefined) return;
    const today = room.plan.now.day;
    const spans = BACK.map((back) => ({ label: textOf(back === 0 ? say('editor.act.day-sheet.today') : say('editor.act.day-sheet.since', formatDay(today - back))), answer: today - back }));
    const firstDay = await pickOne({ title, question: say('editor.act.day-sheet.days') }, spans);
    if (firstDay === undefined) return;
    const days: Days = { firstDay, lastDay: today };
    const all = sheetLines(days, room.plan);
    const lines = all.filter(({ event }) => event !== undefined);
    if (lines.length === 0) {
      explainNothing(say('editor.act.day-sheet.none'));
      return;
    }
    const items = lines.map(({ key, action, room: inRoom, tank, clutch, due, hasHours, event }) => ({
      label: textOf(action),
      description: [clutch, tank, inRoom, (hasHours ? formatMoment(due, room.plan.records.zone) : formatDay(due.day)).replace('T', ' '), event ?? ''].filter((text) => text !== '').join(' · '),
      picked: true,
      key,
    }));
    const more = all.length - lines.length;
    const placeHolder = textOf(more === 0 ? say('editor.act.day-sheet.which') : say('editor.act.day-sheet.which.more', more));
    const ticked = await vscode.window.showQuickPick(items, { title: textOf(title), placeHolder, canPickMany: true, ignoreFocusOut: true, matchOnDescription: true });
    if (ticked !== undefined && ticked.length > 0) await perform(room, enterDaySheet(days, new Set(ticked.map(({ key }) => key))));
  });
}
