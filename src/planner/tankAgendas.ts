import type { Agenda } from './agenda';
import { NOTHING_DUE } from './agenda';
import type { Found } from './found';
import { askAll, NOTHING } from './foundProblems';
import type { FoundProblems } from './foundProblems';
import { tankRules } from './rules/registry';
import type { PlanView } from './states';
import { firstAsked, tankAgenda } from './subjects';

/** What is due of tanks, for those of which something is; routines of tanks are off unless the keeper wants them. */
export class TankAgendas {
  readonly #view: PlanView;
  readonly #problems: FoundProblems;
  readonly #agendas = new Map<string, Agenda>();
  readonly #found = new Map<string, readonly Found[]>();
  readonly #asked = new Map<string, ReadonlyMap<string, string>>();

  constructor(view: PlanView, problems: FoundProblems) {
    this.#view = view;
    this.#problems = problems;
  }

  of(tank: string): Agenda {
    return this.#agendas.get(tank) ?? NOTHING_DUE;
  }

  /** For each routine of tanks on one water, the tank that is asked for all of them. */
  askedOnWater(system: string): ReadonlyMap<string, string> {
    let asked = this.#asked.get(system);
    if (asked === undefined) this.#asked.set(system, (asked = firstAsked(this.#view.records.tanksOnWater(system), this.#view)));
    return asked;
  }

  /** The earliest instant at which time alone changes one of them. */
  get turn(): number {
    let turn = Number.POSITIVE_INFINITY;
    for (const agenda of this.#agendas.values()) turn = Math.min(turn, agenda.turn);
    return turn;
  }

  refresh(tanks: Iterable<string>, touched: Set<string>): void {
    this.#asked.clear();
    for (const id of tanks) {
      const tank = this.#view.records.tank(id);
      const agenda = tank === undefined ? NOTHING_DUE : tankAgenda(tank, this.#view);
      if (agenda === NOTHING_DUE) this.#agendas.delete(id);
      else this.#agendas.set(id, agenda);
      const before = this.#found.get(id) ?? NOTHING;
      const found = tank === undefined ? NOTHING : askAll(tankRules, tank, this.#view);
      if (before.length + found.length === 0) continue;
      this.#problems.replace(before, found, touched);
      if (found.length === 0) this.#found.delete(id);
      else this.#found.set(id, found);
    }
  }
}
