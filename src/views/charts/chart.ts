/** What a chart is about. */
export interface ChartSubject {
  readonly kind: 'clutch' | 'pair' | 'tank';
  readonly id: string;
}

/** A chart, or why there is none: what would be here and how it gets here. */
export type ChartOutcome = { readonly kind: 'chart'; readonly chart: Chart } | { readonly kind: 'nothing'; readonly title: string; readonly why: string };

/** A drawing with all its places worked out, and the same in words and as a table. Plain data; x to the right, y down, in units of the view box. */
export interface Chart {
  readonly title: string;
  /** The text alternative: full sentences, those that belong together in one text. */
  readonly says: readonly string[];
  /** The view box begins at 0, 0. */
  readonly width: number;
  readonly height: number;
  /** Between these lie the plots of all panels. */
  readonly left: number;
  readonly right: number;
  readonly panels: readonly ChartPanel[];
  /** Days, below the last panel. */
  readonly days: { readonly y: number; readonly ticks: readonly { readonly x: number; readonly text: string; readonly anchor: Anchor }[] };
  /** Missing where now is outside. */
  readonly now?: PlacedText;
  /** What the signs mean that are drawn. */
  readonly key: readonly { readonly sign: ChartSign; readonly text: string }[];
  readonly table: ChartTable;
}

/** One quantity over the days. */
export interface ChartPanel {
  /** With its unit. */
  readonly label: PlacedText;
  readonly top: number;
  readonly bottom: number;
  readonly ticks: readonly { readonly y: number; readonly text: string }[];
  readonly marks: readonly ChartMark[];
}

/** In the order of drawing: a later one lies above. */
export type ChartMark =
  | { readonly kind: 'window'; readonly points: readonly Point[] }
  | { readonly kind: 'limit'; readonly y: number; readonly label: PlacedText }
  | { readonly kind: 'line'; readonly sign: 'recorded' | 'fitted' | 'expected'; readonly points: readonly Point[] }
  | { readonly kind: 'points'; readonly points: readonly SignedPoint[] }
  | { readonly kind: 'name'; readonly label: PlacedText };

export type ChartSign = 'recorded' | 'estimate' | 'expected' | 'expected-line' | 'fitted' | 'window';

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface SignedPoint extends Point {
  readonly sign: 'recorded' | 'estimate' | 'expected';
  /** The value with its day. */
  readonly says: string;
}

export type Anchor = 'start' | 'middle' | 'end';

export interface PlacedText extends Point {
  readonly text: string;
  readonly anchor: Anchor;
}

export interface ChartTable {
  readonly caption: string;
  readonly headers: readonly string[];
  readonly rows: readonly (readonly string[])[];
}
