import type { Explanation } from '../explanation';
import type { PlanView } from '../states';

/** What an explanation adds to the header and the value. */
export type Why = Pick<Explanation, 'formula'> & Partial<Omit<Explanation, 'formula' | 'header' | 'value'>>;

/** A computed column: the cell's text for a thing, '' where it can't be known, and how that text comes about. */
export interface Column<State> {
  readonly header: string;
  /** The cell's text for every brood that has ended and has no log, where that is always the same: nearly all rows of a long register are such broods. */
  readonly settled?: string;
  value(state: State, view: PlanView): string;
  explain(state: State, view: PlanView): Why;
}

export function text(value: number | undefined): string {
  return value === undefined ? '' : String(value);
}

/** One decimal, as records show percentages and medians. */
export function oneDecimal(value: number | undefined): string {
  return value === undefined ? '' : value.toFixed(1);
}
