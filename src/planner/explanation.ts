import type { Message } from '../base/messages';
import type { Place } from './problem';

/** A record that went into a computed cell. */
export interface ExplainedInput {
  readonly name: Message;
  readonly value: string;
  readonly place: Place | undefined;
}

/** A number that the records don't hold: from a species' row (the keeper's: with its place) or from the model. */
export interface ExplainedConstant {
  readonly name: Message;
  readonly value: string;
  readonly unit: string | undefined;
  readonly source: Message;
  readonly place: Place | undefined;
}

/** The 80 % window of something expected, and how much of it was learned. */
export interface ExplainedWindow {
  readonly from: string;
  readonly expected: string;
  readonly to: string;
  /** Observations of the pair's other broods that went into it; 0: the profile and the prior alone. */
  readonly observations: number;
}

/** How a computed cell came about. */
export interface Explanation {
  readonly header: string;
  readonly value: string;
  readonly formula: Message;
  /** Why the cell is empty, or what limits the result. */
  readonly notes: readonly Message[];
  readonly inputs: readonly ExplainedInput[];
  readonly constants: readonly ExplainedConstant[];
  readonly window: ExplainedWindow | undefined;
}
