import { say, textOf } from '../../base/messages';
import type { Message } from '../../base/messages';
import { isFuture } from '../../base/moment';
import type { Moment } from '../../base/moment';
import { ammoniaOf } from '../../domain/ammonia';
import type { Ammonia } from '../../domain/ammonia';
import { ammoniaText } from '../../planner/columns/water';
import { speciesIn } from '../../planner/speciesIn';
import type { PlanView } from '../../planner/states';
import { limitOf, rangeOf } from '../../planner/waterLimits';
import type { RangeEnd } from '../../planner/waterLimits';
import type { TankReading } from '../../records/things';
import type { ChartTable } from './chart';
import type { Dates } from './dates';
import { axisDay } from './plot';
import type { PlotMark, PlotOutcome, PlotPanel } from './plot';
import { joined, thinned } from './readingMarks';

/** The last so many days with readings are drawn. */
const SHOWN_DAYS = 180;
/** The last so many rows are in the table. */
const SHOWN_ROWS = 200;

/** One value of a reading as the columns write it. */
interface Measured {
  readonly time: Moment;
  readonly value: number;
  readonly text: string;
}

interface Limit {
  readonly value: number;
  readonly label: string;
  readonly isOutside: (value: number) => boolean;
}

interface Quantity {
  readonly label: string;
  readonly fromZero: boolean;
  readonly measured: readonly Measured[];
  readonly limits: readonly Limit[];
}

/** A reading with what follows from it. */
interface WaterTest {
  readonly reading: TankReading;
  readonly ammonia: Ammonia<TankReading> | undefined;
}

/** Temperature, pH and un-ionized ammonia of a tank's water over the last half year with readings, each with its limits. */
export function tankPlot(id: string, view: PlanView, dates: Dates): PlotOutcome {
  const title = textOf(say('chart.tank', id));
  const tank = view.records.tank(id);
  const readings = view.records.readingsOf(id);
  const tests = readings.map((reading, i): WaterTest => ({ reading, ammonia: ammoniaOf(readings, i) })).filter((test) => isDrawn(test) && !isFuture(test.reading.time, view.now));
  const last = tests.at(-1);
  if (last === undefined) return { kind: 'nothing', title, why: textOf(say(tank === undefined ? 'chart.nothing.tank.unknown' : 'chart.nothing.tank', id)) };
  const shown = tests.filter(({ reading }) => last.reading.time.day - reading.time.day <= SHOWN_DAYS);
  const together = tank?.system === undefined ? [id] : view.records.tanksOnWater(tank.system).map((one) => one.tank);
  const quantities = quantitiesOf(shown, speciesIn(together, view), view).filter(({ measured }) => measured.length > 0);
  const now = axisDay(view.now, view.zone);
  const says = [
    ...quantities.map((quantity) => saysOf(quantity, dates)),
    ...(together.length > 1 ? [textOf(say('chart.says.shared', together.filter((other) => other !== id).join(', ')))] : []),
    ...(shown.length < tests.length ? [textOf(say('chart.says.older', tests.length - shown.length))] : []),
  ];
  const from = Math.floor(axisDay((shown[0] as WaterTest).reading.time, view.zone));
  const isOld = view.now.day - last.reading.time.day > SHOWN_DAYS;
  return { kind: 'plot', plot: { title, says, from, to: isOld ? last.reading.time.day + 1 : Math.ceil(now), now, panels: quantities.map((quantity) => panelOf(quantity, view, dates)), table: tableOf(id, shown, dates) } };
}

function isDrawn({ reading: { tempC, ph }, ammonia }: WaterTest): boolean {
  return tempC !== undefined || ph !== undefined || ammonia !== undefined;
}

function quantitiesOf(tests: readonly WaterTest[], species: readonly string[], view: PlanView): readonly Quantity[] {
  const of = (quantity: 'tempC' | 'ph'): readonly Measured[] =>
    tests.flatMap(({ reading }) => {
      const value = reading[quantity];
      return value === undefined ? [] : [{ time: reading.time, value, text: String(value) }];
    });
  const most = limitOf('nh3_mg_l', view);
  return [
    { label: textOf(say('chart.temperature')), fromZero: false, measured: of('tempC'), limits: rangeLimits('temp', species, view) },
    { label: textOf(say('chart.ph')), fromZero: false, measured: of('ph'), limits: rangeLimits('ph', species, view) },
    {
      label: textOf(say('chart.ammonia')),
      fromZero: true,
      measured: tests.flatMap(({ reading: { time }, ammonia }) => (ammonia === undefined ? [] : [{ time, value: ammonia.value, text: ammoniaText(ammonia) }])),
      limits: [{ value: most, label: textOf(say('chart.below', most)), isOutside: (value) => value >= most }],
    },
  ];
}

function rangeLimits(quantity: 'temp' | 'ph', species: readonly string[], view: PlanView): readonly Limit[] {
  const { least, most } = rangeOf(quantity, species, view);
  const limit = (end: RangeEnd | undefined, name: 'at-least' | 'at-most'): readonly Limit[] => {
    if (end === undefined) return [];
    const { value } = end;
    const label: Message = end.species.length === 0 ? say(`chart.${name}`, value) : say(`chart.${name}.species`, value, end.species.join(', '));
    return [{ value, label: textOf(label), isOutside: (measured) => (name === 'at-least' ? measured < value : measured > value) }];
  };
  return [...limit(least, 'at-least'), ...limit(most, 'at-most')];
}

function panelOf({ label, fromZero, measured, limits }: Quantity, view: PlanView, dates: Dates): PlotPanel {
  const all = measured.map(({ time, value, text }) => ({ day: axisDay(time, view.zone), value, sign: time.about ? ('estimate' as const) : ('recorded' as const), says: textOf(say('chart.value', dates.moment(time), text)) }));
  const points = thinned(all);
  const marks: PlotMark[] = limits.map(({ value, label: name }) => ({ kind: 'limit', value, label: name, side: 'right' }));
  return { label, fromZero, marks: [...marks, ...joined(points).map((run): PlotMark => ({ kind: 'line', sign: 'recorded', points: run })), { kind: 'points', points }] };
}

function saysOf({ label, measured, limits }: Quantity, dates: Dates): string {
  const [first, last] = [measured[0], measured.at(-1)];
  if (first === undefined || last === undefined) return '';
  const lowest = measured.reduce((least, one) => (one.value < least.value ? one : least));
  const highest = measured.reduce((most, one) => (one.value > most.value ? one : most));
  const told =
    measured.length === 1
      ? say('chart.says.reading.one', label, first.text, dates.dayOf(first.time))
      : say('chart.says.readings', label, measured.length, dates.dayOf(first.time), dates.dayOf(last.time), lowest.text, highest.text, last.text);
  if (limits.length === 0) return textOf(told);
  const names = limits.map((limit) => limit.label).join(', ');
  const outside = measured.filter(({ value }) => limits.some(({ isOutside }) => isOutside(value))).length;
  const against = outside === 0 ? say('chart.says.limits.kept', names) : outside === 1 ? say('chart.says.limits.broken.one', names) : say('chart.says.limits.broken', names, outside);
  return `${textOf(told)} ${textOf(against)}`;
}

function tableOf(id: string, tests: readonly WaterTest[], dates: Dates): ChartTable {
  const written = (value: number | undefined): string => (value === undefined ? '' : String(value));
  return {
    caption: textOf(tests.length > SHOWN_ROWS ? say('chart.table.last', id, SHOWN_ROWS, tests.length) : say('chart.table', id)),
    headers: [textOf(say('chart.table.time')), textOf(say('chart.temperature')), textOf(say('chart.ph')), textOf(say('chart.table.tan')), textOf(say('chart.ammonia'))],
    rows: tests.slice(-SHOWN_ROWS).map(({ reading: { time, tempC, ph, tan }, ammonia }) => [dates.moment(time), written(tempC), written(ph), written(tan), ammoniaText(ammonia)]),
  };
}
