import type { TextEdit } from '../base/textEdit';
import type { Place } from './problem';

/** A computed cell that isn't what it should be. */
export interface CellChange extends Place {
  readonly header: string;
  readonly before: string;
  readonly after: string;
  readonly edits: readonly TextEdit[];
}

/** A computed column that holds values which the tool never wrote: left alone unless the keeper agrees. */
export interface HandKept extends Place {
  readonly header: string;
  /** Rows that would be overwritten. */
  readonly rows: number;
}

export interface Fills {
  readonly changes: readonly CellChange[];
  readonly handKept: readonly HandKept[];
}
