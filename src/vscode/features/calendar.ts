import * as vscode from 'vscode';
import { say, textOf } from '../../base/messages';
import { CalendarPanel } from '../calendarPanel';
import type { Fishrooms } from '../fishrooms';

const VIEW = 'broodsheet.calendar';

/** "Open calendar": what is coming in a fishroom, in one panel, which comes back when its window does. */
export function calendarCommand(fishrooms: Fishrooms, extension: vscode.Uri): vscode.Disposable {
  let shown: CalendarPanel | undefined;
  const take = (panel: vscode.WebviewPanel): void => {
    const mine = new CalendarPanel(panel, { fishrooms, extension });
    shown = mine;
    panel.onDidDispose(() => {
      mine.dispose();
      if (shown === mine) shown = undefined;
    });
  };
  return vscode.Disposable.from(
    vscode.commands.registerCommand('broodsheet.openCalendar', async () => {
      await fishrooms.activity.whenIdle();
      if (shown === undefined) take(vscode.window.createWebviewPanel(VIEW, textOf(say('calendar.text.calendar')), vscode.ViewColumn.Active, {}));
      else shown.panel.reveal();
      const document = vscode.window.activeTextEditor?.document;
      const room = document === undefined ? undefined : fishrooms.roomOf(document.uri);
      if (room !== undefined) shown?.turnTo(room);
    }),
    vscode.window.registerWebviewPanelSerializer(VIEW, { deserializeWebviewPanel: async (panel: vscode.WebviewPanel) => take(panel) }),
    {
      dispose: () => {
        shown?.panel.dispose();
      },
    },
  );
}
