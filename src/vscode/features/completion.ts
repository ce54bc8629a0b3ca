import * as vscode from 'vscode';
import { textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import { completionsAt } from '../../language/completion/complete';
import type { Completions } from '../../language/completion/complete';
import type { Suggestion } from '../../language/completion/suggestion';
import { rangeOf } from '../convert';
import type { Fishrooms } from '../fishrooms';
import { followedFileOnceRead, SHEET_FILES } from '../followedFile';

/** A cell begins behind each of them. */
const DELIMITERS = [',', ';', '\t'];

const kinds: Readonly<Record<Suggestion['kind'], vscode.CompletionItemKind>> = {
  thing: vscode.CompletionItemKind.Reference,
  'new name': vscode.CompletionItemKind.Constructor,
  event: vscode.CompletionItemKind.Event,
  word: vscode.CompletionItemKind.EnumMember,
  moment: vscode.CompletionItemKind.Value,
  duration: vscode.CompletionItemKind.Unit,
  code: vscode.CompletionItemKind.Constant,
  column: vscode.CompletionItemKind.Field,
  'computed column': vscode.CompletionItemKind.Property,
};

/** Offers what may be written in the cell at the cursor. */
export function completions(fishrooms: Fishrooms): vscode.Disposable {
  const provider: vscode.CompletionItemProvider = {
    async provideCompletionItems(document, position, token) {
      const file = await followedFileOnceRead(fishrooms, document, token);
      if (file === undefined) return undefined;
      const found = completionsAt(file.room.plan, file.path, document.offsetAt(position));
      return found === undefined ? undefined : new vscode.CompletionList(itemsOf(found, document), found.isIncomplete);
    },
  };
  return vscode.languages.registerCompletionItemProvider(SHEET_FILES, provider, ...DELIMITERS);
}

function itemsOf({ span, suggestions }: Completions, document: vscode.TextDocument): vscode.CompletionItem[] {
  const range = rangeOf(document, span);
  return suggestions.map(({ value, kind, beside, about, insert }, place) => {
    const description = beside.map(shown).join(' · ');
    const item = new vscode.CompletionItem({ label: value, description }, kinds[kind]);
    item.insertText = insert;
    item.range = range;
    item.sortText = String(place).padStart(4, '0');
    // What stands beside it may be typed too: a species, a room, "now".
    item.filterText = `${insert} ${description}`;
    if (about !== undefined) item.documentation = shown(about);
    return item;
  });
}

function shown(part: string | Message): string {
  return typeof part === 'string' ? part : textOf(part);
}
