import { say, textOf } from '../../base/messages';
import { compareMoments, momentAt } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { dayMs } from '../../base/zone';
import { countHeads } from '../../domain/headcount';
import type { Alive } from '../../domain/headcount';
import { expectedAlive } from '../../domain/survival';
import type { LogEntry } from '../../domain/things';
import { aliveText } from '../../planner/columns/clutchHeads';
import type { ClutchState, PlanView } from '../../planner/states';
import type { Dates } from './dates';
import { axisDay } from './plot';
import type { PlotMark, PlotPanel, PlotPoint } from './plot';

const PIECES = 24;

/** What was alive after a row of the log. */
export interface Headed {
  readonly entry: LogEntry;
  readonly alive: Alive & { readonly count: number };
}

/** The rows from which on another number of fish was known. */
export function headsOf({ clutch, study }: ClutchState): readonly Headed[] {
  const heads: Headed[] = [];
  let before: Alive = { count: undefined, estimate: false };
  countHeads(clutch.tank, study.entries, (alive, index) => {
    const entry = study.entries[index];
    const { count, estimate } = alive;
    if (entry !== undefined && count !== undefined && (count !== before.count || estimate !== before.estimate || entry.event === 'counted')) heads.push({ entry, alive: { count, estimate } });
    before = alive;
  });
  return heads;
}

/** Fish alive over the days up to a place on their axis, and as many as are expected from now on; undefined where none were ever counted. */
export function headPanel(state: ClutchState, heads: readonly Headed[], { to, view, dates }: { readonly to: number; readonly view: PlanView; readonly dates: Dates }): PlotPanel | undefined {
  const marks: PlotMark[] = [];
  const points = heads.map(({ entry, alive }) => ({ entry, alive, day: axisDay(entry.time, view.zone), value: alive.count }));
  const last = points.at(-1);
  if (last === undefined) return undefined;
  const known = state.study.heads.alive.count !== undefined;
  const end = Math.min(to, axisDay(state.timeline.ended?.time ?? view.now, view.zone));
  const steps = points.flatMap((point, i): readonly PlotPoint[] => {
    const next = points[i + 1]?.day ?? (known ? Math.max(point.day, end) : point.day);
    return [point, { day: next, value: point.value }].map(({ day, value }) => ({ day, value }));
  });
  marks.push({ kind: 'line', sign: 'recorded', points: steps });
  const ahead = expectedPoints(state, { to, view });
  if (ahead.length > 1) marks.push({ kind: 'line', sign: 'expected', points: ahead });
  marks.push({ kind: 'points', points: points.map(({ day, value, entry, alive }) => ({ day, value, sign: alive.estimate || entry.time.about ? 'estimate' : 'recorded', says: textOf(say('chart.value.alive', dates.moment(entry.time), aliveText(alive), entry.event)) })) });
  return { label: textOf(say('chart.heads')), fromZero: true, marks };
}

function expectedPoints({ study, timeline }: ClutchState, { to, view }: { readonly to: number; readonly view: PlanView }): readonly PlotPoint[] {
  const from = axisDay(view.now, view.zone);
  const days = to > from ? Array.from({ length: PIECES + 1 }, (_, i) => ((to - from) * i) / PIECES) : [];
  return days.flatMap((ahead) => {
    const alive = expectedAlive(study, timeline, momentAt(view.now.instant + ahead * dayMs, view.zone));
    return alive === undefined ? [] : [{ day: from + ahead, value: alive }];
  });
}

/** How many are expected to be alive on a day, none earlier than now; whole fish. */
export function aliveOn({ study, timeline }: ClutchState, time: Moment, { now }: PlanView): number | undefined {
  const alive = expectedAlive(study, timeline, compareMoments(time, now) < 0 ? now : time);
  return alive === undefined ? undefined : Math.round(alive);
}

/** Sentences about it, `sale` being the day of sale size where there is one. */
export function headSays(state: ClutchState, heads: readonly Headed[], { sale, view, dates }: { readonly sale: Moment | undefined; readonly view: PlanView; readonly dates: Dates }): string {
  const says: string[] = [];
  const last = heads.at(-1);
  const { alive } = state.study.heads;
  if (alive.count === undefined || last === undefined) says.push(textOf(say('chart.says.not-counted')));
  else says.push(textOf(say('chart.says.alive', aliveText(alive), dates.dayOf(last.entry.time))));
  const then = sale === undefined || compareMoments(sale, view.now) <= 0 ? undefined : aliveOn(state, sale, view);
  if (then !== undefined && sale !== undefined && alive.count !== 0) says.push(textOf(say('chart.says.alive-then', then, dates.day(sale.day))));
  return says.join(' ');
}
