import { hasCome } from '../base/moment';
import { isTooOld } from '../domain/ammonia';
import { DAY } from '../domain/ladder';
import type { TankReading } from '../records/things';
import type { Found } from './found';
import { askAll, NOTHING } from './foundProblems';
import type { FoundProblems } from './foundProblems';
import { waterRules } from './rules/registry';
import type { Water } from './rules/water';
import { speciesIn } from './speciesIn';
import type { PlanView } from './states';
import { compareTanks } from './subjects';

/** Who reads a tank more often than this in a week is looked at again by the day. */
const MOST = 500;

interface Known {
  readonly tanks: readonly string[];
  readonly found: readonly Found[];
  /** When each of its younger readings will be seven days old. */
  readonly ends: readonly number[];
}

/** What the rules find about waters: the tanks on one system together, every other tank by itself. */
export class WaterProblems {
  readonly #view: PlanView;
  readonly #problems: FoundProblems;
  /** Waters with readings. */
  readonly #known = new Map<string, Known>();

  constructor(view: PlanView, problems: FoundProblems) {
    this.#view = view;
    this.#problems = problems;
  }

  /** The earliest instant after now at which a reading is too old to be warned of. */
  get turn(): number {
    const now = this.#view.now.instant;
    let turn = Number.POSITIVE_INFINITY;
    for (const { ends } of this.#known.values()) for (const end of ends) if (end > now && end < turn) turn = end;
    return turn;
  }

  /** Looks again at the waters of some tanks, and at systems that a tank came to or left. */
  refresh({ tanks, systems }: { readonly tanks: Iterable<string>; readonly systems: Iterable<string> }, touched: Set<string>): void {
    const all = new Set(systems);
    for (const tank of tanks) {
      const system = this.#view.records.tank(tank)?.system;
      if (system !== undefined) all.add(system);
      this.#ask(`tank ${tank}`, system === undefined ? [tank] : [], touched);
    }
    for (const system of all) this.#ask(`system ${system}`, this.#tanksOn(system), touched);
  }

  /** Looks again at all waters that have readings. */
  refreshAll(touched: Set<string>): void {
    for (const [key, { tanks }] of this.#known) this.#ask(key, tanks, touched);
  }

  #tanksOn(system: string): readonly string[] {
    return [...this.#view.records.tanksOnWater(system)].sort(compareTanks).map(({ tank }) => tank);
  }

  /** A water without tanks or readings is forgotten. Of tanks that are out of use nothing is told. */
  #ask(key: string, tanks: readonly string[], touched: Set<string>): void {
    const readings = tanks.length === 0 ? [] : this.#view.records.readingsOf(tanks[0] as string);
    const before = this.#known.get(key)?.found ?? NOTHING;
    const inUse = tanks.filter((tank) => !hasCome(this.#view.records.tank(tank)?.retired, this.#view.now));
    const found = readings.length === 0 || inUse.length === 0 ? NOTHING : askAll(waterRules, { tanks: inUse, species: speciesIn(inUse, this.#view) } satisfies Water, this.#view);
    if (readings.length === 0) this.#known.delete(key);
    else this.#known.set(key, { tanks, found, ends: this.#endsOf(readings) });
    if (before.length + found.length > 0) this.#problems.replace(before, found, touched);
  }

  #endsOf(readings: readonly TankReading[]): readonly number[] {
    const ends: number[] = [];
    for (let i = readings.length - 1; i >= 0 && ends.length < MOST; i--) {
      const { time } = readings[i] as TankReading;
      if (isTooOld(time, this.#view.now)) break;
      if (!time.bare) ends.push(time.instant + 7 * DAY + 1);
    }
    return ends;
  }
}
