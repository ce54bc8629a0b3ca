import * as vscode from 'vscode';
import type { Fishrooms } from './fishrooms';
import { JoinedTask } from './joinedTask';
import type { OpenFishroom } from './openFishroom';

/** However far away the next change is: a timer of more than 24.8 days fires at once, and a machine that sleeps stops its timers. */
const LONGEST_WAIT = 3_600_000;
/** So that a plan which can't get past a moment doesn't keep the machine busy. */
const SHORTEST_WAIT = 1_000;
/** Shorter than what joins problems before they are shown: a row about just now isn't shown as one about the future first. */
const JOIN_CHANGES = 50;

/** Moves the clocks of all fishrooms: when time alone changes something, when the window is looked at again, and when the setting changes. */
export function runClock(fishrooms: Fishrooms): vscode.Disposable {
  let timer: unknown;
  let lastTick = 0;
  const tickDue = (): void => {
    const due = fishrooms.all().filter(isDue);
    if (due.length > 0) lastTick = Date.now();
    for (const room of due) room.tick();
    look.trigger();
  };
  const look = new JoinedTask(fishrooms.activity, {
    delay: JOIN_CHANGES,
    work: () => {
      clearTimeout(timer);
      const running = fishrooms.all().filter(isRunning);
      const next = Math.min(...running.map((room) => room.plan.nextChange));
      const now = Date.now();
      if (next <= now && now - lastTick >= SHORTEST_WAIT) tickDue();
      else timer = setTimeout(tickDue, Math.min(LONGEST_WAIT, Math.max(SHORTEST_WAIT, next - now)));
    },
  });
  return vscode.Disposable.from(
    look,
    { dispose: () => clearTimeout(timer) },
    fishrooms.onDidChange(() => look.trigger()),
    vscode.window.onDidChangeWindowState(({ focused }) => {
      if (focused) tickDue();
    }),
    vscode.workspace.onDidChangeConfiguration((event) => {
      if (event.affectsConfiguration('broodsheet.now')) for (const room of fishrooms.all()) room.tick();
    }),
  );
}

function isRunning({ clock }: OpenFishroom): boolean {
  return clock.kind !== 'fixed';
}

function isDue(room: OpenFishroom): boolean {
  return isRunning(room) && room.plan.nextChange <= Date.now();
}
