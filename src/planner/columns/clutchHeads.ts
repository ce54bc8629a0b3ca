import { say } from '../../base/messages';
import { formatMoment } from '../../base/moment';
import { survivalPct } from '../../domain/headcount';
import type { Alive } from '../../domain/headcount';
import type { Row } from '../../records/row';
import { placeOf } from '../places';
import type { ExplainedInput } from '../explanation';
import type { ClutchState, PlanView } from '../states';
import { oneDecimal } from './column';
import type { Column } from './column';
import { cellInput } from './inputs';

export function aliveText({ count, estimate }: Alive): string {
  return count === undefined ? '' : `${estimate ? '~' : ''}${count}`;
}

const counting = new Set<string>(['counted', 'lost', 'culled', 'sold', 'kept', 'moved', 'stripped', 'joined']);

/** The rows of the log that the head count walks through. */
function countingRows(state: ClutchState, view: PlanView): readonly ExplainedInput[] {
  return state.study.entries
    .filter(({ event }) => counting.has(event))
    .map(({ event, time, tank, toTank, count, row }) => ({
      name: say('input.count', event, formatMoment(time, view.zone)),
      value: [count === undefined ? '' : `${count.about ? '~' : ''}${count.value}`, tank ?? '', toTank === undefined ? '' : `→ ${toTank}`].filter((part) => part !== '').join(' '),
      place: placeOf({ row: row as Row, header: undefined }, view.records),
    }));
}

export const tanksNow: Column<ClutchState> = {
  header: 'tanks_now',
  value({ study, clutch }) {
    // Nothing else asks for the heads of a brood that has ended without a log, so they aren't counted.
    if (study.entries.length === 0) return clutch.tank;
    let tanks = '';
    for (const tank of study.heads.stands.keys()) tanks += tank === '' || tanks === '' ? tank : ` ${tank}`;
    return tanks;
  },
  explain: (state, view) => ({ formula: say('why.tanks-now'), inputs: [cellInput(state.row, 'tank', view), ...countingRows(state, view)] }),
};

export const alive: Column<ClutchState> = {
  header: 'alive',
  settled: '',
  value: ({ study }) => aliveText(study.heads.alive),
  explain(state, view) {
    const uncounted = [...state.study.heads.stands].filter(([, { count }]) => count === undefined).map(([tank]) => tank);
    return {
      formula: say('why.alive'),
      notes: uncounted.length === 0 ? [] : [say('why.uncounted', uncounted.join(', '))],
      inputs: countingRows(state, view),
    };
  },
};

export const survival: Column<ClutchState> = {
  header: 'survival_pct',
  settled: '',
  value: ({ study, clutch }) => oneDecimal(survivalPct(study.heads, clutch.eggs)),
  explain(state, view) {
    const { heads } = state.study;
    const known = heads.alive.count;
    const base = state.clutch.eggs === undefined ? { name: say('input.first-known'), value: String(heads.firstKnown ?? ''), place: undefined } : cellInput(state.row, 'eggs', view);
    return {
      formula: say('why.survival'),
      notes: known === undefined ? [say('why.survival.unknown')] : [],
      inputs: [
        { name: say('input.alive'), value: aliveText(heads.alive), place: undefined },
        { name: say('input.sold'), value: String(heads.sold), place: undefined },
        { name: say('input.kept'), value: String(heads.kept), place: undefined },
        base,
        ...countingRows(state, view),
      ],
    };
  },
};
