import type { Moment } from '../../base/moment';
import { wallDays } from '../../base/zone';
import type { Zone } from '../../base/zone';
import type { ChartTable } from './chart';

/** What a chart shows, in days and in the quantities' own units; {@link layOut} gives it places. */
export interface Plot {
  readonly title: string;
  readonly says: readonly string[];
  /** Days since 1970-01-01 on the wall calendar of the fishroom, with fractions. */
  readonly from: number;
  readonly to: number;
  readonly now: number;
  readonly panels: readonly PlotPanel[];
  readonly table: ChartTable;
}

export interface PlotPanel {
  readonly label: string;
  /** Whether its axis begins at 0. */
  readonly fromZero: boolean;
  readonly marks: readonly PlotMark[];
}

/** In the order of drawing. A `window` is a closed outline; a `span` are days without a value of their own. */
export type PlotMark =
  | { readonly kind: 'window'; readonly points: readonly PlotPoint[] }
  | { readonly kind: 'span'; readonly from: number; readonly to: number }
  | { readonly kind: 'limit'; readonly value: number; readonly label: string; readonly side: 'left' | 'right' }
  | { readonly kind: 'line'; readonly sign: 'recorded' | 'fitted' | 'expected'; readonly points: readonly PlotPoint[] }
  | { readonly kind: 'points'; readonly points: readonly PlotSign[] };

export interface PlotPoint {
  readonly day: number;
  readonly value: number;
}

export interface PlotSign extends PlotPoint {
  readonly sign: 'recorded' | 'estimate' | 'expected';
  readonly says: string;
  /** Written above it. */
  readonly label?: string;
}

/** What is to be drawn, or why nothing is. */
export type PlotOutcome = { readonly kind: 'plot'; readonly plot: Plot } | { readonly kind: 'nothing'; readonly title: string; readonly why: string };

/** The place of a moment on the axis of days; a bare day stands for its noon. */
export function axisDay(time: Moment, zone: Zone): number {
  return time.bare ? time.day + 0.5 : wallDays(time.instant, zone);
}
