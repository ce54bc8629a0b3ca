import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { compareTexts } from '../base/order';
import { occurrencesUntil } from '../domain/routines';
import type { Occurrence, Routine, Subject } from '../domain/routines';
import { culturesOf } from '../records/cultures';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import type { Tank } from '../records/things';
import { cultureRoutines, CultureSubject } from './cultureRoutines';
import { ClutchSubject, clutchRoutines, compareTanks, OrderSubject, orderRoutines, PairSubject, pairRoutines, TankSubject, tankRoutines } from './subjects';
import type { ClutchState, PairState, PlanView } from './states';

/** Something to do, and where. */
export interface DueEntry {
  readonly occurrence: Occurrence;
  readonly action: Message;
  /** '' where none is known. */
  readonly room: string;
  readonly tank: string;
  readonly pair: string;
  readonly clutch: string;
  /** The register's row of the thing that it is about. */
  readonly row: Row;
}

/** What can be met on a walk through the rooms. */
export type Placed = Pick<DueEntry, 'room' | 'tank' | 'pair' | 'clutch' | 'row'>;

/** What lives in a fishroom. */
export interface Stock {
  readonly clutches: Iterable<ClutchState>;
  readonly pairs: Iterable<PairState>;
}

/**
 * What is open now, and what falls due until a day (days since 1970-01-01) is over: what is overdue first, then by its
 * moment, at one moment in walking order. A brood in several tanks is fed in each of them.
 */
export function dueUntil(lastDay: number, stock: Stock, view: PlanView): readonly DueEntry[] {
  const entries: DueEntry[] = [];
  const places = new Places(view);
  for (const { routine, action, subject, ...place } of askedOf(stock, view)) {
    for (const occurrence of occurrencesUntil(routine, subject, lastDay)) entries.push({ occurrence, action, room: places.roomOf(place.tank), ...place });
  }
  // There may be thousands, most of them due on the same few days: what decides is looked up once for each.
  return entries
    .map((entry) => ({ entry, later: entry.occurrence.state === 'overdue' ? 0 : 1, instant: entry.occurrence.due.instant, room: places.roomRank(entry) }))
    .sort((a, b) => a.later - b.later || a.instant - b.instant || a.room - b.room || places.compare(a.entry, b.entry))
    .map(({ entry }) => entry);
}

/** A routine that asks for something about a thing. */
export interface Asked extends Omit<DueEntry, 'occurrence' | 'room'> {
  readonly routine: Routine;
  readonly subject: Subject;
}

/** All that routines ask for about what lives in a fishroom, its orders and cultures. A brood in several tanks is fed in each of them. */
export function* askedOf({ clutches, pairs }: Stock, view: PlanView): Generator<Asked> {
  for (const state of clutches) {
    const routines = clutchRoutines(state, view);
    if (routines.length === 0) continue;
    const subject = new ClutchSubject(state, view);
    const tanks = [...state.study.heads.stands.keys()];
    const place = { subject, pair: state.clutch.pair ?? '', clutch: state.clutch.clutch, row: state.row };
    // Fry are in the way of a spawn where their parents are, and not where others of the brood stand.
    const home = state.clutch.pair === undefined ? undefined : view.records.pair(state.clutch.pair)?.tank;
    const tankFor = ({ anchor }: Routine): string => (home !== undefined && tanks.includes(home) && anchor?.startsWith('next_spawn') === true ? home : (tanks[0] ?? ''));
    for (const routine of routines) if (routine.level !== 'round') yield { ...asked(routine), ...place, tank: tankFor(routine) };
    for (const tank of tanks) for (const routine of routines) if (routine.level === 'round') yield { ...asked(routine), ...place, tank };
  }
  for (const state of pairs) {
    const routines = pairRoutines(state, view);
    if (routines.length === 0) continue;
    const subject = new PairSubject(state, view);
    for (const routine of routines) yield { ...asked(routine), subject, pair: state.pair.pair, clutch: '', tank: state.pair.tank ?? '', row: state.pair.row };
  }
  for (const id of view.records.index('tanks').ids()) {
    const tank = view.records.tank(id);
    const routines = tank === undefined ? [] : tankRoutines(tank, view);
    if (tank === undefined || routines.length === 0) continue;
    const subject = new TankSubject(tank, view);
    for (const routine of routines) yield { ...asked(routine), subject, pair: '', clutch: '', tank: id, row: tank.row };
  }
  for (const row of view.records.file('orders.csv')?.rows() ?? []) {
    const routines = orderRoutines(row, view);
    if (routines.length === 0) continue;
    const subject = new OrderSubject(row, view);
    for (const routine of routines) yield { ...asked(routine), subject, pair: '', clutch: '', tank: '', row };
  }
  const cultures = new CultureSubject(view);
  for (const culture of culturesOf(view.records)) {
    for (const { routine, action } of cultureRoutines(culture, view)) yield { routine, action, subject: cultures, pair: '', clutch: '', tank: '', row: culture.row };
  }
}

function asked(routine: Routine): Pick<Asked, 'routine' | 'action'> {
  return { routine, action: say('action.routine', routine.action) };
}

/** The walk through the rooms: rooms as they stand in their sheet, tanks by their position. */
export class Places {
  readonly #view: PlanView;
  readonly #tankRank = new Map<string, number>();
  readonly #roomRank = new Map<string, number>();

  constructor(view: PlanView) {
    this.#view = view;
    const { records } = view;
    for (const row of records.file('rooms.csv')?.rows() ?? []) if (!this.#roomRank.has(keyText(row))) this.#roomRank.set(keyText(row), this.#roomRank.size);
    const tanks: Tank[] = [];
    for (const id of records.index('tanks').ids()) tanks.push(records.tank(id) as Tank);
    for (const { tank } of tanks.sort(compareTanks)) this.#tankRank.set(tank, this.#tankRank.size);
  }

  roomOf(tank: string): string {
    return this.#view.records.tank(tank)?.room ?? '';
  }

  /** Rooms that are not in their sheet come after those that are. */
  roomRank({ room }: Pick<Placed, 'room'>): number {
    return this.#roomRank.get(room) ?? this.#roomRank.size;
  }

  compare(a: Placed, b: Placed): number {
    const rank = (ranks: ReadonlyMap<string, number>, id: string): number => ranks.get(id) ?? ranks.size;
    return (
      this.roomRank(a) - this.roomRank(b) ||
      compareTexts(a.room, b.room) ||
      rank(this.#tankRank, a.tank) - rank(this.#tankRank, b.tank) ||
      compareTexts(a.tank, b.tank) ||
      compareTexts(a.clutch, b.clutch) ||
      compareTexts(a.pair, b.pair) ||
      compareTexts(keyText(a.row), keyText(b.row))
    );
  }
}
