import { say, textOf } from '../../base/messages';
import { compareMoments } from '../../base/moment';
import { aliveText } from '../../planner/columns/clutchHeads';
import type { ClutchState, PlanView } from '../../planner/states';
import type { ChartTable } from './chart';
import type { Dates } from './dates';
import { aliveOn, headPanel, headSays, headsOf } from './heads';
import type { Headed } from './heads';
import { lengthPanel, lengthSays, lengthsOf } from './lengths';
import type { Lengths } from './lengths';
import { axisDay } from './plot';
import type { PlotOutcome } from './plot';

/** A clutch's lengths with the curve that is expected and its window, above how many are alive; until its end, or until it is at sale size. */
export function clutchPlot(id: string, view: PlanView, dates: Dates): PlotOutcome {
  const title = textOf(say('chart.clutch', id));
  const state = view.clutch(id);
  if (state === undefined) return { kind: 'nothing', title, why: textOf(say('chart.nothing.clutch.unknown', id)) };
  const lengths = lengthsOf(state, view);
  const heads = headsOf(state);
  const from = Math.floor(axisDay(state.clutch.spawned, view.zone));
  const to = endOf(state, lengths, view);
  const panels = [lengthPanel(state, lengths, { to, view, dates }), headPanel(state, heads, { to, view, dates })].filter((panel) => panel !== undefined);
  if (panels.length === 0) return { kind: 'nothing', title, why: textOf(say('chart.nothing.clutch', id)) };
  const { ended, unanswered } = state.timeline;
  const says = [
    lengthSays(lengths, dates),
    headSays(state, heads, { sale: lengths.sale?.time, view, dates }),
    ...(unanswered ? [textOf(say('chart.says.unanswered'))] : []),
    ...(ended === undefined ? [] : [textOf(say('chart.says.ended', dates.dayOf(ended.time)))]),
  ];
  return { kind: 'plot', plot: { title, says, from, to, now: axisDay(view.now, view.zone), panels, table: tableOf(state, { id, lengths, heads }, view, dates) } };
}

/** The end of the axis of days: what is recorded last, now, and of an open brood the end of the window of sale size. */
function endOf({ study, timeline, clutch }: ClutchState, { sale }: Lengths, view: PlanView): number {
  const last = [clutch.spawned, ...study.entries.map(({ time }) => time)].reduce((latest, time) => Math.max(latest, axisDay(time, view.zone)), -Infinity);
  if (timeline.ended !== undefined) return Math.max(last, axisDay(timeline.ended.time, view.zone));
  const until = sale === undefined ? -Infinity : axisDay(sale.to, view.zone);
  return Math.ceil(Math.max(last, axisDay(view.now, view.zone), until)) + 1;
}

function tableOf(state: ClutchState, { id, lengths, heads }: { readonly id: string; readonly lengths: Lengths; readonly heads: readonly Headed[] }, view: PlanView, dates: Dates): ChartTable {
  const aliveAfter = new Map(heads.map(({ entry, alive }) => [entry, aliveText(alive)]));
  const measured = new Set<object>(lengths.measured);
  const rows = state.study.entries.filter((entry) => measured.has(entry) || aliveAfter.has(entry)).map((entry) => [dates.moment(entry.time), entry.event, entry.lengthMm === undefined ? '' : String(entry.lengthMm), aliveAfter.get(entry) ?? '']);
  const { sale, saleMm, expected } = lengths;
  if (sale !== undefined) {
    const alive = compareMoments(sale.time, view.now) > 0 ? aliveOn(state, sale.time, view) : undefined;
    rows.push([textOf(say('chart.window', dates.moment(sale.time), dates.moment(sale.from), dates.moment(sale.to))), textOf(say('chart.table.sale')), expected === undefined || saleMm === undefined ? '' : String(saleMm), alive === undefined ? '' : `~${alive}`]);
  }
  return {
    caption: textOf(say('chart.table', id)),
    headers: [textOf(say('chart.table.time')), textOf(say('chart.table.event')), textOf(say('chart.table.length')), textOf(say('chart.table.alive'))],
    rows,
  };
}
