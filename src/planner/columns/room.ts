import { hasCome } from '../../base/moment';
import { say } from '../../base/messages';
import type { Tank } from '../../records/things';
import { placeOf } from '../places';
import type { Row } from '../../records/row';
import type { Agenda } from '../agenda';
import type { ClutchState, PlanView } from '../states';
import { occurrenceInput } from './agenda';
import type { Column } from './column';

function tanksIn(room: string, view: PlanView): readonly Tank[] {
  return view.records
    .tanksOfRoom(room)
    .flatMap((id) => view.records.tank(id) ?? [])
    .filter(({ retired }) => !hasCome(retired, view.now));
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

export const roomOverdue: Column<string> = {
  header: 'overdue',
  value: (room, view) => String(overdueIn(room, view).reduce((sum, { agenda }) => sum + agenda.overdue.length, 0)),
  explain: (room, view) => ({
    formula: say('why.overdue.room'),
    inputs: overdueIn(room, view).flatMap(({ row, agenda }) =>
      agenda.overdue.map((occurrence) => ({ ...occurrenceInput(occurrence, view), place: placeOf({ row, header: undefined }, view.records) })),
    ),
  }),
};

/** Clutches, tanks and pairs of the room with something overdue. */
function overdueIn(room: string, view: PlanView): readonly { readonly row: Row; readonly agenda: Agenda }[] {
  const all: { readonly row: Row; readonly agenda: Agenda }[] = [];
  const clutches = new Set<ClutchState>();
  for (const id of view.records.tanksOfRoom(room)) {
    for (const state of view.standingIn(id)) clutches.add(state);
    const tank = view.records.tank(id);
    if (tank !== undefined) all.push({ row: tank.row, agenda: view.tankAgenda(id) });
    for (const pair of view.pairsIn(id)) {
      const state = view.pair(pair);
      if (state !== undefined) all.push({ row: state.pair.row, agenda: state.agenda });
    }
  }
  return [...clutches, ...all].filter(({ agenda }) => agenda.overdue.length > 0);
}
