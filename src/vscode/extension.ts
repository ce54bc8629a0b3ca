import * as l10n from '@vscode/l10n';
import * as vscode from 'vscode';
import { doneEntry } from './acting';
import type { DoneEntry } from './acting';
import { runClock } from './clock';
import { addColumnsCommand } from './features/addColumns';
import { calendarCommand } from './features/calendar';
import { clockStatus } from './features/clockStatus';
import { codeLenses } from './features/codeLenses';
import { columnColours } from './features/colours';
import { completions } from './features/completion';
import { daySheetCommand } from './features/daySheet';
import { definitionsOfIds } from './features/definitions';
import { showDiagnostics } from './features/diagnostics';
import { exportCalendarCommand } from './features/exportCalendar';
import { fillFishroomCommand } from './features/fillFishroom';
import { fillOnSaveAction } from './features/fillOnSave';
import { fillSheetCommand } from './features/fillSheet';
import { highlightsOfIds } from './features/highlights';
import { inlayHints } from './features/inlayHints';
import { namesOfThings } from './features/names';
import { newFishroomCommand } from './features/newFishroom';
import { openSampleCommand } from './features/openSample';
import { outlines } from './features/outline';
import { recordSpawnCommand } from './features/recordSpawn';
import { foundFryCommand } from './features/foundFry';
import { logClutchCommand } from './features/logClutch';
import { logTankCommand } from './features/logTank';
import { recordSaleCommand } from './features/recordSale';
import { recordGoneCommand } from './features/recordGone';
import { dueView } from './features/dueView';
import { enterDaySheetCommand } from './features/enterDaySheet';
import { takeBackCommand } from './features/takeBack';
import { hoverTexts } from './features/hover';
import { linksInCells } from './features/links';
import { quickFixActions } from './features/quickFixes';
import { quietColumns } from './features/quietColumns';
import { referencesToIds } from './features/references';
import { renameIds } from './features/rename';
import { walkthroughSteps } from './features/walkthrough';
import { Fishrooms } from './fishrooms';
import { showWhatWasOpened } from './showLater';

/** What the extension offers to others, which is tests so far. */
export interface Api {
  /** Resolves when all that was found, read and typed by now is shown. */
  whenIdle(): Promise<void>;
  /** Does what an entry asks for, as a screen does; resolves to whether a row was written. */
  done(answered: DoneEntry): Promise<boolean>;
}

/**
 * Wakes at once where VS Code can search a folder for the files of a fishroom, else after it has started: virtual folders can't be searched everywhere, and
 * a keeper's first fishroom may only be about to be written. Outside fishrooms it stays silent, and the walk that finds none is bounded.
 */
export function activate(context: vscode.ExtensionContext): Api {
  if (vscode.l10n.bundle !== undefined) l10n.config({ contents: vscode.l10n.bundle });
  const fishrooms = new Fishrooms();
  context.subscriptions.push(
    fishrooms,
    runClock(fishrooms),
    showDiagnostics(fishrooms),
    clockStatus(fishrooms),
    fillSheetCommand(fishrooms),
    fillFishroomCommand(fishrooms),
    addColumnsCommand(fishrooms),
    fillOnSaveAction(fishrooms),
    quickFixActions(fishrooms),
    outlines(fishrooms),
    namesOfThings(fishrooms),
    columnColours(fishrooms),
    quietColumns(fishrooms),
    newFishroomCommand(fishrooms, context.globalState),
    openSampleCommand(context),
    walkthroughSteps(fishrooms),
    completions(fishrooms),
    inlayHints(fishrooms),
    codeLenses(fishrooms),
    definitionsOfIds(fishrooms),
    referencesToIds(fishrooms),
    highlightsOfIds(fishrooms),
    renameIds(fishrooms),
    hoverTexts(fishrooms),
    linksInCells(fishrooms),
    calendarCommand(fishrooms, context.extensionUri),
    dueView(fishrooms, context.workspaceState),
    recordSpawnCommand(fishrooms),
    foundFryCommand(fishrooms),
    logClutchCommand(fishrooms),
    logTankCommand(fishrooms),
    recordSaleCommand(fishrooms),
    recordGoneCommand(fishrooms),
    enterDaySheetCommand(fishrooms),
    takeBackCommand(),
    exportCalendarCommand(fishrooms),
    daySheetCommand(fishrooms),
  );
  void showWhatWasOpened(context.globalState);
  return { whenIdle: () => fishrooms.activity.whenIdle(), done: (answered) => doneEntry(fishrooms, answered) };
}
