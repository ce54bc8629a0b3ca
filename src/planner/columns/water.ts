import { say } from '../../base/messages';
import type { Message } from '../../base/messages';
import { formatMoment, isFuture } from '../../base/moment';
import { ammoniaOf } from '../../domain/ammonia';
import type { Ammonia } from '../../domain/ammonia';
import { changesNeeded, isMeasured, pKaOf, volumesNeeded } from '../../domain/water';
import type { Row } from '../../records/row';
import type { Tank, TankReading } from '../../records/things';
import { placeOf } from '../places';
import type { PlanView } from '../states';
import { limitOf, percentNeeded, QUARTER } from '../waterLimits';
import type { Column, Why } from './column';

/** A row of a tank's log or of `readings.csv`, and the tank whose readings may stand in for it; none for a row about a room. */
export interface WaterRow {
  readonly row: Row;
  readonly tank: string | undefined;
  readonly reading: TankReading | undefined;
}

const places = new WeakMap<readonly TankReading[], ReadonlyMap<Row, number>>();

/** Where a row stands among a water's readings; worked out once for all of them. */
function placeIn(readings: readonly TankReading[], row: Row): number {
  let known = places.get(readings);
  if (known === undefined) places.set(readings, (known = new Map(readings.map((reading, i) => [reading.row, i]))));
  return known.get(row) ?? -1;
}

function ofRow({ row, tank, reading }: WaterRow, view: PlanView): Ammonia<TankReading> | undefined {
  if (reading?.tan === undefined || isFuture(reading.time, view.now)) return undefined;
  const readings = tank === undefined ? [reading] : view.records.readingsOf(tank);
  return ammoniaOf(readings, placeIn(readings, row));
}

/** The latest total ammonia of a tank's water, with what follows from it. */
export function latestAmmonia(tank: string, view: PlanView): { readonly reading: TankReading; readonly ammonia: Ammonia<TankReading> | undefined } | undefined {
  const readings = view.records.readingsOf(tank);
  const at = readings.findLastIndex(({ tan, time }) => tan !== undefined && !isFuture(time, view.now));
  const reading = readings[at];
  return reading === undefined ? undefined : { reading, ammonia: ammoniaOf(readings, at) };
}

/** Four decimals. */
export function ammoniaText(ammonia: Ammonia<TankReading> | undefined): string {
  return ammonia === undefined ? '' : ammonia.value.toFixed(4);
}

export const rowAmmonia: Column<WaterRow> = {
  header: 'nh3_mg_l',
  value: (state, view) => ammoniaText(ofRow(state, view)),
  explain: (state, view) => whyAmmonia(ofRow(state, view), state.reading, view),
};

export const tankAmmonia: Column<Tank> = {
  header: 'nh3_mg_l',
  value: ({ tank }, view) => ammoniaText(latestAmmonia(tank, view)?.ammonia),
  explain({ tank }, view) {
    const latest = latestAmmonia(tank, view);
    return whyAmmonia(latest?.ammonia, latest?.reading, view);
  },
};

function whyAmmonia(ammonia: Ammonia<TankReading> | undefined, reading: TankReading | undefined, view: PlanView): Why {
  if (reading === undefined || ammonia === undefined) return { formula: say('why.ammonia'), notes: [say(reading?.tan === undefined ? 'why.ammonia.no-tan' : 'why.ammonia.missing')] };
  const { ph, celsius } = ammonia;
  const input = (header: string, value: number, from: TankReading): NonNullable<Why['inputs']>[number] => ({
    name: say('input.reading-of', header, formatMoment(from.time, view.zone)),
    value: String(value),
    place: placeOf({ row: from.row, header }, view.records),
  });
  return {
    formula: say('why.ammonia'),
    inputs: [input('tan_mg_l', ammonia.tan, reading), input('ph', ph.value, ph.reading), input('temp_c', celsius.value, celsius.reading)],
    constants: [{ name: say('constant.named', 'pKa'), value: pKaOf(celsius.value).toFixed(4), unit: undefined, source: say('source.emerson'), place: undefined }],
    notes: [...(isMeasured(ph.value, celsius.value) ? [] : [say('outside-model.ammonia')]), ...whatToChange(ammonia.value, view)],
  };
}

/** What brings too much ammonia down to half of the limit: one change, changes of a quarter, or water that drips through. */
function whatToChange(value: number, view: PlanView): readonly Message[] {
  const limit = limitOf('nh3_mg_l', view);
  if (value < limit) return [];
  const target = limit / 2;
  return [say('why.ammonia.change', percentNeeded(value, target), changesNeeded(value, target, QUARTER), volumesNeeded(value, target).toFixed(1)), say('caution.water')];
}
