import { say } from '../../base/messages';
import { formatMoment, isFuture } from '../../base/moment';
import type { Stand } from '../../domain/headcount';
import type { Tank, TankReading } from '../../records/things';
import { placeOf } from '../places';
import type { PlanView } from '../states';
import { aliveText } from './clutchHeads';
import type { Column } from './column';

function stands(tank: Tank, view: PlanView): readonly { readonly clutch: string; readonly stand: Stand }[] {
  return view.standingIn(tank.tank).map((state) => ({ clutch: state.clutch.clutch, stand: state.study.heads.stands.get(tank.tank) as Stand }));
}

export const fish: Column<Tank> = {
  header: 'fish',
  value(tank, view) {
    let count: number | undefined = 0;
    let estimate = false;
    for (const { stand } of stands(tank, view)) {
      count = count === undefined || stand.count === undefined ? undefined : count + stand.count;
      estimate ||= stand.estimate;
    }
    return aliveText({ count, estimate });
  },
  explain: (tank, view) => ({
    formula: say('why.fish'),
    inputs: stands(tank, view).map(({ clutch, stand }) => ({
      name: say('input.standing', clutch),
      value: aliveText(stand),
      place: placeOf({ row: (view.clutch(clutch) as NonNullable<ReturnType<PlanView['clutch']>>).row, header: undefined }, view.records),
    })),
  }),
};

function latest(tank: Tank, view: PlanView): TankReading | undefined {
  return view.records.readingsOf(tank.tank).findLast(({ time }) => !isFuture(time, view.now));
}

export const lastReading: Column<Tank> = {
  header: 'last_reading',
  value(tank, view) {
    const reading = latest(tank, view);
    return reading === undefined ? '' : formatMoment(reading.time, view.zone);
  },
  explain(tank, view) {
    const reading = latest(tank, view);
    if (reading === undefined) return { formula: say('why.last-reading'), notes: [say('why.last-reading.none')] };
    return { formula: say('why.last-reading'), inputs: [{ name: say('input.reading'), value: formatMoment(reading.time, view.zone), place: placeOf({ row: reading.row, header: 'time' }, view.records) }] };
  },
};
