import { say, textOf } from '../../base/messages';
import type { Anchor, Chart, ChartMark, ChartPanel, ChartSign, PlacedText, Point } from './chart';
import type { Dates } from './dates';
import type { Plot, PlotMark, PlotPanel, PlotPoint } from './plot';
import { dayTicks, roundScale } from './ticks';
import type { Scale } from './ticks';

const WIDTH = 480;
const LEFT = 48;
const RIGHT = WIDTH - 14;
const LABEL = 32;
const PLOT = 150;
const GAP = 14;
const DAYS = 24;
/** Room for a line of text beside another. */
const LINE = 16;
const MOST_DAYS = 6;
/** As a share of the values' range. */
const LIMIT_ROOM = 0.04;

/** Gives everything its place in a view box of fixed width. */
export function layOut(plot: Plot, dates: Dates): Chart {
  const { from, to } = axisOf(plot);
  const x = (day: number): number => placed(LEFT + ((day - from) / (to - from)) * (RIGHT - LEFT));
  const isNowSeen = plot.now >= from && plot.now <= to;
  // The word for now has a line of its own above all, since it may stand anywhere.
  const above = isNowSeen ? LINE : 0;
  const panels = plot.panels.map((panel, i) => layOutPanel(panel, x, above + i * (LABEL + PLOT + GAP)));
  const bottom = panels.at(-1)?.bottom ?? 0;
  const { days, unit } = dayTicks(from, to, MOST_DAYS);
  return {
    title: plot.title,
    says: plot.says,
    width: WIDTH,
    height: bottom + DAYS,
    left: LEFT,
    right: RIGHT,
    panels,
    days: { y: bottom + LINE, ticks: days.map((day) => ({ x: x(day), text: dates.tick(day, unit), anchor: anchorAt(x(day)) })) },
    ...(isNowSeen ? { now: { x: x(plot.now), y: LINE - 4, text: textOf(say('chart.now')), anchor: anchorAt(x(plot.now)) } } : {}),
    key: keyOf(plot.panels),
    table: plot.table,
  };
}

/** Wide enough for all that is drawn: a record may lie before a spawn, by a slip of the pen. */
function axisOf({ from, to, panels }: Plot): { readonly from: number; readonly to: number } {
  let [first, last] = [from, to];
  for (const day of panels.flatMap(({ marks }) => marks).flatMap(daysIn)) {
    first = Math.min(first, day);
    last = Math.max(last, day);
  }
  return { from: first, to: last > first ? last : first + 1 };
}

function daysIn(mark: PlotMark): readonly number[] {
  if (mark.kind === 'span') return [mark.from, mark.to];
  return mark.kind === 'limit' ? [] : mark.points.map(({ day }) => day);
}

function layOutPanel({ label, fromZero, marks }: PlotPanel, x: (day: number) => number, above: number): ChartPanel {
  const top = above + LABEL;
  const bottom = top + PLOT;
  const scale = scaleOf(marks, fromZero);
  const y = (value: number): number => placed(bottom - ((value - scale.from) / (scale.to - scale.from)) * PLOT);
  const at = ({ day, value }: PlotPoint): Point => ({ x: x(day), y: y(value) });
  const limits = marks.flatMap((mark) => (mark.kind === 'limit' ? y(mark.value) : []));
  return {
    label: { x: 0, y: top - 14, text: label, anchor: 'start' },
    top,
    bottom,
    ticks: scale.ticks.map(({ value, text }) => ({ y: y(value), text })),
    marks: marks.flatMap((mark): readonly ChartMark[] => {
      switch (mark.kind) {
        case 'window':
          return [{ kind: 'window', points: mark.points.map(at) }];
        case 'span':
          return [{ kind: 'window', points: [mark.from, mark.to].flatMap((day, i) => (i === 0 ? [bottom, top] : [top, bottom]).map((end) => ({ x: x(day), y: end }))) }];
        case 'limit': {
          const line = y(mark.value);
          // Of two lines near each other the lower one has its name below.
          const isBelow = line - top < LINE || limits.some((other) => other < line && line - other < LINE);
          return [{ kind: 'limit', y: line, label: { x: mark.side === 'left' ? LEFT + 6 : RIGHT - 6, y: isBelow ? line + 12 : line - 4, text: mark.label, anchor: mark.side === 'left' ? 'start' : 'end' } }];
        }
        case 'line':
          return [{ kind: 'line', sign: mark.sign, points: mark.points.map(at) }];
        case 'points': {
          const points = mark.points.map((point) => ({ ...at(point), sign: point.sign, says: point.says }));
          const labels = mark.points.flatMap(({ label, day }, i) => (label === undefined ? [] : [{ label, x: x(day), y: points[i]?.y ?? top }]));
          return [...labels.map(({ x: across, y: end }): ChartMark => ({ kind: 'line', sign: 'expected', points: [{ x: across, y: top }, { x: across, y: end }] })), { kind: 'points', points }, ...labels.map(({ label, x: across }): ChartMark => ({ kind: 'name', label: nameAbove(label, across, top) }))];
        }
      }
    }),
  };
}

/** In the first line of a panel, where a line leads to the point; on the side with more room. */
function nameAbove(text: string, x: number, top: number): PlacedText {
  return x > WIDTH / 2 ? { x: x - 6, y: top + 10, text, anchor: 'end' } : { x: x + 6, y: top + 10, text, anchor: 'start' };
}

/** A limit gets some room on its far side, so that its line can be told from the ends of the panel. */
function scaleOf(marks: readonly PlotMark[], fromZero: boolean): Scale {
  const values = marks.flatMap(valuesOf);
  const [low, high] = [fromZero ? 0 : values.reduce((least, value) => Math.min(least, value), Infinity), values.reduce((most, value) => Math.max(most, value), -Infinity)];
  const room = (high - low) * LIMIT_ROOM;
  const limits = marks.flatMap((mark) => (mark.kind === 'limit' ? [mark.value] : []));
  return roundScale(!fromZero && limits.includes(low) ? low - room : low, limits.includes(high) ? high + room : high, 4);
}

function valuesOf(mark: PlotMark): readonly number[] {
  if (mark.kind === 'span') return [];
  return mark.kind === 'limit' ? [mark.value] : mark.points.map(({ value }) => value);
}

function anchorAt(x: number): Anchor {
  return x < LEFT + LINE ? 'start' : x > RIGHT - LINE ? 'end' : 'middle';
}

/** To a hundredth, so that what is sent is short. */
function placed(place: number): number {
  return Math.round(place * 100) / 100;
}

const keyTexts = { recorded: 'chart.key.recorded', estimate: 'chart.key.estimate', 'expected-line': 'chart.key.expected', expected: 'chart.key.expected-day', fitted: 'chart.key.fitted', window: 'chart.key.window' } as const;

function keyOf(panels: readonly PlotPanel[]): Chart['key'] {
  const drawn = new Set<ChartSign>(
    panels
      .flatMap(({ marks }) => marks)
      .flatMap((mark): readonly ChartSign[] => {
        if (mark.kind === 'limit') return [];
        if (mark.kind === 'points') return mark.points.map(({ sign }) => sign);
        if (mark.kind === 'line') return mark.sign === 'expected' ? ['expected-line'] : [mark.sign];
        return ['window'];
      }),
  );
  return (Object.keys(keyTexts) as ChartSign[]).filter((sign) => drawn.has(sign)).map((sign) => ({ sign, text: textOf(say(keyTexts[sign])) }));
}
