import { say, textOf } from '../../base/messages';
import { median } from '../../domain/spawning';
import { oneDecimal } from '../../planner/columns/column';
import { nextSpawnExpected } from '../../planner/columns/pair';
import type { PairState, PlanView } from '../../planner/states';
import type { ChartTable } from './chart';
import type { Dates } from './dates';
import { axisDay } from './plot';
import type { PlotMark, PlotOutcome, PlotSign } from './plot';

/** The days between a pair's spawns, each where its later spawn lies, and the days on which the next is expected. */
export function pairPlot(id: string, view: PlanView, dates: Dates): PlotOutcome {
  const title = textOf(say('chart.pair', id));
  const state = view.pair(id);
  if (state === undefined) return { kind: 'nothing', title, why: textOf(say('chart.nothing.pair.unknown', id)) };
  const { spawns, intervals, next } = state;
  const [first, last] = [spawns[0], spawns.at(-1)];
  if (first === undefined || last === undefined || (intervals.length === 0 && next === undefined)) return { kind: 'nothing', title, why: textOf(say('chart.nothing.pair', id)) };
  const marks: PlotMark[] = [];
  if (next !== undefined) {
    // Both end days belong to the window.
    marks.push({ kind: 'span', from: next.from, to: next.to + 1 });
    marks.push({ kind: 'limit', value: next.usualDays, label: textOf(say('chart.usual', next.usualDays)), side: 'left' });
  }
  const middle = median(intervals.map(({ days }) => days));
  if (middle !== undefined && intervals.length > 1) marks.push({ kind: 'limit', value: middle, label: textOf(say('chart.median', oneDecimal(middle))), side: 'left' });
  const points = intervals.map(({ days, about, to }): PlotSign => ({ day: axisDay(to.spawned, view.zone), value: days, sign: about ? 'estimate' : 'recorded', says: textOf(say('chart.value.days', dates.moment(to.spawned), `${about ? '~' : ''}${days}`)) }));
  if (points.length > 0) marks.push({ kind: 'points', points });
  if (next !== undefined) {
    const label = textOf(say('chart.window', dates.day(next.expected), dates.day(next.from), dates.day(next.to)));
    marks.push({ kind: 'points', points: [{ day: next.expected + 0.5, value: next.expected - next.last.spawned.day, sign: 'expected', says: textOf(say('chart.value.next', label)), label }] });
  }
  const now = axisDay(view.now, view.zone);
  return {
    kind: 'plot',
    plot: {
      title,
      says: [intervalSays(state, dates), nextSays(state, view, dates)].filter((text) => text !== ''),
      from: Math.floor(axisDay(first.spawned, view.zone)),
      to: Math.max(Math.ceil(now), axisDay(last.spawned, view.zone), next === undefined ? -Infinity : next.to + 1) + 1,
      now,
      panels: [{ label: textOf(say('chart.interval')), fromZero: true, marks }],
      table: tableOf(id, state, dates),
    },
  };
}

function intervalSays({ spawns, intervals }: PairState, dates: Dates): string {
  const [first, last] = [spawns[0], spawns.at(-1)];
  if (first === undefined || last === undefined) return '';
  const days = intervals.map((interval) => interval.days);
  if (days.length === 0) return textOf(say('chart.says.interval.none', dates.dayOf(first.spawned)));
  if (days.length === 1) return textOf(say('chart.says.interval.one', days[0] as number, dates.dayOf(last.spawned)));
  return textOf(say('chart.says.intervals', days.length, dates.dayOf(first.spawned), dates.dayOf(last.spawned), Math.min(...days), Math.max(...days), oneDecimal(median(days))));
}

function nextSays(state: PairState, view: PlanView, dates: Dates): string {
  const { next } = state;
  if (next === undefined) return (nextSpawnExpected.explain(state, view).notes ?? []).map(textOf).join(' ');
  const window = [dates.day(next.expected), dates.day(next.from), dates.day(next.to)] as const;
  const told = next.observations === 0 ? say('chart.says.next.usual', ...window) : say('chart.says.next', ...window, next.observations);
  return [textOf(told), ...(next.observations === 0 ? [] : [textOf(say('chart.says.usual', next.usualDays))]), ...(next.to < view.now.day ? [textOf(say('chart.says.next.past'))] : [])].join(' ');
}

function tableOf(id: string, { spawns, intervals, next }: PairState, dates: Dates): ChartTable {
  const rows = spawns.map(({ clutch, spawned }, i) => {
    const interval = intervals[i - 1];
    return [clutch, dates.moment(spawned), interval === undefined ? '' : `${interval.about ? '~' : ''}${interval.days}`];
  });
  if (next !== undefined) {
    const day = next.last.spawned.day;
    rows.push([textOf(say('chart.table.next')), textOf(say('chart.window', dates.day(next.expected), dates.day(next.from), dates.day(next.to))), textOf(say('chart.window', next.expected - day, next.from - day, next.to - day))]);
  }
  return { caption: textOf(say('chart.table', id)), headers: [textOf(say('chart.table.clutch')), textOf(say('chart.table.spawned')), textOf(say('chart.table.days'))], rows };
}
