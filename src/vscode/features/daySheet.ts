import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import { formatDay } from '../../base/moment';
import { daySheet, isDaySheet } from '../../exchange/daySheet';
import { dayWords } from '../../exchange/entryText';
import { chooseFishroom } from '../chooseFishroom';
import type { Fishrooms } from '../fishrooms';
import { tell } from '../keeper';
import type { OpenFishroom } from '../openFishroom';
import { askWhere, nameOf, textBefore, writeOut } from '../outFile';

/** Nobody is away for longer without the sheet being made anew. */
const LONGEST = 28;

/** "Day sheet": writes a page to print for each room, and opens it in the browser. Who calls it with the file's place gets it for so many days and isn't asked. */
export function daySheetCommand(fishrooms: Fishrooms): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.daySheet', async (known?: { readonly file: vscode.Uri; readonly days: number }) => {
    await fishrooms.findAgain();
    const room = known === undefined ? await chooseFishroom(fishrooms) : fishrooms.roomOf(known.file);
    if (room === undefined) return;
    const days = known?.days ?? (await askDays(room));
    if (days === undefined) return;
    const target = known?.file ?? (await askFile(room));
    if (target === undefined) return;
    await fishrooms.activity.whenIdle();
    if (!fishrooms.all().includes(room)) return;
    const before = await textBefore(target, isDaySheet);
    if (before === undefined || !(await writeOut(target, { before, after: daySheet([room], { days }) }))) return;
    if (known === undefined && isReachable(target) && (await vscode.env.openExternal(target))) return;
    tell(say('editor.sheet.done', nameOf(target)));
  });
}

async function askDays({ name, plan }: OpenFishroom): Promise<number | undefined> {
  const today = plan.now.day;
  const items = Array.from({ length: LONGEST }, (_, days) =>
    days === 0
      ? { label: textOf(say('editor.sheet.today')), description: dayWords(today), days }
      : { label: textOf(say('editor.sheet.until', dayWords(today + days))), description: textOf(say('editor.sheet.until.days', days + 1)), days },
  );
  return (await vscode.window.showQuickPick(items, { title: textOf(say('editor.sheet.title', name)), placeHolder: textOf(say('editor.sheet.which')) }))?.days;
}

async function askFile(room: OpenFishroom): Promise<vscode.Uri | undefined> {
  const name = `${textOf(say('exchange.sheet.one-day'))}-${formatDay(room.plan.now.day)}`;
  return await askWhere(room, { title: say('editor.sheet.title', room.name), save: say('editor.sheet.save'), kind: say('editor.sheet.file'), ending: 'html', name });
}

/** Whether a browser of this machine can open it. */
function isReachable({ scheme }: vscode.Uri): boolean {
  return scheme === 'file' && vscode.env.remoteName === undefined && vscode.env.uiKind === vscode.UIKind.Desktop;
}
