import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { formatDay, formatMoment } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { profileGrowth, specificGrowthPct } from '../../domain/growth';
import { fitGrowth } from '../../domain/growthFit';
import { priors } from '../../domain/learning';
import { measuredLengths, ownGrowth } from '../../domain/measurements';
import type { OwnGrowth } from '../../domain/measurements';
import type { LogEntry } from '../../domain/things';
import type { LearnedWindow, MilestoneTime } from '../../domain/timeline';
import type { Row } from '../../records/row';
import type { ExplainedConstant, ExplainedInput } from '../explanation';
import { lengthHeaderOf, placeOf } from '../places';
import type { ClutchState, PlanView } from '../states';
import { constants, learnedFactor, profileConstant } from './inputs';

/** What growth adds to the explanation of when a size is reached. */
export interface GrowthWhy {
  readonly formula: Message;
  readonly inputs: readonly ExplainedInput[];
  readonly constants: readonly ExplainedConstant[];
  readonly notes: readonly Message[];
}

/** How growth, counted from a brood's birth, leads to a milestone. */
export function growthWhy(state: ClutchState, milestone: MilestoneTime & { readonly learned: LearnedWindow }, view: PlanView): GrowthWhy {
  const { rung, learned } = milestone;
  const { study, species } = state;
  const birth = state.timeline.of(rung.after ?? 'spawned');
  const usual = profileGrowth(study.profile);
  const own = birth === undefined ? undefined : ownGrowth(study, birth.time);
  const parts = [rung.after ?? '', rung.duration ?? ''] as const;
  const isLearned = learned.n > 0;
  const lengths = species === undefined || usual === undefined ? [] : (['hatch_mm', 'sale_mm', 'max_mm'] as const).map((name) => profileConstant(species, name, view));
  let formula: Message;
  if (usual === undefined) formula = say(isLearned ? 'why.expected.days-learned' : 'why.expected.days', ...parts);
  else formula = say(isLearned ? 'why.expected.growth-learned' : 'why.expected.growth', ...parts);
  return {
    formula,
    inputs: own === undefined ? [] : measurementInputs(own, view),
    constants: constants(
      ...lengths,
      usual === undefined ? undefined : rate(say('constant.usual-k'), usual.perDay, say('source.usual-k')),
      own === undefined ? undefined : rate(say('constant.own-k'), own.perDay, say('source.own-k')),
      // What is learned is a speed; the window's factors are on the time that it takes.
      isLearned ? learnedFactor(1 / learned.expected, learned.n) : undefined,
    ),
    notes: [
      ...(isLearned ? [sharesNote(learned.n, own !== undefined)] : [say('why.learned.none')]),
      ...(own === undefined ? [] : contradictions(state, milestone, own)),
      ...(own !== undefined && birth?.record === undefined ? [say('why.growth.birth-expected', parts[0])] : []),
      ...(usual === undefined && study.entries.some(isMeasured) ? [say('why.growth.no-lengths')] : []),
      ...(birth === undefined ? [] : curveNotes(state, birth.time)),
    ],
  };
}

function isMeasured({ event }: LogEntry): boolean {
  return event === 'measured';
}

function rate(name: Message, perDay: number, source: Message): ExplainedConstant {
  return { name, value: perDay.toFixed(5), unit: '/d', source, place: undefined };
}

function measurementInputs({ measurement, days }: OwnGrowth, view: PlanView): readonly ExplainedInput[] {
  return [
    ...measurement.rows.map((entry) => ({
      name: say('input.measured', formatMoment(entry.time, view.zone)),
      value: [millimetres(entry.lengthMm as number), entry.tank ?? '', entry.count === undefined ? '' : `× ${entry.count.value}`].filter((part) => part !== '').join(' '),
      place: placeOf({ row: entry.row as Row, header: lengthHeaderOf(entry.row as Row) }, view.records),
    })),
    { name: say('input.length-at', days.toFixed(1)), value: millimetres(measurement.mm), place: undefined },
  ];
}

function millimetres(mm: number): string {
  return `${Number(mm.toFixed(1))} mm`;
}

/** How much of the speed comes from where: on the scale of logarithms the centre is a mean with these weights. */
function sharesNote(n: number, hasOwn: boolean): Message {
  const percent = (weight: number): number => Math.round((100 * weight) / (priors.growth.k0 + n));
  const species = percent(priors.growth.k0);
  if (!hasOwn) return say('why.growth.shares.earlier', species, percent(n), n);
  return n === 1 ? say('why.growth.shares.own', species, percent(1)) : say('why.growth.shares.both', species, percent(1), percent(n - 1), n - 1);
}

/** What was measured may already be, or still not be, what is expected only later, or long since: it is one record among several. */
function contradictions({ study }: ClutchState, { time }: MilestoneTime, { measurement: { mm, rows } }: OwnGrowth): readonly Message[] {
  const saleMm = study.profile?.sale_mm ?? Number.NaN;
  const day = (rows.at(-1) as LogEntry).time.day;
  if (mm >= saleMm && time.day > day) return [say('why.growth.already', millimetres(mm), formatDay(day))];
  if (mm < saleMm && time.day <= day) return [say('why.growth.not-yet', millimetres(mm), formatDay(day))];
  return [];
}

/** The curve through a brood's own measurements, and how fast it grew between the last two. */
function curveNotes({ study }: ClutchState, birth: Moment): readonly Message[] {
  const measured = measuredLengths(study, birth);
  const { hatch_mm: hatchMm, max_mm: maxMm } = study.profile ?? {};
  const fit = hatchMm === undefined || maxMm === undefined ? undefined : fitGrowth(measured, { hatchMm, maxMm });
  if (fit === undefined) return [];
  const { curve, perDayError, maxError, n } = fit;
  const told = [n, curve.perDay.toFixed(5), perDayError.toFixed(5), millimetres(curve.maxMm)] as const;
  const last = measured.at(-1);
  const before = last === undefined ? undefined : measured.findLast(({ days }) => last.days - days >= 1);
  const specific = last === undefined || before === undefined ? undefined : specificGrowthPct(before.mm, last.mm, last.days - before.days);
  return [
    maxError === undefined ? say('why.growth.fit', ...told) : say('why.growth.fit-max', ...told, millimetres(maxError)),
    ...(specific === undefined ? [] : [say('why.growth.specific', specific.toFixed(2))]),
  ];
}
