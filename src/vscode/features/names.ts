import * as vscode from 'vscode';
import { findNames } from '../../language/names';
import type { FoundName } from '../../language/names';
import { rangeOf } from '../convert';
import type { Fishrooms } from '../fishrooms';

/** More than anybody reads; who types on finds the others. */
const MOST = 200;

const kinds: Readonly<Record<FoundName['sheet'], vscode.SymbolKind>> = {
  clutches: vscode.SymbolKind.Object,
  tanks: vscode.SymbolKind.Field,
  pairs: vscode.SymbolKind.Class,
  fish: vscode.SymbolKind.Interface,
  orders: vscode.SymbolKind.Event,
  rooms: vscode.SymbolKind.Namespace,
};

/** "Go to Symbol in Workspace" for the things of all fishrooms. */
export function namesOfThings(fishrooms: Fishrooms): vscode.Disposable {
  const provider: vscode.WorkspaceSymbolProvider = {
    provideWorkspaceSymbols(query, token) {
      const found: vscode.SymbolInformation[] = [];
      for (const room of fishrooms.all()) {
        if (token.isCancellationRequested) break;
        for (const { sheet, id, detail, place } of findNames(room.plan, query, MOST)) {
          const location = new vscode.Location(room.uriOf(place.file), rangeOf(room.placesIn(place.file), place.span));
          // VS Code looks for the query in the name alone, so what was found by its detail has to show it there.
          found.push(new vscode.SymbolInformation(`${id} ${detail}`.trimEnd(), kinds[sheet], room.name, location));
        }
      }
      return found;
    },
  };
  return vscode.languages.registerWorkspaceSymbolProvider(provider);
}
