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

/** A feeding as it is counted: those with the same key are one. */
interface Fed {
  readonly feeding: Feeding;
  readonly key: string;
  readonly place: string;
  readonly action: string;
}

/** Who is fed on which day. Most days are like others, so what was found is kept. */
export class FeedDays {
  readonly #feedings: readonly Fed[];
  readonly #minutes: readonly number[];
  readonly #found = new Map<string, FeedDay | undefined>();
  readonly #byDay = new Map<number, FeedDay | undefined>();

  constructor(feedings: readonly Feeding[], config: FishroomConfig) {
    this.#minutes = roundMinutes(config);
    this.#feedings = feedings.map((feeding) => {
      const action = textOf(feeding.action);
      // Broods in no tank are told by their names, and don't become one.
      const place = feeding.tank === '' ? feeding.clutch : feeding.tank;
      return { feeding, key: JSON.stringify([feeding.room, place, action]), place, action };
    });
  }

  /** The feeding of a day (days since 1970-01-01), in rounds; undefined where nobody is fed. A tank with several broods is fed as often as the one that needs it most. */
  on(day: number): FeedDay | undefined {
    if (this.#byDay.has(day)) return this.#byDay.get(day);
    const numbers: number[] = [];
    this.#feedings.forEach(({ feeding: { firstDay, lastDay } }, i) => {
      if (firstDay <= day && day <= lastDay) numbers.push(i);
    });
    const same = numbers.join();
    if (!this.#found.has(same)) this.#found.set(same, inRounds(numbers.flatMap((i) => this.#feedings[i] ?? []), this.#minutes));
    const found = this.#found.get(same);
    this.#byDay.set(day, found);
    return found;
  }
}

/** The feeding of one day alone. */
export function feedDay(feedings: readonly Feeding[], { day, config }: { readonly day: number; readonly config: FishroomConfig }): FeedDay | undefined {
  return new FeedDays(feedings.filter(({ firstDay, lastDay }) => firstDay <= day && day <= lastDay), config).on(day);
}

function inRounds(feedings: readonly Fed[], minutes: readonly number[]): FeedDay | undefined {
  const fed = new Map<string, { readonly room: string; readonly tank: string; readonly action: string; times: number }>();
  for (const { feeding: { room, timesADay }, key, place, action } of feedings) {
    const other = fed.get(key);
    if (other === undefined) fed.set(key, { room, tank: place, action, times: timesADay });
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
