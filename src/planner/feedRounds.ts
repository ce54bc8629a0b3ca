import { textOf } from '../base/messages';
import type { Feeding } from './entry';
import { roundMinutes, spread } from './rounds';
import type { FishroomConfig } from '../records/config';

/** The feeding of a day: how often somebody goes round, how many tanks are fed, and what is done each time. */
export interface FeedDay {
  readonly rounds: number;
  readonly tanks: number;
  readonly turns: readonly FeedTurn[];
}

/** One walk with the same food. Where the fishroom names no rounds all walks with a food are told together. */
export interface FeedTurn {
  /** Minutes after midnight; undefined where the fishroom names no rounds. */
  readonly minute: number | undefined;
  /** How often on that day: once, where it is told when. */
  readonly times: number;
  readonly action: string;
  /** Tanks by their rooms, both in the order in which the feedings came. */
  readonly tanksByRoom: ReadonlyMap<string, readonly string[]>;
}

/** Who is fed on which day. Most days are like the one before, so what was found last is kept. */
export class FeedDays {
  readonly #feedings: readonly Feeding[];
  readonly #config: FishroomConfig;
  #last: { readonly fed: readonly Feeding[]; readonly found: FeedDay | undefined } = { fed: [], found: undefined };

  constructor(feedings: readonly Feeding[], config: FishroomConfig) {
    this.#feedings = feedings;
    this.#config = config;
  }

  /** The feeding of a day (days since 1970-01-01), in rounds; undefined where nobody is fed. Days on which the same are fed have the same one. */
  on(day: number): FeedDay | undefined {
    const fed = this.#feedings.filter(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay);
    const { fed: before } = this.#last;
    if (fed.length !== before.length || fed.some((feeding, i) => feeding !== before[i])) this.#last = { fed, found: feedDay(fed, { day, config: this.#config }) };
    return this.#last.found;
  }
}

/** Who is fed on a day (days since 1970-01-01), in rounds; undefined where nobody is. A tank with several broods is fed as often as the one that needs it most. */
export function feedDay(feedings: readonly Feeding[], { day, config }: { readonly day: number; readonly config: FishroomConfig }): FeedDay | undefined {
  const minutes = roundMinutes(config);
  const fed = new Map<string, { readonly room: string; readonly tank: string; readonly action: string; times: number }>();
  for (const { firstDay, lastDay, room, tank, clutch, action, timesADay } of feedings) {
    if (day < firstDay || day > lastDay) continue;
    const said = textOf(action);
    // Broods in no tank are told by their names, and don't become one.
    const place = tank === '' ? clutch : tank;
    const key = JSON.stringify([room, place, said]);
    const other = fed.get(key);
    if (other === undefined) fed.set(key, { room, tank: place, action: said, times: timesADay });
    else other.times = Math.max(other.times, timesADay);
  }
  if (fed.size === 0) return undefined;
  const turns = new Map<string, Omit<FeedTurn, 'tanksByRoom'> & { readonly tanksByRoom: Map<string, string[]> }>();
  for (const { room, tank, action, times } of fed.values()) {
    for (const minute of minutes.length === 0 ? [undefined] : spread(minutes, times)) {
      const once = minute === undefined ? times : 1;
      const key = JSON.stringify([minute, once, action]);
      let turn = turns.get(key);
      if (turn === undefined) turns.set(key, (turn = { minute, times: once, action, tanksByRoom: new Map() }));
      const tanks = turn.tanksByRoom.get(room);
      if (tanks === undefined) turn.tanksByRoom.set(room, [tank]);
      else tanks.push(tank);
    }
  }
  const all = [...turns.values()].sort((a, b) => (a.minute ?? 0) - (b.minute ?? 0));
  const rounds = minutes.length === 0 ? Math.max(...all.map(({ times }) => times)) : new Set(all.map(({ minute }) => minute)).size;
  return { rounds, tanks: new Set([...fed.values()].map(({ room, tank }) => JSON.stringify([room, tank]))).size, turns: all };
}

/** `08:00` of minutes after midnight. */
export function clockTime(minute: number): string {
  return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
}
