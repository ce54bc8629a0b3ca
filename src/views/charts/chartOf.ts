import type { PlanView } from '../../planner/states';
import type { ChartOutcome, ChartSubject } from './chart';
import { clutchPlot } from './clutchChart';
import { datesFor } from './dates';
import { layOut } from './layout';
import { pairPlot } from './pairChart';
import { tankPlot } from './tankChart';

const plots = { clutch: clutchPlot, pair: pairPlot, tank: tankPlot } as const;

/** The chart of a clutch, a pair or a tank, or why there is none. @param locale a language tag after BCP 47, for days */
export function chartOf({ kind, id }: ChartSubject, view: PlanView, locale: string): ChartOutcome {
  const dates = datesFor(locale, view);
  const outcome = plots[kind](id, view, dates);
  return outcome.kind === 'nothing' ? outcome : { kind: 'chart', chart: layOut(outcome.plot, dates) };
}
