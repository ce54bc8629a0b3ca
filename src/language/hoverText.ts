import type { Message } from '../base/messages';
import type { Span } from '../base/span';
import type { Place } from '../planner/problem';

/** A run of text: a sentence of ours, or what stands in a record, to be shown as it is. With a place it leads there. */
export interface Piece {
  readonly text: string | Message;
  readonly to?: Place | undefined;
}

/** Something that is told of a thing: `Stage: egg`. */
export interface Fact {
  readonly name: string | Message;
  readonly pieces: readonly Piece[];
  /** Less important, behind them. */
  readonly behind?: readonly Piece[];
}

/** A part of what is shown, below the one before. */
export type Part =
  /** A paragraph of plain text. */
  | { readonly kind: 'text'; readonly text: string | Message }
  /** Facts beside each other on one line. */
  | { readonly kind: 'facts'; readonly facts: readonly Fact[] }
  /** A heading with lines below it. */
  | { readonly kind: 'list'; readonly title: Message; readonly lines: readonly (readonly Piece[])[] }
  /** Links beside each other, at the end. */
  | { readonly kind: 'links'; readonly links: readonly Piece[] }
  /** What a cell of a sheet says of a picture: an address, or a path seen from the folder of that sheet. */
  | { readonly kind: 'photo'; readonly file: string; readonly target: string };

/** What is shown about something, without any markup. */
export interface Shown {
  readonly title: string | Message;
  /** Smaller, beside the title. */
  readonly beside?: string;
  readonly parts: readonly Part[];
}

/** The same with the text that it is about. */
export interface HoverText extends Shown {
  readonly span: Span;
}
