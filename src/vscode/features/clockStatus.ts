import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import type { Moment } from '../../base/moment';
import type { Fishrooms } from '../fishrooms';
import type { OpenFishroom } from '../openFishroom';

/** Shows in the status bar that the clock stands still, and at which moment, or that its setting can't be read. */
export function clockStatus(fishrooms: Fishrooms): vscode.Disposable {
  const item = vscode.window.createStatusBarItem('broodsheet.clock', vscode.StatusBarAlignment.Right, 100);
  item.name = textOf(say('editor.clock.name'));
  item.command = { command: 'workbench.action.openSettings', arguments: ['broodsheet.now'], title: item.name };
  const show = (): void => {
    const room = roomInView(fishrooms);
    const clock = room?.clock;
    if (room === undefined || clock === undefined || clock.kind === 'running') {
      item.hide();
      return;
    }
    const isFixed = clock.kind === 'fixed';
    const text = isFixed ? inWords(clock.moment, room) : textOf(say('editor.clock.unreadable'));
    item.text = isFixed ? `$(watch) ${text}` : `$(warning) ${text}`;
    item.tooltip = textOf(isFixed ? say('editor.clock.fixed.why', text) : say('editor.clock.unreadable.why', clock.text));
    item.accessibilityInformation = { label: item.tooltip };
    item.backgroundColor = isFixed ? undefined : new vscode.ThemeColor('statusBarItem.warningBackground');
    item.show();
  };
  show();
  return vscode.Disposable.from(
    item,
    fishrooms.onDidChange(show),
    fishrooms.onDidRemove(show),
    vscode.window.onDidChangeActiveTextEditor(show),
    vscode.workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration('broodsheet.now')) show();
    }),
  );
}

/** The fishroom of the active editor, else the first whose clock doesn't simply run. */
function roomInView(fishrooms: Fishrooms): OpenFishroom | undefined {
  const document = vscode.window.activeTextEditor?.document;
  const active = document === undefined ? undefined : fishrooms.roomOf(document.uri);
  return active ?? fishrooms.all().find(({ clock }) => clock.kind !== 'running');
}

/** As the keeper's own language writes it. */
function inWords({ instant, bare }: Moment, room: OpenFishroom): string {
  const format = new Intl.DateTimeFormat(vscode.env.language, { dateStyle: 'medium', ...(bare ? {} : { timeStyle: 'short' }), timeZone: room.plan.records.zone.name });
  return format.format(instant);
}
