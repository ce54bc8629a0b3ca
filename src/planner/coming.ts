import { say } from '../base/messages';
import type { Message } from '../base/messages';
import { compareMoments, formatDay, hasCome, isFuture } from '../base/moment';
import type { Moment } from '../base/moment';
import { gramsUp } from '../domain/liveFood';
import { hasHours, occurrencesUntil, runOf } from '../domain/routines';
import type { Occurrence } from '../domain/routines';
import type { Count } from '../domain/things';
import { jobOf } from '../records/jobs';
import { keyText } from '../records/row';
import type { Row } from '../records/row';
import { valueOf } from '../records/things';
import { aheadUntil } from './ahead';
import type { AheadEntry, AheadKind } from './ahead';
import { askedOf, Places } from './due';
import type { Asked, Stock } from './due';
import type { Entry, EntryKind, Feeding } from './entry';
import { isInPlan, isToStart, liveFood, LONGEST_HATCH } from './liveFood';
import type { FoodToStart } from './liveFood';
import type { PlanView } from './states';

/** What is to be done and what is coming, from now until some day is over. */
export interface ComingDays {
  /** What is overdue first, then by moment, at one moment in walking order. */
  readonly entries: readonly Entry[];
  /** In walking order. */
  readonly feedings: readonly Feeding[];
}

/**
 * All that falls between now and the end of a day (days since 1970-01-01): each thing once, also where a routine asks for what is foretold
 * (the hatch, the first feed, fish to sell) or the room's plan of live food says it. Of the feeding there are no turns but who is fed on which days.
 */
export function comingUntil(lastDay: number, stock: Stock, view: PlanView): ComingDays {
  const places = new Places(view);
  const today = view.now.day;
  const food = liveFood({ first: today, last: lastDay + LONGEST_HATCH }, stock.clutches, view);
  const foretold = new Foretold(aheadUntil(lastDay, stock, view), view);
  const entries: Entry[] = [];
  const feedings: Feeding[] = [];
  for (const asked of askedOf(stock, view)) {
    const { routine, subject, action, tank, pair, clutch, row } = asked;
    const place = { room: places.roomOf(tank), tank, pair, clutch, species: speciesOf(asked, view), row };
    if (routine.level === 'round') {
      const run = runOf(routine, subject, { firstDay: today, lastDay });
      if (run !== undefined) feedings.push({ key: keyOf(asked, tank), routine: routine.routine, action, ...place, ...run });
      continue;
    }
    for (const occurrence of occurrencesUntil(routine, subject, lastDay)) {
      if (isInPlan({ occurrence, clutch }, food, view)) continue;
      entries.push({ key: keyOf(asked, String(occurrence.index)), kind: kindOfRoutine(asked), action, ...place, tanks: tank === '' ? [] : [tank], ...timesOf(occurrence, foretold.take(occurrence, clutch)) });
    }
  }
  // What may come by then but is expected later is told of by its routine when that is within the days.
  for (const entry of foretold.left()) if (entry.expected.day <= lastDay) entries.push(entryOf(entry, view.now));
  for (const day of food) {
    const row = view.records.index('clutches').row(day.clutches[0] ?? '');
    if (row !== undefined && isToStart(day, view.now) && day.start.day <= lastDay) entries.push(entryOfFood(day, row));
  }
  entries.push(...jobs(lastDay, view, places), ...orders(lastDay, view, entries));
  return {
    entries: eachOnce(entries)
      .map((entry) => ({ entry, later: entry.state === 'overdue' ? 0 : 1, room: places.roomRank(entry) }))
      .sort((a, b) => a.later - b.later || a.entry.due.instant - b.entry.due.instant || a.room - b.room || places.compare(a.entry, b.entry))
      .map(({ entry }) => entry),
    feedings: eachOnce(feedings).map((feeding) => ({ feeding, room: places.roomRank(feeding) })).sort((a, b) => a.room - b.room || places.compare(a.feeding, b.feeding)).map(({ feeding }) => feeding),
  };
}

/** Of several rows with one id the first holds. */
function eachOnce<Keyed extends { readonly key: string }>(all: readonly Keyed[]): readonly Keyed[] {
  const seen = new Set<string>();
  return all.filter(({ key }) => !seen.has(key) && seen.add(key));
}

type Times = Pick<Entry, 'due' | 'from' | 'to' | 'isExpected' | 'hasHours' | 'state' | 'observations' | 'occurrence' | 'food' | 'sale'>;

/** What is still to come is told as it is foretold; what is due by now stands where it fell due. */
function timesOf(occurrence: Occurrence, foretold: AheadEntry | undefined): Times {
  const { state, due, from, to, isExpected, routine } = occurrence;
  const window = foretold === undefined ? { due, from, to } : { due: state === 'upcoming' ? foretold.expected : due, from: state === 'upcoming' ? foretold.from : due, to: foretold.to };
  return { ...window, isExpected, hasHours: hasHours(routine), state, observations: foretold?.observations, occurrence, food: undefined, sale: foretold?.sale };
}

/** The key of the entry that an occurrence is. */
export function keyOfOccurrence({ occurrence: { routine, index }, row }: { readonly occurrence: Occurrence; readonly row: Row }): string {
  return keyOf({ routine, row, clutch: '' }, String(index));
}

/** The same thing has the same key whatever else there is, and whenever it falls. */
function keyOf({ routine, row, clutch }: Pick<Asked, 'routine' | 'row' | 'clutch'>, which: string): string {
  return [row.path.replace(/\.csv$/, ''), clutch === '' ? keyText(row) : clutch, routine.routine, which].map(encodeURIComponent).join('/');
}

const kindOfAhead: Readonly<Record<AheadKind, EntryKind>> = { hatch: 'hatch', release: 'hatch', 'first-feed': 'first-feed', 'next-spawn': 'next-spawn', sale: 'sale' };

/** Which anchor of a routine asks for what is foretold. */
const anchorOf: Readonly<Partial<Record<string, AheadKind>>> = { hatched: 'hatch', released: 'release', first_feed: 'first-feed', sale_size: 'sale' };

/** What is foretold and not told of by a routine. */
class Foretold {
  readonly #left: Map<string, AheadEntry>;
  readonly #view: PlanView;

  constructor(ahead: readonly AheadEntry[], view: PlanView) {
    this.#left = new Map(ahead.map((entry) => [keyOfAhead(entry), entry]));
    this.#view = view;
  }

  /** What is foretold of the moment at which a routine is due for the first time; it is told of by that from then on. */
  take({ index, routine }: Occurrence, clutch: string): AheadEntry | undefined {
    const kind = routine.offset === undefined && routine.anchor !== undefined && index === 0 && clutch !== '' ? anchorOf[routine.anchor] : undefined;
    if (kind === undefined) return undefined;
    // A brood is offered when it has sale size; other lengths that are asked for stand by themselves.
    const key = kind === 'sale' ? keyOfSale(clutch, this.#view.clutch(clutch)?.study.profile?.sale_mm) : `${clutch}/${kind}`;
    const found = this.#left.get(key);
    this.#left.delete(key);
    return found;
  }

  left(): Iterable<AheadEntry> {
    return this.#left.values();
  }
}

function keyOfAhead({ kind, clutch, pair, sale }: AheadEntry): string {
  return sale === undefined ? `${clutch === '' ? pair : clutch}/${kind}` : keyOfSale(clutch, sale.minMm);
}

function keyOfSale(clutch: string, minMm: number | undefined): string {
  return `${clutch}/sale/${minMm ?? ''}`;
}

function entryOf(entry: AheadEntry, now: Moment): Entry {
  const { kind, from, expected, to, room, tank, pair, clutch, species, observations, row, sale } = entry;
  const isHeld = sale?.heldUntil !== undefined && compareMoments(sale.heldUntil, expected) === 0;
  return {
    key: [row.path.replace(/\.csv$/, ''), keyText(row), kind, sale?.minMm ?? ''].map(encodeURIComponent).join('/'),
    kind: kindOfAhead[kind],
    action: actionOf(entry),
    room,
    tank,
    tanks: tank === '' ? [] : [tank],
    pair,
    clutch,
    species,
    due: expected,
    from,
    to,
    isExpected: !isHeld,
    hasHours: !expected.bare,
    // Fish that are long enough by now can be sold today.
    state: expected.day <= now.day && sale !== undefined ? 'due' : 'upcoming',
    observations,
    row,
    occurrence: undefined,
    food: undefined,
    sale,
  };
}

function actionOf({ kind, sale }: AheadEntry): Message {
  if (sale === undefined) return say(`entry.${kind as Exclude<AheadKind, 'sale'>}`);
  return sale.minMm === undefined ? say('entry.sale') : say('entry.sale.from-mm', sale.minMm);
}

const NOWHERE = { room: '', tank: '', tanks: [], pair: '', clutch: '', species: '' } as const;
const CERTAIN = { isExpected: false, observations: undefined, occurrence: undefined, food: undefined, sale: undefined } as const;

function entryOfFood(food: FoodToStart, row: Row): Entry {
  const { day, start, amount } = food;
  return { ...NOWHERE, ...CERTAIN, key: `food/${formatDay(day)}`, kind: 'live-food', action: say('entry.food', gramsUp(amount.grams)), due: start, from: start, to: start, hasHours: true, state: 'upcoming', row, food };
}

/** Work in the rooms that isn't over yet. */
function* jobs(lastDay: number, view: PlanView, places: Places): Generator<Entry> {
  for (const row of view.records.file('maintenance.csv')?.rows() ?? []) {
    const job = jobOf(row, view.records);
    if (job === undefined || compareMoments(job.to, view.now) < 0 || job.from.day > lastDay) continue;
    const { from, to, what, room, own, tanks } = job;
    const tank = own[0] ?? '';
    const state = isFuture(from, view.now) ? 'upcoming' : 'due';
    yield { ...NOWHERE, ...CERTAIN, key: `job/${encodeURIComponent(keyText(row))}`, kind: 'maintenance', action: say('entry.job', what ?? keyText(row)), room: room ?? places.roomOf(tank), tank, tanks, due: from, from, to, hasHours: !from.bare, state, row };
  }
}

/** Orders that have not left, on the day on which they are to leave. What a routine asks for on that very day says it already. */
function* orders(lastDay: number, view: PlanView, told: readonly Entry[]): Generator<Entry> {
  const isTold = new Set(told.flatMap(({ row, occurrence }) => (occurrence?.routine.anchor === 'due' && occurrence.routine.offset === undefined ? [row] : [])));
  for (const row of view.records.file('orders.csv')?.rows() ?? []) {
    const [due, sent] = [valueOf(row, 'orders', 'due'), valueOf(row, 'orders', 'sent')] as (Moment | undefined)[];
    if (due === undefined || hasCome(sent, view.now) || due.day > lastDay || isTold.has(row)) continue;
    const species = (valueOf(row, 'orders', 'species') as string | undefined) ?? '';
    const quantity = (valueOf(row, 'orders', 'quantity') as Count | number | undefined) ?? '';
    const buyer = (valueOf(row, 'orders', 'buyer') as string | undefined) ?? '';
    const many = typeof quantity === 'object' ? quantity.value : quantity;
    const action = buyer === '' ? say('entry.order', many, species) : say('entry.order.for', many, species, buyer);
    yield { ...NOWHERE, ...CERTAIN, key: `order/${encodeURIComponent(keyText(row))}`, kind: 'order', action, species, due, from: due, to: due, hasHours: !due.bare, state: due.day < view.now.day ? 'overdue' : due.day === view.now.day ? 'due' : 'upcoming', row };
  }
}

/** By what is asked for where the routine is one of those that come with the product, else by the record that shows that it is done. */
function kindOfRoutine({ routine, row }: Asked): EntryKind {
  const byName = kindOfName[routine.routine];
  if (byName !== undefined) return byName;
  for (const event of routine.doneBy) {
    const byEvent = kindOfEvent[event];
    if (byEvent !== undefined) return byEvent;
  }
  return row.path === 'orders.csv' ? 'order' : row.path === 'cultures.csv' ? 'live-food' : 'check';
}

const kindOfName: Readonly<Partial<Record<string, EntryKind>>> = { shrimp: 'live-food', strip: 'move', hatch: 'hatch', release: 'hatch' };

const kindOfEvent: Readonly<Partial<Record<string, EntryKind>>> = {
  hatched: 'hatch',
  released: 'hatch',
  first_feed: 'first-feed',
  fed: 'first-feed',
  free_swimming: 'free-swimming',
  counted: 'count',
  measured: 'count',
  moved: 'move',
  stripped: 'move',
  joined: 'move',
  sold: 'sale',
  tested: 'water',
  water_change: 'water',
  cleaned: 'maintenance',
  fault: 'maintenance',
};

function speciesOf({ clutch, pair }: Asked, view: PlanView): string {
  return (clutch === '' ? undefined : view.clutch(clutch)?.species) ?? (pair === '' ? undefined : view.records.pair(pair)?.species) ?? '';
}
