import type { Moment } from '../base/moment';
import type { Zone } from '../base/zone';
import type { ClutchStudy } from '../domain/clutchStudy';
import type { Pedigree } from '../domain/kinship';
import type { Window } from '../domain/learning';
import type { Spawn, SpawnGap, SpawnInterval } from '../domain/spawning';
import type { Timeline } from '../domain/timeline';
import type { Records } from '../records/records';
import type { Row } from '../records/row';
import type { Clutch, Pair } from '../records/things';
import type { Agenda } from './agenda';

/** Everything known of one clutch at now. */
export interface ClutchState {
  readonly row: Row;
  readonly clutch: Clutch;
  readonly species: string | undefined;
  readonly study: ClutchStudy;
  readonly timeline: Timeline;
  /** The pair's spawn before, and how long before; undefined for its first and without a pair. */
  readonly before: Spawn | undefined;
  readonly gap: SpawnGap | undefined;
  /** What is due and coming. */
  readonly agenda: Agenda;
}

/** A clutch as far as what is due hangs on it. */
export type StudiedClutch = Pick<ClutchState, 'clutch' | 'species' | 'study' | 'timeline'>;

/** The next spawn of a pair: what was learned, and calendar days as an 80 % window. */
export interface NextSpawn {
  readonly last: Spawn;
  readonly usualDays: number;
  readonly window: Window;
  readonly observations: number;
  readonly from: number;
  readonly expected: number;
  readonly to: number;
}

export interface PairState {
  readonly pair: Pair;
  /** Spawns not later than now, in order; a list of them is made when it is asked for. */
  readonly spawns: readonly Spawn[];
  readonly spawnCount: number;
  readonly lastSpawn: Spawn | undefined;
  /** Those between them; with the spawns themselves they are worked out whenever they are asked for. */
  readonly gaps: readonly SpawnGap[];
  readonly intervals: readonly SpawnInterval[];
  readonly next: NextSpawn | undefined;
  readonly agenda: Agenda;
}

/** What columns, rules and screens may look at. */
export interface PlanView {
  readonly records: Records;
  readonly now: Moment;
  readonly zone: Zone;
  /** A clutch that spawned by now; undefined for one that is not there, can't be read, or spawns later. */
  clutch(id: string): ClutchState | undefined;
  pair(id: string): PairState | undefined;
  /** Clutches that are not ended, as they are written. */
  openClutches(): readonly ClutchState[];
  /** Clutches that are not ended and stand in a tank, by id. */
  standingIn(tank: string): readonly ClutchState[];
  /** Pairs whose own tank it is, by id. */
  pairsIn(tank: string): readonly string[];
  /** The descent of the fish of `fish.csv`. */
  readonly pedigree: Pedigree;
  /** What is due and coming of a tank; nothing where it isn't in the register. */
  tankAgenda(tank: string): Agenda;
  /** For each routine of tanks on one water, the tank that is asked for all of them. */
  askedOnWater(system: string): ReadonlyMap<string, string>;
  /** Whether this keeper writes down one of the events: at least once in the last half year, of any thing. */
  keeps(events: readonly string[]): boolean;
}
