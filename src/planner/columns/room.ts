import { say } from '../../base/messages';
import { isFuture } from '../../records/records';
import type { Tank } from '../../records/things';
import { placeOf } from '../places';
import type { PlanView } from '../states';
import type { Column } from './column';

function tanksIn(room: string, view: PlanView): readonly Tank[] {
  return view.records
    .tanksOfRoom(room)
    .flatMap((id) => view.records.tank(id) ?? [])
    .filter(({ retired }) => retired === undefined || isFuture(retired, view.now));
}

/** Clutches that are not ended and stand in a tank of the room, each once. */
function openIn(room: string, view: PlanView): readonly string[] {
  return [...new Set(view.records.tanksOfRoom(room).flatMap((id) => view.standingIn(id).map(({ clutch }) => clutch.clutch)))].sort();
}

export const tanks: Column<string> = {
  header: 'tanks',
  value: (room, view) => String(tanksIn(room, view).length),
  explain: (room, view) => ({
    formula: say('why.tanks'),
    inputs: tanksIn(room, view).map(({ tank, row }) => ({ name: say('input.tank'), value: tank, place: placeOf({ row, header: undefined }, view.records) })),
  }),
};

export const openClutches: Column<string> = {
  header: 'open_clutches',
  value: (room, view) => String(openIn(room, view).length),
  explain: (room, view) => ({
    formula: say('why.open-clutches'),
    inputs: openIn(room, view).map((id) => ({
      name: say('input.clutch'),
      value: id,
      place: placeOf({ row: (view.clutch(id) as NonNullable<ReturnType<PlanView['clutch']>>).row, header: undefined }, view.records),
    })),
  }),
};
