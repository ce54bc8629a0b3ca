import type { Message } from '../base/messages';
import type { Span } from '../base/span';
import type { TextEdit } from '../base/textEdit';
import type { ProblemCode, Severity } from '../schema/problemCodes';

/** A place in a file of the fishroom: its path relative to the fishroom with `/`, and offsets in its text. */
export interface Place {
  readonly file: string;
  readonly span: Span;
}

/** Edits of one file; `create` instead is the whole text of a file that isn't there yet. */
export type FileEdit =
  | { readonly file: string; readonly edits: readonly TextEdit[] }
  | { readonly file: string; readonly create: string };

/** A way to mend a problem. `safe`: it can't lose anything and needs no choice, so it may run with others unasked. */
export interface Fix {
  readonly title: Message;
  readonly safe: boolean;
  readonly edits: readonly FileEdit[];
}

export interface Related extends Place {
  readonly message: Message;
}

export interface Problem extends Place {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly message: Message;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
}
