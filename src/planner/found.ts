import type { Message } from '../base/messages';
import type { Row } from '../records/row';
import type { ProblemCode } from '../schema/problemCodes';
import type { Fix } from './problem';

/** A row, or one of its cells by the column's header, as the place of something. */
export interface RowPlace {
  readonly row: Row;
  readonly header: string | undefined;
}

/** A problem that a rule found; it becomes a `Problem` with offsets when somebody wants to see it. */
export interface Found extends RowPlace {
  /** The register's row of the thing, whose `accept` silences it. */
  readonly owner: Row;
  readonly code: ProblemCode;
  readonly message: Message;
  readonly related: readonly (RowPlace & { readonly message: Message })[];
  /** Made only when asked for. */
  readonly fixes?: (() => readonly Fix[]) | undefined;
}
