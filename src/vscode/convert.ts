import * as vscode from 'vscode';
import { LineIndex } from '../base/lines';
import { textOf } from '../base/messages';
import type { Message } from '../base/messages';
import type { Span } from '../base/span';
import type { TextEdit } from '../base/textEdit';
import type { FileEdit, Place, Problem } from '../planner/problem';
import type { Severity } from '../schema/problemCodes';

/** Turns offsets into places of the editor. A `TextDocument` is one. */
export interface TextPlaces {
  positionAt(offset: number): vscode.Position;
}

/** What knows the texts of a fishroom: which file has which URI, and what stands where in it. */
export interface PlacesOfFiles {
  uriOf(path: string): vscode.Uri;
  placesIn(path: string): TextPlaces;
}

/** Named in the Problems view as where a problem comes from. */
const SOURCE = 'Broodsheet';

const severities: Readonly<Record<Severity, vscode.DiagnosticSeverity>> = {
  error: vscode.DiagnosticSeverity.Error,
  warning: vscode.DiagnosticSeverity.Warning,
  information: vscode.DiagnosticSeverity.Information,
  hint: vscode.DiagnosticSeverity.Hint,
};

/** The places of a text that isn't open, as they will be once it is: an editor takes the byte order mark away. */
export function placesInText(text: string): TextPlaces {
  const bom = text.startsWith('\uFEFF') ? 1 : 0;
  const lines = new LineIndex(text);
  return {
    positionAt(offset) {
      const { line, character } = lines.positionAt(Math.max(0, Math.min(offset, text.length)));
      return new vscode.Position(line, line === 0 ? Math.max(0, character - bom) : character);
    },
  };
}

export function rangeOf(places: TextPlaces, { start, end }: Span): vscode.Range {
  return new vscode.Range(places.positionAt(start), places.positionAt(end));
}

export function locationOf({ file, span }: Place, files: PlacesOfFiles): vscode.Location {
  return new vscode.Location(files.uriOf(file), rangeOf(files.placesIn(file), span));
}

export function spanOf(document: vscode.TextDocument, range: vscode.Range): Span {
  return { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
}

/** The place behind a text that is written at a place. */
export function endOfText(start: vscode.Position, text: string): vscode.Position {
  const lines = text.split(/\r\n|\r|\n/);
  const last = lines.at(-1)?.length ?? 0;
  return lines.length === 1 ? start.translate(0, last) : new vscode.Position(start.line + lines.length - 1, last);
}

/** The offset behind a document's last character. */
export function lengthOf(document: vscode.TextDocument): number {
  return document.offsetAt(document.lineAt(document.lineCount - 1).range.end);
}

export function diagnosticOf(problem: Problem, files: PlacesOfFiles): vscode.Diagnostic {
  const range = rangeOf(files.placesIn(problem.file), problem.span);
  const diagnostic = new vscode.Diagnostic(range, textOf(problem.message), severities[problem.severity]);
  diagnostic.source = SOURCE;
  diagnostic.code = problem.code;
  if (problem.related.length > 0) {
    diagnostic.relatedInformation = problem.related.map((related) => new vscode.DiagnosticRelatedInformation(locationOf(related, files), textOf(related.message)));
  }
  return diagnostic;
}

/** Whether a diagnostic of the editor is one of ours with this code and range. */
export function isDiagnosticOf({ source, code, range }: vscode.Diagnostic, problem: Problem, places: TextPlaces): boolean {
  return source === SOURCE && code === problem.code && range.isEqual(rangeOf(places, problem.span));
}

/**
 * Edits of a fishroom's files as one of the workspace. For a file for which `reasonToAsk` gives a text, VS Code shows the change with that text and asks
 * before it is made.
 */
export function workspaceEditOf(changes: readonly FileEdit[], files: PlacesOfFiles, reasonToAsk: (path: string) => Message | undefined): vscode.WorkspaceEdit {
  const whole = new vscode.WorkspaceEdit();
  for (const change of changes) {
    const uri = files.uriOf(change.file);
    if ('create' in change) {
      whole.createFile(uri, { contents: new TextEncoder().encode(change.create) });
      continue;
    }
    const reason = reasonToAsk(change.file);
    const metadata = reason === undefined ? undefined : { label: textOf(reason), needsConfirmation: true };
    const places = files.placesIn(change.file);
    for (const edit of change.edits) whole.replace(uri, rangeOf(places, edit), edit.text, metadata);
  }
  return whole;
}

/** What a change event says, as lists of edits to apply one after the other. The event's changes follow each other, each in the text that the one before left. */
export function editsOf(changes: readonly vscode.TextDocumentContentChangeEvent[]): readonly (readonly TextEdit[])[] {
  const edits = changes.map(({ rangeOffset, rangeLength, text }) => ({ start: rangeOffset, end: rangeOffset + rangeLength, text }));
  // From back to front, as it nearly always is, they don't move each other and can be taken at once.
  const isBackward = edits.every((edit, i) => i === 0 || edit.end <= (edits[i - 1] as TextEdit).start);
  return isBackward ? [edits.reverse()] : edits.map((edit) => [edit]);
}
