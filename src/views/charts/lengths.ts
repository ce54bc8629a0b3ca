import { say, textOf } from '../../base/messages';
import type { Moment } from '../../base/moment';
import { wallDays } from '../../base/zone';
import { daysToLength, faster, lengthAt, lengthLimitsOf, profileGrowth } from '../../domain/growth';
import type { GrowthCurve } from '../../domain/growth';
import { fitGrowth } from '../../domain/growthFit';
import type { GrowthFit } from '../../domain/growthFit';
import { DAY } from '../../domain/ladder';
import { lengthsOutside, measuredLengths } from '../../domain/measurements';
import type { LogEntry } from '../../domain/things';
import type { LearnedWindow, MilestoneTime } from '../../domain/timeline';
import { saleExpected } from '../../planner/columns/clutchExpected';
import type { ClutchState, PlanView } from '../../planner/states';
import type { Dates } from './dates';
import { axisDay } from './plot';
import type { PlotMark, PlotPanel, PlotPoint, PlotSign } from './plot';

/** Into so many pieces a curve is cut. */
const PIECES = 48;

/** What is known and expected of a brood's length. */
export interface Lengths {
  /** Rows with a length, in the order of their times, those too that teach nothing. */
  readonly measured: readonly (LogEntry & { readonly lengthMm: number })[];
  readonly birth: Moment | undefined;
  /** Of the species, with what was learned of its speed: factors on the time that it takes; undefined where no length is expected any more. */
  readonly expected: { readonly curve: GrowthCurve; readonly learned: LearnedWindow } | undefined;
  /** When it is expected at sale size, where `sale_expected` tells it. */
  readonly sale: MilestoneTime | undefined;
  readonly saleMm: number | undefined;
  readonly fit: GrowthFit | undefined;
}

export function lengthsOf(state: ClutchState, view: PlanView): Lengths {
  const { study, timeline } = state;
  const measured = study.entries.filter((entry): entry is LogEntry & { readonly lengthMm: number } => entry.event === 'measured' && entry.lengthMm !== undefined);
  const birth = study.ladder === undefined ? undefined : timeline.of(study.ladder.birth)?.time;
  const limits = lengthLimitsOf(study.profile);
  const milestone = timeline.of('sale_size');
  const curve = profileGrowth(study.profile);
  const learned = milestone?.learned;
  return {
    measured,
    birth,
    expected: curve === undefined || learned === undefined || timeline.unanswered ? undefined : { curve, learned },
    sale: saleExpected.value(state, view) === '' ? undefined : milestone,
    saleMm: study.profile?.sale_mm,
    fit: birth === undefined || limits === undefined ? undefined : fitGrowth(measuredLengths(study, birth), limits),
  };
}

/** Lengths over the days up to a place on their axis; undefined where there is neither a measurement nor a curve. */
export function lengthPanel(state: ClutchState, lengths: Lengths, { to, view, dates }: { readonly to: number; readonly view: PlanView; readonly dates: Dates }): PlotPanel | undefined {
  const { measured, birth, expected, sale, saleMm, fit } = lengths;
  const marks: PlotMark[] = [];
  const curveOf = (curve: GrowthCurve, until: number): readonly PlotPoint[] => (birth === undefined ? [] : drawn(curve, { birth, until, saleMm, view }));
  if (expected !== undefined && birth !== undefined && axisDay(birth, view.zone) < to) {
    const { curve, learned } = expected;
    marks.push({ kind: 'window', points: [...curveOf(faster(curve, 1 / learned.from), to), ...curveOf(faster(curve, 1 / learned.to), to).toReversed()] });
    if (saleMm !== undefined) marks.push({ kind: 'limit', value: saleMm, label: textOf(say('chart.sale-line', saleMm)), side: 'left' });
    marks.push({ kind: 'line', sign: 'expected', points: curveOf(faster(curve, 1 / learned.expected), to) });
  }
  const last = measured.at(-1);
  if (fit !== undefined && last !== undefined) marks.push({ kind: 'line', sign: 'fitted', points: curveOf(fit.curve, axisDay(last.time, view.zone)) });
  const strange = new Set<LogEntry>(lengthsOutside(state.study));
  const points = measured.map((entry): PlotSign => ({ day: axisDay(entry.time, view.zone), value: entry.lengthMm, sign: entry.time.about || strange.has(entry) ? 'estimate' : 'recorded', says: textOf(say('chart.value', dates.moment(entry.time), `${entry.lengthMm} mm`)) }));
  if (points.length > 0) marks.push({ kind: 'points', points });
  if (expected !== undefined && sale !== undefined && saleMm !== undefined && axisDay(sale.time, view.zone) <= to) {
    const label = textOf(say('chart.window', dates.day(sale.time.day), dates.day(sale.from.day), dates.day(sale.to.day)));
    marks.push({ kind: 'points', points: [{ day: axisDay(sale.time, view.zone), value: saleMm, sign: 'expected', says: textOf(say('chart.value.sale', label)), label }] });
  }
  return marks.length === 0 ? undefined : { label: textOf(say('chart.length')), fromZero: true, marks };
}

/** A curve from the birth to a place on the axis of days, with the very moment at which it reaches sale size. */
function drawn(curve: GrowthCurve, { birth, until, saleMm, view }: { readonly birth: Moment; readonly until: number; readonly saleMm: number | undefined; readonly view: PlanView }): readonly PlotPoint[] {
  const at = (age: number): number => wallDays(birth.instant + age * DAY, view.zone);
  const longest = until - at(0);
  const toSale = saleMm === undefined ? undefined : daysToLength(curve, saleMm);
  const ages = Array.from({ length: PIECES + 1 }, (_, i) => (longest * i) / PIECES);
  if (toSale !== undefined && toSale < longest) ages.push(toSale);
  return ages.sort((a, b) => a - b).map((age) => ({ day: Math.min(until, at(age)), value: lengthAt(curve, age) }));
}

/** Sentences about it. */
export function lengthSays({ measured, fit, sale, saleMm, expected }: Lengths, dates: Dates): string {
  const says: string[] = [];
  const [first, last] = [measured[0], measured.at(-1)];
  if (first === undefined || last === undefined) says.push(textOf(say('chart.says.not-measured')));
  else if (measured.length === 1) says.push(textOf(say('chart.says.measured.one', first.lengthMm, dates.dayOf(first.time))));
  else {
    const longest = measured.reduce((most, one) => (one.lengthMm > most.lengthMm ? one : most));
    says.push(textOf(say('chart.says.measured', measured.length, dates.dayOf(first.time), dates.dayOf(last.time), longest.lengthMm, dates.dayOf(longest.time), last.lengthMm)));
  }
  if (fit !== undefined) says.push(textOf(say('chart.says.fitted', fit.n, Number(fit.curve.maxMm.toFixed(1)))));
  if (sale !== undefined) {
    const window = [dates.day(sale.time.day), dates.day(sale.from.day), dates.day(sale.to.day)] as const;
    says.push(expected === undefined || saleMm === undefined ? textOf(say('chart.says.sale.no-length', ...window)) : textOf(say('chart.says.sale', saleMm, ...window)));
  }
  return says.join(' ');
}
