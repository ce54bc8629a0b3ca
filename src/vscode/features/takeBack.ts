import * as vscode from 'vscode';
import { takeBackLast } from '../acting';

/** "Take back": the last act, while its rows are as they were written. */
export function takeBackCommand(): vscode.Disposable {
  return vscode.commands.registerCommand('broodsheet.takeBack', takeBackLast);
}
